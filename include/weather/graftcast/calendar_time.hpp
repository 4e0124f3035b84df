#pragma once
// Instants, local days and the site's clock.

#include <chrono>
#include <optional>
#include <string>
#include <string_view>

namespace graftcast {

using Instant = std::chrono::sys_seconds;                ///< UTC, whole seconds.
using Hour = std::chrono::sys_time<std::chrono::hours>;  ///< UTC, the hour [t, t + 1 h).
using LocalDay = std::chrono::local_days;                ///< A calendar day of the site's own clock.

/// The site's clock: an IANA time zone with its daylight-saving rules.
/// Error of the constructor: RangeError for an unknown zone name (the hint offers the nearest names).
class Clock {
 public:
  explicit Clock(std::string_view iana_name);

  const std::string& name() const { return name_; }
  /// Local calendar day that holds `instant`.
  LocalDay day_of(Instant instant) const;
  /// First instant of local day `day`; where midnight does not exist, the first instant after the gap.
  Instant begin_of(LocalDay day) const;
  /// Twelve o'clock of local day `day`: what a date without a time stands for.
  Instant noon_of(LocalDay day) const;
  /// Number of hours in local day `day`: 23, 24 or 25 (also other lengths where a zone changes its offset).
  double hours_in(LocalDay day) const;
  /// Offset from UTC in force at `instant`.
  std::chrono::seconds offset_at(Instant instant) const;
  /// Standard (winter) offset from UTC in force in the year of `instant`, for logs kept in local standard
  /// time.
  std::chrono::seconds standard_offset_at(Instant instant) const;

  /// A clock reading turned into UTC. `second_pass` chooses the later of two readings when the clock went
  /// back.
  struct Resolved {
    Instant instant;
    enum class Fold { unique, doubled, absent } fold = Fold::unique;
  };
  Resolved resolve(std::chrono::local_seconds reading, bool second_pass = false) const;

  /// `YYYY-MM-DDTHH:MM` on this clock.
  std::string local_text(Instant instant) const;

 private:
  std::string name_;
  const void* zone_;
};

/// `YYYY-MM-DDTHH:MM:SSZ`.
std::string utc_text(Instant instant);
/// `YYYY-MM-DD`.
std::string day_text(LocalDay day);

/// ISO 8601 date `YYYY-MM-DD` of the proleptic Gregorian calendar, or nothing ("2025-02-30" is nothing).
std::optional<LocalDay> parse_day(std::string_view text);
/// ISO 8601 date and time: `YYYY-MM-DDTHH:MM[:SS][.fff][Z|+hh:mm]` (a blank may stand for T; hour 24:00 is
/// allowed).
struct ParsedTime {
  std::chrono::local_seconds reading;          ///< What the text shows.
  std::optional<std::chrono::seconds> offset;  ///< Its offset from UTC where one is given.
};
std::optional<ParsedTime> parse_time(std::string_view text);

}  // namespace graftcast
