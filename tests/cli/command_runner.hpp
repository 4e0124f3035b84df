#pragma once
// Runs the real program in a folder of its own and tells what came of it.

#include <filesystem>
#include <map>
#include <string>
#include <vector>

namespace graftcast::testing {

struct CommandOutcome {
  int exit_code = -1;
  std::string out, err;
};

/// `graftcast` with `arguments`; `input` is its standard input.
CommandOutcome run_graftcast(const std::vector<std::string>& arguments, const std::string& input = {});

/// Every file below `folder` with its content.
std::map<std::string, std::string> files_below(const std::filesystem::path& folder);

/// A small whole site: three grafts, ten days of hourly weather, a diary. Its morning is
/// `small_site_morning`.
void write_small_site(const std::filesystem::path& folder);
inline constexpr const char* small_site_morning = "2025-06-09T06:00Z";

}  // namespace graftcast::testing
