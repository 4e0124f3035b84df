// graftcast: the one place that catches errors and turns them into text and exit codes.

#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <memory>
#include <new>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>

#include "command_line.hpp"
#include "commands.hpp"
#include "global_options.hpp"
#include "graftcast/error.hpp"
#include "help.hpp"
#include "language_option.hpp"
#include "report/json_report.hpp"
#include "report/text_layout.hpp"
#include "standard_output.hpp"
#include "text/system_reason.hpp"
#include "text/tr.hpp"
#include "version.hpp"

namespace graftcast::cli {

namespace {

constexpr int usage_code = 2;
constexpr int internal_code = 70;  // sysexits: a fault of the program itself.

/// Commands whose name begins with `group`, for the help of `graftcast weather`.
std::vector<CommandSpec> in_group(const std::vector<CommandSpec>& commands, const std::string& group) {
  std::vector<CommandSpec> chosen;
  for (const CommandSpec& command : commands)
    if (group.empty() || command.name.starts_with(group + ' ')) chosen.push_back(command);
  return chosen;
}

std::string help_text(const Request& request, const std::vector<CommandSpec>& commands,
                      const std::vector<OptionSpec>& global_specs, const GlobalOptions& options) {
  const bool full = request.what == Request::What::long_help;
  const TerminalStyle style = style_of(options);
  if (request.command != nullptr) return command_help(*request.command, global_specs, style, full);
  return program_help(in_group(commands, request.group), global_specs, style, full);
}

/// On standard error; where that cannot be written either, the exit code is all that is left to tell.
void say(const std::string& text) {
  std::fputs(text.c_str(), stderr);
}

void print_notes(const std::vector<std::string>& notes) {
  for (const std::string& note : notes) say(fmt::format("graftcast: {}\n", printable(note)));
}

int answer(const Answer& answer) {
  const bool read = write_answer(answer.text);
  if (read) print_notes(answer.notes);
  return answer.exit_code;
}

int run(const std::vector<std::string>& arguments, GlobalOptions& options) {
  const std::vector<OptionSpec> global_specs = global_option_specs(options);
  const std::vector<CommandSpec> commands = all_commands();
  const Request request = parse_command_line(arguments, commands, global_specs);
  switch (request.what) {
    case Request::What::command:
      return answer(request.command->run(options));
    case Request::What::version:
      return answer({version_text(), {}, 0});
    case Request::What::nothing:
      say(help_text(request, commands, global_specs, options));
      return usage_code;
    default:
      return answer({help_text(request, commands, global_specs, options), {}, 0});
  }
}

int report(const Error& error, bool json) {
  if (json)
    say(error_json(error).dump(-1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n');
  else
    say(fmt::format("graftcast: {}\n", printable(error.what())));
  return error.exit_code();
}

int guarded_run(const std::vector<std::string>& arguments) {
  GlobalOptions options;
  // An error of the command line may come before --json was read.
  const bool json = asks_for_json(arguments);
  try {
    return run(arguments, options);
  } catch (const Error& error) {
    return report(error, json);
  } catch (const std::filesystem::filesystem_error& fault) {
    return report(OpenError(fault.path1().string(),
                            tr("cannot be looked at: {reason}", "reason"_a = system_reason(fault.code()))),
                  json);
  } catch (const std::bad_alloc&) {
    say(fmt::format("graftcast: {}\n", tr("out of memory")));
  } catch (const std::exception& fault) {
    say(fmt::format("graftcast: {}\n", tr("internal fault: {reason}", "reason"_a = printable(fault.what()))));
  }
  return internal_code;
}

/// In the language that is asked for, from the first word of the help and the first error on.
int run_in_language(const std::vector<std::string>& arguments) {
  std::unique_ptr<const Catalogue> catalogue;
  try {
    catalogue = catalogue_asked_for(arguments);
  } catch (const Error& error) {
    return report(error, asks_for_json(arguments));
  }
  const LanguageScope language(catalogue.get());
  return guarded_run(arguments);
}

}  // namespace

}  // namespace graftcast::cli

int main(int count, char** words) {
  graftcast::cli::ignore_broken_pipes();
  return graftcast::cli::run_in_language({words + 1, words + std::max(count, 1)});
}
