// Run while building: writes the manual pages and the completions into a folder.
//
//   graftcast_pages FOLDER

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>

#include "commands.hpp"
#include "completions.hpp"
#include "global_options.hpp"
#include "reference_pages.hpp"
#include "text/atomic_file.hpp"
#include "version.hpp"

namespace graftcast::cli {

namespace {

void write_pages(const std::filesystem::path& folder) {
  GlobalOptions options;
  const std::vector<OptionSpec> global_specs = global_option_specs(options);
  const std::vector<CommandSpec> commands = all_commands();
  std::string version = program_name();
  std::ranges::replace(version, '/', ' ');
  for (const char* part : {"man1", "bash", "zsh", "fish"}) make_folder(folder / part);
  for (const auto& [name, page] : manual_pages(commands, global_specs, version, program_date()))
    replace_file(folder / "man1" / name, page);
  replace_file(folder / "bash" / "graftcast", bash_completion(commands, global_specs));
  replace_file(folder / "zsh" / "_graftcast", zsh_completion(commands, global_specs));
  replace_file(folder / "fish" / "graftcast.fish", fish_completion(commands, global_specs));
}

}  // namespace

}  // namespace graftcast::cli

int main(int count, char** words) {
  if (count != 2) return 2;
  try {
    graftcast::cli::write_pages(words[1]);
  } catch (const std::exception& fault) {
    std::fprintf(stderr, "%s\n", fault.what());
    return 1;
  }
  return 0;
}
