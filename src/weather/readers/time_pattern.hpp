#pragma once
// Time stamps in a layout of the owner's choice (private to the layer).

#include <optional>
#include <string>
#include <string_view>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

/// A strptime-like layout: %Y %y %m %d %e %b %j %H %I %M %S %p %z %s, with %F, %T, %R and %D for what they
/// stand for; %N is a spreadsheet's day number with the time as its fraction (25569 is 1970-01-01), %n a
/// whole one in a daily log; a blank matches any run of blanks. Numbers need no leading zero, but a %Y has
/// four digits. Own code, since date::parse takes "10:05xyz" and, without ONLY_C_LOCALE, reads 1 PM as 1 AM;
/// and it costs a microsecond a row.
class TimePattern {
 public:
  /// Error: RangeError for a directive it does not know.
  explicit TimePattern(std::string_view format);
  /// The whole of `text`, or nothing: also for 30 February, minute 60, and text behind. Hour 24:00 is the
  /// next day's 0:00; `%y` 69..99 is 19xx, 00..68 is 20xx; `%p` takes AM, a.m., A and so on.
  std::optional<ParsedTime> parse(std::string_view text) const;
  bool has_date() const { return has_any("YyjsNn"); }
  bool has_time_of_day() const { return has_any("HIsN"); }

 private:
  bool has_any(std::string_view directives) const;
  std::string items_;  ///< Each item two letters: '%' and a directive, or '=' and a letter to match.
};

}  // namespace graftcast
