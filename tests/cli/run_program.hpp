#pragma once
// Runs the real program and keeps what it said.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace graftcast::testing {

struct Said {
  int exit_code = -1;  ///< -1 when a signal ended it.
  std::string out, err;
};

struct Surroundings {
  std::string input{};  ///< Standard input.
  std::map<std::string, std::string>
      environment{};               ///< Added to a bare one (UTF-8, a terminal with colours).
  std::filesystem::path folder{};  ///< Where it runs; empty: here.
  std::filesystem::path output{};  ///< Where standard output goes instead, for example /dev/full.
};

/// Runs the program under test. Error: std::runtime_error when it cannot be started.
Said run(const std::vector<std::string>& arguments, const Surroundings& surroundings = {});

}  // namespace graftcast::testing
