#include "inputs.hpp"

#include <set>

#include <fmt/format.h>

namespace graftcast {

namespace {

namespace fs = std::filesystem;

std::string stamp_of(const fs::path& file) {
  std::error_code problem;
  const auto size = fs::file_size(file, problem);
  const auto changed = fs::last_write_time(file, problem).time_since_epoch().count();
  return fmt::format("{}\t{}\t{}\n", file.string(), problem ? 0 : size, changed);
}

}  // namespace

std::string inputs_of(const fs::path& folder) {
  std::set<fs::path> files{folder / "site.json", folder / "learned.json"};
  for (const char* part : {"models", "weather"}) {
    std::error_code problem;
    for (fs::recursive_directory_iterator at(folder / part, problem), end; !problem && at != end;
         at.increment(problem))
      files.insert(at->path());
  }
  std::string text;
  for (const fs::path& file : files) text += stamp_of(file);
  return text;
}

}  // namespace graftcast
