#pragma once
// Help, made from the descriptions of the commands.

#include <span>
#include <string>

#include "command.hpp"
#include "report/terminal_style.hpp"

namespace graftcast::cli {

/// One line for each command, examples, the common options.
std::string program_help(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options,
                         const TerminalStyle& style, bool full);

/// Of one command: examples first, then its words and options; `full` adds what each means and the exit
/// codes.
std::string command_help(const CommandSpec& command, std::span<const OptionSpec> global_options,
                         const TerminalStyle& style, bool full);

}  // namespace graftcast::cli
