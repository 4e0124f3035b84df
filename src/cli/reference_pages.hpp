#pragma once
// Manual pages, made from the descriptions of the commands.

#include <map>
#include <span>
#include <string>

#include "command.hpp"

namespace graftcast::cli {

/// Pages of section 1 by file name: `graftcast.1`, then one a command, `graftcast-weather-show.1`.
/// `version` and `date` (ISO 8601) stand in their foot.
std::map<std::string, std::string> manual_pages(std::span<const CommandSpec> commands,
                                                std::span<const OptionSpec> global_options,
                                                const std::string& version, const std::string& date);

}  // namespace graftcast::cli
