#pragma once
// The command line against the descriptions of the commands.

#include <span>
#include <string>
#include <vector>

#include "command.hpp"

namespace graftcast::cli {

/// What the command line asks for.
struct Request {
  enum class What { command, short_help, long_help, version, nothing } what = What::nothing;
  const CommandSpec* command = nullptr;  ///< Of a help: the one it is about, or none.
  std::string group;  ///< Beginning of a two-word command that was given alone (`weather`).
};

/// Parses `arguments` (without the program's name); values go to the descriptions' `take`.
/// Errors: UsageError with the nearest names for an unknown command or option, for words that lack or do not
/// fit, and for values that are wrong.
Request parse_command_line(const std::vector<std::string>& arguments, std::span<const CommandSpec> commands,
                           std::span<const OptionSpec> global_options);

}  // namespace graftcast::cli
