#include "readers/year_rows.hpp"
#include "text/tr.hpp"

#include <algorithm>
#include <tuple>

namespace graftcast {

using std::chrono::local_days;
using std::chrono::year_month_day;

namespace {

auto within_year(const EndStamp& stamp) {
  return std::tuple(stamp.date.month(), stamp.date.day(), stamp.of_day);
}

auto through_years(const EndStamp& stamp) {
  return std::tuple(stamp.date, stamp.of_day);
}

struct Years {
  std::chrono::year first;
  std::chrono::year last;
  bool in_one_round = true;  ///< January to December once, whatever the years.
};

Years years_of(const std::vector<EndStamp>& rows) {
  Years years{rows.front().date.year(), rows.front().date.year()};
  for (std::size_t k = 1; k < rows.size(); ++k) {
    years.first = std::min(years.first, rows[k].date.year());
    years.last = std::max(years.last, rows[k].date.year());
    years.in_one_round = years.in_one_round && within_year(rows[k - 1]) < within_year(rows[k]);
  }
  return years;
}

/// Every date's own year, latest first, is asked for one without 29 February.
std::chrono::year common_year(const std::vector<EndStamp>& rows, const Years& years) {
  std::optional<std::chrono::year> latest;
  for (const EndStamp& row : rows) {
    if (!row.date.year().is_leap() && (!latest || row.date.year() > *latest)) latest = row.date.year();
  }
  return latest.value_or(years.last - std::chrono::years(1));
}

void check_order(const std::vector<EndStamp>& rows, const std::string& file) {
  for (std::size_t k = 1; k < rows.size(); ++k) {
    if (through_years(rows[k - 1]) < through_years(rows[k])) continue;
    throw DataError(
        {file, rows[k].line, 1}, tr("the row is not later than the one before it"),
        tr("rows in order, each hour once; in a typical year the months may come from different years, "
           "in the order of the calendar"));
  }
}

Instant utc_of(const year_month_day& date, std::chrono::minutes of_day, std::chrono::minutes ahead_of_utc) {
  return Instant(local_days(date).time_since_epoch()) + of_day - ahead_of_utc;
}

}  // namespace

std::vector<std::optional<Instant>> ends_in_utc(const std::vector<EndStamp>& rows,
                                                std::chrono::minutes ahead_of_utc, bool said_typical,
                                                NoteBook& notes, const std::string& file) {
  std::vector<std::optional<Instant>> ends;
  if (rows.empty()) return ends;
  const Years years = years_of(rows);
  const bool typical = years.first != years.last && years.in_one_round;
  if (!typical) check_order(rows, file);
  const std::chrono::year dated = typical ? common_year(rows, years) : years.last;
  for (const EndStamp& row : rows) {
    const year_month_day date = typical ? year_month_day{dated, row.date.month(), row.date.day()} : row.date;
    ends.push_back(date.ok() ? std::optional(utc_of(date, row.of_day, ahead_of_utc)) : std::nullopt);
  }
  if (typical) {
    notes.count(
        "typical-year",
        tr("a typical year, put together from {first} to {last}: it never happened. It is dated {dated}; "
           "keep it last among the sources",
           "first"_a = static_cast<int>(years.first), "last"_a = static_cast<int>(years.last),
           "dated"_a = static_cast<int>(dated)),
        rows.size());
  } else if (said_typical) {
    notes.count("typical-year",
                tr("the file calls itself a typical year: it never happened as it stands here"), rows.size());
  }
  return ends;
}

std::size_t YearRows::add(const EndStamp& stamp) {
  stamps_.push_back(stamp);
  before_stamp_.add_row();
  return at_stamp_.add_row();
}

std::vector<Block> YearRows::take(std::chrono::minutes step, std::chrono::minutes ahead_of_utc,
                                  bool said_typical, const std::string& file) {
  std::vector<std::optional<Span>> instants;
  std::vector<std::optional<Span>> intervals;
  for (const auto& end : ends_in_utc(stamps_, ahead_of_utc, said_typical, notes_, file)) {
    instants.push_back(end ? std::optional(Span{*end, *end}) : std::nullopt);
    intervals.push_back(end ? std::optional(Span{*end - step, *end}) : std::nullopt);
  }
  std::vector<Block> blocks;
  for (Block block : {at_stamp_.take(instants), before_stamp_.take(intervals)}) {
    if (!block.channels.empty()) blocks.push_back(std::move(block));
  }
  if (blocks.empty())
    throw DataError({file, 0, 0}, tr("the file has no value that can be used"), tr("rows of hours"));
  return blocks;
}

}  // namespace graftcast
