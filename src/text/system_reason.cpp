#include "text/system_reason.hpp"

#include <array>

#include "text/tr.hpp"

namespace graftcast {

namespace {

/// Those that files and folders give most, as the C library words them; others stay as it says them.
[[maybe_unused]] constexpr std::array frequent{
    tr_later("No such file or directory"),
    tr_later("Permission denied"),
    tr_later("Operation not permitted"),
    tr_later("No space left on device"),
    tr_later("Disk quota exceeded"),
    tr_later("File too large"),
    tr_later("File exists"),
    tr_later("Not a directory"),
    tr_later("Is a directory"),
    tr_later("Directory not empty"),
    tr_later("Read-only file system"),
    tr_later("Input/output error"),
    tr_later("File name too long"),
    tr_later("Too many levels of symbolic links"),
    tr_later("Too many open files"),
    tr_later("Device or resource busy"),
    tr_later("Invalid argument"),
    tr_later("Cannot allocate memory"),
};

}  // namespace

std::string system_reason(int number) {
  return std::string(translated(std::generic_category().message(number)));
}

std::string system_reason(const std::error_code& fault) {
  return std::string(translated(fault.message()));
}

}  // namespace graftcast
