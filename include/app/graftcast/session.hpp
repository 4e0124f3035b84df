#pragma once
// A site folder opened and asked: the library's front door.
//
//   graftcast::Session session("path/to/site");
//   const graftcast::MorningReport morning = session.morning();

#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <memory>
#include <optional>

#include "graftcast/calendar_time.hpp"
#include "graftcast/morning.hpp"

namespace graftcast {

/// How answers are worked out.
struct AskSettings {
  bool hindsight = false;  ///< The log after the moment of the answer counts as well.
  std::uint64_t seed = 1;  ///< Equal seeds give equal answers.
  int members = 64;        ///< Of the ensemble, 1 to 65,536.
  int threads = 1;         ///< At least 1; the answer does not depend on it.
};

struct MorningAsk {
  std::optional<Instant> as_of = {};   ///< Absent: now.
  int horizon_days = 7;                ///< How far ahead risk is counted, 1 to 14.
  std::optional<double> minutes = {};  ///< The plan may take no more of them; absent: any number.
};

class SiteMemory;

/// Answers about one site folder, from what stands in it at that moment. What was worked out for a graft is
/// kept in memory and used again while nothing that it rests on has changed: its row and diary lines, the
/// site, the models, the weather, the hour. So a note works out its own grafts and then the plan. Nothing is
/// written to the disk. Not to be asked by two threads at a time.
class Session {
 public:
  /// `folder` holds site.json; it is read at the first question.
  explicit Session(const std::filesystem::path& folder, const AskSettings& settings = {});
  ~Session();
  Session(Session&&) noexcept;
  Session& operator=(Session&&) noexcept;

  /// Which fresh grafts are at risk, ranked, with what to do and the plan for the supplies at hand. Errors:
  /// OpenError, DataError (file, line, column), RangeError.
  MorningReport morning(const MorningAsk& ask = {});
  /// Rows of the ledger that the last answer was worked out anew for.
  std::size_t worked_out() const;

 private:
  std::unique_ptr<SiteMemory> memory_;
};

}  // namespace graftcast
