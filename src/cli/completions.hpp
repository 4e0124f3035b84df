#pragma once
// Completion for shells, made from the descriptions of the commands.

#include <span>
#include <string>

#include "command.hpp"

namespace graftcast::cli {

std::string bash_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options);
std::string zsh_completion(std::span<const CommandSpec> commands, std::span<const OptionSpec> global_options);
std::string fish_completion(std::span<const CommandSpec> commands,
                            std::span<const OptionSpec> global_options);

}  // namespace graftcast::cli
