#pragma once
// What a site's own results teach: shifts of the published numbers, with scores on what was held back, and
// rates beside what the weather explains.

#include <optional>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/wilson_interval.hpp"
#include "parameters/learned.hpp"

namespace graftcast {

/// How good a set of forecasts was; means over single grafts.
struct TakeScore {
  double brier = 0, log = 0;
};

/// Forecasts of take within one tenth, and how many took.
struct ReliabilityBin {
  double from = 0, to = 0;
  int count = 0;
  double forecast = 0, observed = 0;  ///< Means.
};

/// Results of the grafts of one kind.
struct TakeGroup {
  std::string by;  ///< `species`, `method`, `spot`, `grafter`.
  std::string name;
  int taken = 0, lost = 0, open = 0;
  double rate = 0;
  RateInterval interval{};     ///< Wilson, 95 %.
  double through_weather = 0;  ///< Mean chance to come through the weather they had.
  double expected = 0;         ///< Of the take rate, by the published numbers.
  std::string verdict;         ///< `as the weather explains`, `better`, `worse`.
};

/// Degree-days of the buds from another base: how well the outcomes are forecast.
struct BaseScore {
  double base_shift_k = 0;
  TakeScore score;
};

struct LearnReport {
  int outcomes = 0, open = 0, batches = 0;
  int least_outcomes = 0;  ///< Below it nothing is changed.
  bool changed = false;    ///< The shifts are worth using.
  std::string verdict;     ///< In words.
  Learned learned;
  TakeScore held_back;                      ///< Of every batch, fitted without it.
  TakeScore uncalibrated;                   ///< By the published numbers.
  TakeScore plain_rate;                     ///< By the take rate of the other batches.
  std::vector<ReliabilityBin> reliability;  ///< Of the held-back forecasts.
  std::vector<TakeGroup> groups;
  std::vector<BaseScore> bases;
  std::vector<std::string> warnings;
};

/// What the groups are formed by.
enum class GroupBy { species, method, spot, grafter };

/// Fits shifts to all outcomes of `grafts`, scores them batch by batch, and sums up the groups asked for.
/// `season` must rest on models with nothing learned. Deterministic on any number of threads.
LearnReport learn(const Season& season, const std::vector<GraftRecord>& grafts,
                  const std::vector<GroupBy>& groups, int threads);

/// Score of the published numbers with nothing fitted, to compare models (other degree-day bases, say).
TakeScore score_of_published(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

}  // namespace graftcast
