#pragma once
// diary.csv: append-only, what was done and seen, when.

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/ledger.hpp"

namespace graftcast {

/// One line of diary.csv after checking. `graft` is kept as written (an id, a range `R3-14..20`, `*`,
/// `stock:NAME` or `spot:NAME`); `grafts` lists the ids it meant when read.
struct DiaryLine {
  Instant when{};
  std::string stamp;                    ///< The time as written; a later `void` line names it.
  std::string graft;
  std::vector<std::string> grafts;
  std::string event;
  std::string value;
  std::string comment;
  std::size_t line = 0;
  std::optional<double> number() const; ///< `value` as a number where it is one.
};

/// Reads `folder`/diary.csv, drops voided lines, expands ids, checks counts. Sorted by time, then line.
/// Absent file: no lines. Errors: OpenError, DataError (line and column).
std::vector<DiaryLine> read_diary(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                                  const Ledger& ledger);

/// The lines of `diary` that concern graft `id`, in order of time.
std::vector<DiaryLine> lines_for(const std::vector<DiaryLine>& diary, std::string_view id);

}  // namespace graftcast
