#pragma once
// Where the real open weather lies that tests may read; they say "skipped" where it is not.

#include <filesystem>
#include <string>

#include <gtest/gtest.h>

namespace graftcast::testing {

inline std::filesystem::path open_file(const std::string& name) {
  return std::filesystem::path(GRAFTCAST_OPEN_DATA) / "weather" / name;
}

}  // namespace graftcast::testing

#define SKIP_WITHOUT(file)                                                                       \
  if (!std::filesystem::exists(graftcast::testing::open_file(file))) {                           \
    GTEST_SKIP() << "skipped: no open data at " << graftcast::testing::open_file(file).string(); \
  }
