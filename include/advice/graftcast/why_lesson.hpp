#pragma once
// The reasoning of a `why` for a class: what its steps rest on beside the answer itself.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "graftcast/factor.hpp"

namespace graftcast {

/// The numbers of the models that the steps name.
enum class LessonNumber : std::uint8_t {
  bridge_days,
  pace_of_method,
  light_passed,
  sun_absorbed,
  bark_conductance,
  wrap_factor,
  water_half_lost,
  water_stops_callus,
  callus_optimum,
  push_degree_days,
  heat_kills_half,
  heat_slope,
  callus_freezes,
  stores_last,
  applies_from,
  harmless_air,
  harmless_wind,
  explained_from,
  take_in_good_weather,
};

/// A number of the models with what is said of it there.
struct UsedNumber {
  double value = 0;
  std::string unit, source;
  char grade = 'C';  ///< `A` published, `B` transferred or recalled, `C` judgement.
};

/// Chances to be lost each way by itself, 0..1.
struct WaysOfLoss {
  double drying = 0, heat = 0, cold = 0, stores = 0;
};

/// One factor made harmless by itself: losses without it, and with it alone, 0..1.
struct TriedFactor {
  Factor factor{};
  double without = 0, alone = 0;
};

/// How often a sign is seen after one culprit.
struct CulpritSign {
  std::optional<Factor> culprit;
  UsedNumber chance;
};

struct WhyLesson {
  int members = 0;
  std::string hottest_cover;  ///< What it stood under on its hottest day, a key of models/covers.json.
  double light_passed = 1;    ///< Share of the sun that it lets through, 0..1.
  WaysOfLoss ways;
  std::vector<TriedFactor> tried;                            ///< Those that move the loss.
  std::vector<std::pair<Factor, double>> fair_shares;        ///< Shapley values.
  double loss = 0, loss_harmless = 0;                        ///< As it was, and with all of them harmless.
  std::vector<std::vector<CulpritSign>> sign_chances;        ///< Of each sign, in the order of its answer.
  std::vector<std::pair<LessonNumber, UsedNumber>> numbers;  ///< Each that a step names, once.

  const UsedNumber& number(LessonNumber which) const;
};

}  // namespace graftcast
