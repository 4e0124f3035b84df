#pragma once
// What the system says of a failure, in the language of the rest.

#include <string>
#include <system_error>

namespace graftcast {

/// Of an errno.
std::string system_reason(int number);
std::string system_reason(const std::error_code& fault);

}  // namespace graftcast
