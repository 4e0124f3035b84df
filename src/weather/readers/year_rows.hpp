#pragma once
// Hours of a file that ends its intervals at the stamp and may be a typical year (private to the layer).

#include <chrono>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "readers/archive_block.hpp"

namespace graftcast {

/// The stamp of a row: local standard time, the end of its interval.
struct EndStamp {
  std::chrono::year_month_day date;
  std::chrono::minutes of_day{};  ///< Above 0, at most 24 h.
  std::size_t line = 0;
};

/// The ends in UTC; nothing for a row that has no place. A file whose months come from different years is
/// dated as one year, the latest of them that is no leap year (where all are: the year before the latest), 29
/// February left out; it is noted, as is a single year where `said_typical`. Errors: DataError for rows that
/// do not rise, in a true record by their time, in a typical year by month, day and hour.
std::vector<std::optional<Instant>> ends_in_utc(const std::vector<EndStamp>& rows,
                                                std::chrono::minutes ahead_of_utc, bool said_typical,
                                                NoteBook& notes, const std::string& file);

/// The rows of an EPW or TMY3 while they go by.
class YearRows {
 public:
  explicit YearRows(NoteBook& notes) : at_stamp_(false, notes), before_stamp_(false, notes), notes_(notes) {}

  ArchiveBlock& at_stamp() { return at_stamp_; }          ///< Values that hold at the stamp.
  ArchiveBlock& before_stamp() { return before_stamp_; }  ///< Values of the interval that ends there.
  /// Begins a row in both.
  std::size_t add(const EndStamp& stamp);
  std::size_t size() const { return stamps_.size(); }
  /// Both blocks; `step` is the length of an interval.
  std::vector<Block> take(std::chrono::minutes step, std::chrono::minutes ahead_of_utc, bool said_typical,
                          const std::string& file);

 private:
  ArchiveBlock at_stamp_;
  ArchiveBlock before_stamp_;
  NoteBook& notes_;
  std::vector<EndStamp> stamps_;
};

}  // namespace graftcast
