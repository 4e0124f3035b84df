#pragma once
// Options that every command takes.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "command.hpp"
#include "graftcast/calendar_time.hpp"
#include "report/terminal_style.hpp"

namespace graftcast::cli {

enum class When : std::uint8_t { automatic, always, never };

struct GlobalOptions {
  std::filesystem::path site = ".";
  bool json = false;
  std::string at;  ///< Empty: now.
  bool hindsight = false;
  std::uint64_t seed = 1;
  int members = 64;
  int threads = 0;  ///< 0: as many as the machine has.
  UnitSystem units = UnitSystem::metric;
  When colour = When::automatic;
  std::optional<int> width;
  bool ascii = false;
};

/// Their descriptions; values go into `options`, which must outlive them.
std::vector<OptionSpec> global_option_specs(GlobalOptions& options);

/// Style for standard output by options, environment (NO_COLOR, TERM, the locale) and terminal.
TerminalStyle style_of(const GlobalOptions& options);

/// The moment an answer is for: `--at`, else the system's clock, down to the minute. A date alone means six
/// in the morning of the site's clock. Error: UsageError.
Instant moment_of(const GlobalOptions& options, const Clock& clock);

int threads_of(const GlobalOptions& options);

}  // namespace graftcast::cli
