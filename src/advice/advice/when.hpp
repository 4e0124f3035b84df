#pragma once
// Is this a week to graft? Grafts that might be made, run ahead like those that have been.

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/notice.hpp"

namespace graftcast {

/// A graft that might be made. Empty words take the method's usual wrap and cover, and the open.
struct WhenAsk {
  std::string species, method, wrap, cover, spot;
  double shade = 0;
  std::optional<double> pot_litres;
};

/// One morning on which it might be made.
struct WhenDay {
  LocalDay day{};
  double take = 0, low = 0,
         high = 0;                    ///< Chance of take, plain failure included; 10 % and 90 % over members.
  std::optional<double> bridge_days;  ///< Median days to the callus bridge; absent beyond the run.
  std::string
      limiting;  ///< `drying`, `heat`, `cold`, `spent-stores`, `slow-callus`, `bark`, or empty: nothing much.
  std::optional<LocalDay> worst_day;  ///< The day that takes most, where weather takes anything to speak of.
  std::string source;  ///< What its first week is known from: `forecast`, `past-years`, `last-week`.
};

/// One way to make it, over the days ahead.
struct WhenCandidate {
  WhenAsk graft;
  bool is_covered = false;                  ///< A cover or shade beyond the method's usual one.
  bool needs_slip = false;                  ///< The method lifts the bark from the wood.
  std::optional<bool> bark_slips_now;       ///< Only for methods that need it; absent where it is not known.
  std::optional<LocalDay> bark_slips_from;  ///< First morning ahead on which it slips.
  std::vector<WhenDay> days;
  std::optional<std::size_t> best;  ///< Of `days`; absent where the bark never slips.
};

/// The answer for one species and method.
struct WhenAnswer {
  WhenCandidate usual;
  std::optional<WhenCandidate>
      covered;          ///< With paper over a bag and the owner's shade, where that is not usual.
  std::string verdict;  ///< `graft`, `graft with cover`, `wait`.
  std::string reason;   ///< For people.
};

struct WhenReport {
  std::vector<WhenAnswer> answers;  ///< The best chance in the coming week first.
  std::vector<Notice> notices;
};

/// How many days ahead are tried, and how many more each graft is followed.
inline constexpr int when_days = 14;
inline constexpr int when_follow_days = 75;

/// Tries each graft on each of the coming `days` mornings. The season must reach `days` + `when_follow_days`
/// ahead; from the year's midwinter on, bark slip is known from the log. `slips` says for each stock species
/// what notes say of it; a stock that was seen `bleeding` (see stock_notes.hpp) is waited for. Error:
/// DataError for names that the models or the site do not have.
WhenReport when_to_graft(const Season& season, const std::vector<WhenAsk>& asked, int days,
                         const std::map<std::string, bool>& slips, int threads,
                         const std::map<std::string, LocalDay>& bleeding = {});

/// The midwinter from which a stock's degree-days count: 21 December north of the equator, 21 June south of
/// it.
LocalDay midwinter_before(LocalDay day, double latitude_deg);

}  // namespace graftcast
