#pragma once
// Options that say how a weather file is to be read, for every command that takes one.

#include <memory>
#include <vector>

#include "command.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast::cli {

/// `--stamp`, `--time-zone`, `--wind-height`, `--reader`, `--column`, `--missing`, under the heading `group`.
std::vector<OptionSpec> source_options(const std::shared_ptr<SourceSettings>& source,
                                       const std::string& group);

}  // namespace graftcast::cli
