#pragma once

#include <string>

namespace graftcast::cli {

/// `graftcast/0.1.0`, as services are told.
std::string program_name();

/// Day of the source it was built from: `2025-06-09`.
std::string program_date();

/// Version, build, and where the models were found.
std::string version_text();

}  // namespace graftcast::cli
