#pragma once
// What a site's own results teach: shifts of the published numbers, with scores on what was held back, and
// rates beside what the weather explains.

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/learned_shifts.hpp"
#include "graftcast/wilson_interval.hpp"

namespace graftcast {

/// What the groups are formed by.
enum class GroupBy : std::uint8_t { species, method, spot, grafter };
/// The code in JSON: `species`, `method`, `spot`, `grafter`.
std::string_view group_by_name(GroupBy by);

/// How good a set of forecasts was; means over single grafts, 0 or more, less is better.
struct TakeScore {
  double brier = 0, log = 0;
};

/// Forecasts of take within one tenth, and how many took.
struct ReliabilityBin {
  double from = 0, to = 0;            ///< 0..1
  int count = 0;                      ///< Grafts.
  double forecast = 0, observed = 0;  ///< Means, 0..1.
};

/// How the take rate of a group compares with what its weather lets expect.
enum class RateVerdict : std::uint8_t { as_the_weather_explains, better, worse };
/// The code in JSON: `as the weather explains`, `better`, `worse`.
std::string_view rate_verdict_name(RateVerdict verdict);

/// Results of the grafts of one kind.
struct TakeGroup {
  GroupBy by = GroupBy::species;
  std::string name;  ///< Empty: not given in the ledger.
  int taken = 0, lost = 0, open = 0;
  double rate = 0;             ///< 0..1
  RateInterval interval{};     ///< Wilson, 95 %.
  double through_weather = 0;  ///< Mean chance to come through the weather they had, 0..1.
  double expected = 0;         ///< Of the take rate, by the published numbers, 0..1.
  RateVerdict verdict = RateVerdict::as_the_weather_explains;
};

/// Degree-days of the buds from another base: how well the outcomes are forecast.
struct BaseScore {
  double base_shift_k = 0;
  TakeScore score;
};

enum class LearnVerdict : std::uint8_t {
  too_few,     ///< Outcomes to change anything.
  no_better,   ///< Rows held back are forecast no better with the shifts: the published numbers stay.
  better,      ///< They are forecast better: the shifts are used.
  forgotten,   ///< What had been learned was deleted.
  no_lessons,  ///< Nothing had been learned that could be deleted.
};

struct LearnReport {
  int outcomes = 0, open = 0, batches = 0;
  int least_outcomes = 0;  ///< Below it nothing is changed.
  LearnVerdict verdict = LearnVerdict::too_few;
  Learned learned;
  TakeScore held_back;                      ///< Of every batch, fitted without it.
  TakeScore uncalibrated;                   ///< By the published numbers.
  TakeScore plain_rate;                     ///< By the take rate of the other batches.
  std::vector<ReliabilityBin> reliability;  ///< Of the held-back forecasts.
  std::vector<TakeGroup> groups;
  std::vector<BaseScore> bases;

  /// The shifts are worth using.
  bool changed() const { return verdict == LearnVerdict::better; }
};

}  // namespace graftcast
