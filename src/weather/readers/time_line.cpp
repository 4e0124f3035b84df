#include "readers/time_line.hpp"

#include <algorithm>
#include <numeric>
#include <unordered_map>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

using std::chrono::local_seconds;

namespace {

std::optional<std::chrono::seconds> fixed_offset(const std::string& text) {
  if (text == "UTC" || text == "Z" || text == "GMT") return std::chrono::seconds(0);
  if (text.empty() || (text[0] != '+' && text[0] != '-')) return std::nullopt;
  const auto parsed = parse_time("2000-01-01T00:00" + text);
  if (!parsed)
    throw RangeError(tr("\"{text}\" is not an offset from UTC", "text"_a = text), tr("+hh:mm is right"));
  return parsed->offset;
}

/// Newest row first, as some exports have it.
bool is_newest_first(const RowTimes& rows) {
  std::size_t falls = 0;
  std::size_t rises = 0;
  for (std::size_t row = 1; row < rows.size(); ++row) {
    falls += rows.reading[row] < rows.reading[row - 1];
    rises += rows.reading[row] > rows.reading[row - 1];
  }
  return falls > rises;
}

struct Placed {
  std::uint32_t row;
  Instant instant;
};

/// Places rows one after the other; remembers which pass of a doubled hour it is in.
class Placer {
 public:
  Placer(const RowTimes& rows, SourceClock& clock, NoteBook& notes, const std::string& file)
      : rows_(rows), clock_(clock), notes_(notes), file_(file) {}

  std::optional<Instant> place(std::uint32_t row) {
    const local_seconds reading = rows_.reading[row];
    if (rows_.offset_s[row] != RowTimes::no_offset) {
      return Instant(reading.time_since_epoch() - std::chrono::seconds(rows_.offset_s[row]));
    }
    if (rows_.daily) return clock_.day(std::chrono::floor<std::chrono::days>(reading)).begin;
    return place_by_clock(row, reading);
  }

 private:
  std::optional<Instant> place_by_clock(std::uint32_t row, local_seconds reading) {
    using Fold = Clock::Resolved::Fold;
    auto resolved = clock_.resolve(reading, false);
    if (resolved.fold == Fold::absent) {
      note(row, "absent-hour",
           tr("the clock of {zone} skips this hour; the rows are set aside (a logger that keeps one time all "
              "year needs \"time_zone\" as an offset such as +01:00)",
              "zone"_a = clock_.name()));
      return std::nullopt;
    }
    if (resolved.fold == Fold::unique) {
      last_doubled_ = local_seconds::min();
      second_pass_ = false;
      return resolved.instant;
    }
    second_pass_ = second_pass_ || reading <= last_doubled_;
    last_doubled_ = reading;
    note(row, "doubled-hour",
         tr("the clock of {zone} shows this hour twice; which is which was told by the order of the rows",
            "zone"_a = clock_.name()));
    return second_pass_ ? clock_.resolve(reading, true).instant : resolved.instant;
  }

  void note(std::uint32_t row, std::string_view kind, const std::string& text) {
    if (notes_.count(kind, text)) notes_.example(fmt::format("{}:{}", file_, rows_.line[row]));
  }

  const RowTimes& rows_;
  SourceClock& clock_;
  NoteBook& notes_;
  const std::string& file_;
  local_seconds last_doubled_ = local_seconds::min();
  bool second_pass_ = false;
};

std::vector<Placed> place_all(const RowTimes& rows, SourceClock& clock, NoteBook& notes,
                              const std::string& file) {
  Placer placer(rows, clock, notes, file);
  const bool newest_first = is_newest_first(rows);
  std::vector<Placed> placed;
  placed.reserve(rows.size());
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const auto row = static_cast<std::uint32_t>(newest_first ? rows.size() - 1 - k : k);
    if (const auto instant = placer.place(row)) placed.push_back({row, *instant});
  }
  return placed;
}

void note_line(NoteBook& notes, const RowTimes& rows, const std::string& file, std::uint32_t row,
               std::string_view kind, std::string_view text) {
  if (notes.count(kind, text)) notes.example(fmt::format("{}:{}", file, rows.line[row]));
}

void sort_rows(std::vector<Placed>& placed, const RowTimes& rows, NoteBook& notes, const std::string& file) {
  const auto earlier = [](const Placed& a, const Placed& b) { return a.instant < b.instant; };
  for (std::size_t k = 1; k < placed.size(); ++k) {
    if (!earlier(placed[k], placed[k - 1])) continue;
    note_line(notes, rows, file, placed[k].row, "out-of-order",
              tr("the row is earlier than the one before it; the rows were sorted"));
  }
  if (!std::is_sorted(placed.begin(), placed.end(), earlier)) {
    std::stable_sort(placed.begin(), placed.end(), earlier);
  }
  const auto repeated = [&](const Placed& first, const Placed& next) {
    if (first.instant != next.instant) return false;
    note_line(notes, rows, file, next.row, "repeated-time",
              tr("the row has the time of an earlier one and was set aside"));
    return true;
  };
  placed.erase(std::unique(placed.begin(), placed.end(), repeated), placed.end());
}

/// The most frequent distance; the least of them where several are as frequent. An hour for a single row.
std::chrono::seconds usual_step(const std::vector<Placed>& placed) {
  std::unordered_map<long, std::size_t> counts;
  long best = 3600;
  std::size_t best_count = 0;
  for (std::size_t k = 1; k < placed.size(); ++k) {
    const long step = (placed[k].instant - placed[k - 1].instant).count();
    const std::size_t count = ++counts[step];
    if (count > best_count || (count == best_count && step < best)) {
      best = step;
      best_count = count;
    }
  }
  return std::chrono::seconds(best);
}

void add_intervals(TimeLine& line, const std::vector<Placed>& placed, Stamp stamp) {
  for (std::size_t k = 0; k < placed.size(); ++k) {
    const Instant at = placed[k].instant;
    Span span{at, at + line.step};
    if (stamp == Stamp::start) {
      if (k + 1 < placed.size()) span.end = std::min(span.end, placed[k + 1].instant);
    } else {
      span = {at - line.step, at};
      if (k > 0) span.begin = std::max(span.begin, placed[k - 1].instant);
    }
    line.interval.push_back(span);
  }
}

void add_days(TimeLine& line, const RowTimes& rows, const SourceClock& clock) {
  for (const std::uint32_t row : line.row) {
    line.interval.push_back(clock.day(std::chrono::floor<std::chrono::days>(rows.reading[row])));
  }
  line.step = std::chrono::days(1);
}

}  // namespace

SourceClock::SourceClock(const std::string& time_zone, const Clock& site_clock)
    : name_(time_zone.empty() ? site_clock.name() : time_zone), fixed_(fixed_offset(time_zone)) {
  if (!fixed_) zone_ = time_zone.empty() ? site_clock : Clock(time_zone);
}

SourceClock SourceClock::utc() {
  return SourceClock(std::chrono::seconds(0));
}

Clock::Resolved SourceClock::resolve(local_seconds reading, bool second_pass) {
  if (fixed_) return {Instant(reading.time_since_epoch() - *fixed_), Clock::Resolved::Fold::unique};
  const LocalDay day = std::chrono::floor<std::chrono::days>(reading);
  if (day != last_day_) {
    // Clocks change at most once a day, and by less than one: equal offsets a day to either side mean no
    // change.
    last_day_ = day;
    const std::chrono::seconds before =
        zone_->offset_at(Instant((day - std::chrono::days(1)).time_since_epoch()));
    const std::chrono::seconds after =
        zone_->offset_at(Instant((day + std::chrono::days(2)).time_since_epoch()));
    last_offset_ = before == after ? std::optional(before) : std::nullopt;
  }
  if (last_offset_)
    return {Instant(reading.time_since_epoch() - *last_offset_), Clock::Resolved::Fold::unique};
  return zone_->resolve(reading, second_pass);
}

Span SourceClock::day(LocalDay day) const {
  if (zone_) return {zone_->begin_of(day), zone_->begin_of(day + std::chrono::days(1))};
  const Instant begin(day.time_since_epoch() - *fixed_);
  return {begin, begin + std::chrono::days(1)};
}

TimeLine lay_out(const RowTimes& rows, SourceClock& clock, std::optional<Stamp> stamp, NoteBook& notes,
                 const std::string& file) {
  std::vector<Placed> placed = place_all(rows, clock, notes, file);
  sort_rows(placed, rows, notes, file);
  TimeLine line;
  line.row.reserve(placed.size());
  line.interval.reserve(placed.size());
  for (const Placed& each : placed) line.row.push_back(each.row);
  if (rows.daily) {
    add_days(line, rows, clock);
    return line;
  }
  line.step = usual_step(placed);
  const Stamp taken = stamp.value_or(line.step > std::chrono::hours(1) ? Stamp::instant : Stamp::start);
  line.instants = taken == Stamp::instant;
  add_intervals(line, placed, taken);
  return line;
}

}  // namespace graftcast
