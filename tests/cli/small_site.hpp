#pragma once
// A small invented site for tests over the whole program.

#include <filesystem>
#include <string>
#include <vector>

#include "run_program.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {

/// Four grafts in an invented place with ten days of log and three of forecast, a hot one among them.
class SmallSite {
 public:
  SmallSite();

  const std::filesystem::path& path() const { return folder_.path(); }
  std::string text() const { return folder_.path().string(); }
  std::filesystem::path write(const std::string& name, std::string_view content) const {
    return folder_.write(name, content);
  }
  std::string read(const std::string& name) const { return folder_.read(name); }
  void replace(const std::string& name, const std::string& from, const std::string& to) const;

  /// Runs the program on it, as of the morning of 11 June 2025, with few members.
  Said run(std::vector<std::string> arguments, const Surroundings& surroundings = {}) const;

  /// Everything within it: each file's name, permissions and content.
  std::string fingerprint() const;

 private:
  TemporaryFolder folder_;
};

inline constexpr const char* small_morning = "2025-06-11T06:30";

/// Hourly log with headers that name themselves, from local midnight of `first_day` of June 2025 on.
std::string hourly_log(int first_day, int days);

}  // namespace graftcast::testing
