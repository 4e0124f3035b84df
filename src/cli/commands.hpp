#pragma once
// The commands, one file each.

#include <vector>

#include "command.hpp"

namespace graftcast::cli {

CommandSpec morning_command();
CommandSpec when_command();
CommandSpec since_command();
CommandSpec learn_command();
CommandSpec why_command();
CommandSpec weather_show_command();
CommandSpec weather_add_command();
CommandSpec weather_fetch_command();
CommandSpec graft_command();
CommandSpec note_command();
CommandSpec split_command();
CommandSpec new_command();
CommandSpec spots_command();
CommandSpec page_command();
CommandSpec models_command();
CommandSpec calendar_command();
CommandSpec labels_command();
CommandSpec demo_command();

/// All of them in the order of the help.
std::vector<CommandSpec> all_commands();

}  // namespace graftcast::cli
