#pragma once

#include <string>

namespace graftcast::cli {

/// `graftcast/0.1.0`, as services are told.
std::string program_name();

/// Version, build, and where the models were found.
std::string version_text();

}  // namespace graftcast::cli
