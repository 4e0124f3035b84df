#pragma once

#include <string>

namespace graftcast::cli {

/// Version, build, and where the models were found.
std::string version_text();

}  // namespace graftcast::cli
