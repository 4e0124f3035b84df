#pragma once
// From the clock readings of a log's rows to intervals in UTC (private to the layer).

#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "note_book.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// The clock by which a source's bare stamps are to be read: a zone's, or a fixed offset from UTC.
class SourceClock {
 public:
  /// `time_zone` as in site.json: an IANA name, `UTC`, an offset such as `+01:00`, or empty for the site's.
  /// Error: RangeError.
  SourceClock(const std::string& time_zone, const Clock& site_clock);
  static SourceClock utc();

  /// Instant of a reading; the two bad cases as Clock::resolve tells them. Quick along a series.
  Clock::Resolved resolve(std::chrono::local_seconds reading, bool second_pass);
  Span day(LocalDay day) const;
  const std::string& name() const { return name_; }
  std::optional<Clock> zone() const { return zone_; }

 private:
  explicit SourceClock(std::chrono::seconds fixed) : name_("UTC"), fixed_(fixed) {}

  std::string name_;
  std::optional<std::chrono::seconds> fixed_;
  std::optional<Clock> zone_;
  /// The day asked for last, and its offset where it has but one.
  LocalDay last_day_ = LocalDay::min();
  std::optional<std::chrono::seconds> last_offset_;
};

/// The stamps of all rows, in the order of the file.
struct RowTimes {
  static constexpr std::int32_t no_offset = std::numeric_limits<std::int32_t>::min();

  std::vector<std::chrono::local_seconds> reading;
  std::vector<std::int32_t> offset_s;  ///< `no_offset` where the stamp shows none.
  std::vector<std::uint32_t> line;
  bool daily = false;

  std::size_t size() const { return reading.size(); }
};

/// Rows in rising order of time, without the ones that cannot be placed.
struct TimeLine {
  std::vector<std::uint32_t> row;  ///< Index of the row in the file.
  std::vector<Span> interval;      ///< What a mean or a sum of it covers.
  std::chrono::seconds step{};     ///< The usual distance of two rows.
  bool instants = false;  ///< Means in the file are really values of the moment that ends the interval.
};

/// Lays the rows out. Rows in an hour that the clock skips are set aside; of an hour that comes twice, rows
/// are of the first pass until the clock goes back. Rows out of order are sorted, repeated ones set aside.
/// All of it is noted. `stamp`: see SourceSettings; where it is not given, rows more than an hour apart are
/// instants, others start their interval.
TimeLine lay_out(const RowTimes& rows, SourceClock& clock, std::optional<Stamp> stamp, NoteBook& notes,
                 const std::string& file);

}  // namespace graftcast
