#pragma once
// Batches whose lives are drawn from the model itself over real weather: what a forecast of them should say
// is known.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "ensemble/graft_run.hpp"
#include "model/made_season.hpp"

namespace graftcast::testing {

/// The log of a real station as complete hourly weather from its days. (Davis, California, 1994 to 2018:
/// extremes of temperature, mean dew point and wind, sum of radiation.)
const HourlyWeather& davis_hours();
Site davis_site();

/// The hours [begin, end) of `weather`, which holds them all.
HourlyWeather hours_between(const HourlyWeather& weather, Hour begin, Hour end);

/// Real hours [begin, end) of it; hours from `now` on with one draw of the model's own forecast errors.
HourlyWeather with_forecast_errors(const HourlyWeather& real, Hour begin, Hour now, Hour end,
                                   std::uint64_t seed);

/// Members of a truth, of which one is drawn.
inline constexpr int true_members = 8;

/// Limits of one graft, drawn from their distributions.
struct HardLimits {
  double least_reserve, heat_dose, cold_luck, stores;

  bool stands(const UnionStates& states, std::size_t member) const;
};
HardLimits drawn_limits(const SurvivalLimits& limits, std::uint64_t seed, std::uint64_t graft);

/// A batch with what became of it: one member's numbers, limits of its own for each graft.
struct DrawnBatch {
  GraftRow row;
  Instant as_of{};
  std::vector<DiaryLine> seen;  ///< Notes drawn from its true life up to `as_of`.
  std::vector<bool> lost;       ///< By the horizon, of those alive at `as_of`.
};

struct DrawnSite {
  std::unique_ptr<MadeSeason> forecast;  ///< As the owner knows it at `as_of`.
  std::vector<DrawnBatch> batches;       ///< Those with any graft alive then.
};

/// Number `index` of an endless row of sites: a morning of a spring or summer, `batches` made in the weeks
/// before it, `horizon_days` to look ahead.
DrawnSite drawn_site(std::uint64_t index, int batches, int horizon_days, int members);

}  // namespace graftcast::testing
