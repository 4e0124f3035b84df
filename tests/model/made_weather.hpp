#pragma once
// Invented weather of fixed shape for tests of the model, and a short way to run one union through it.

#include <functional>
#include <string>
#include <vector>

#include "ensemble/ensemble.hpp"
#include "ensemble/outlook.hpp"
#include "ensemble/survival.hpp"
#include "plant/graft_case.hpp"
#include "plant/stage.hpp"
#include "plant/stock_water.hpp"

namespace graftcast::testing {

/// One day of made weather: extremes, humidity at the maximum, wind, peak sun and hour of sunrise.
struct MadeDay {
  double minimum_c, maximum_c, humidity_at_maximum_pct, wind_m_s, peak_w_m2, sunrise_h;
};

/// Hourly weather of `days` made days, the shape given by `day_of(index)`, from local (= UTC) midnight of
/// `first_day`.
HourlyWeather made_weather(std::chrono::year_month_day first_day, int days,
                           const std::function<MadeDay(int)>& day_of);

/// A union in made weather, run over all of its hours with parameter spread only.
struct MadeRun {
  GraftCase graft;
  UnionStates states;              ///< At the end.
  std::vector<UnionStates> daily;  ///< At the beginning of each day, and at the end.
  std::vector<double> survival;    ///< Of each member, at the end.
  SurvivalLimits limits;
  StageLimits stages;
  ScionClimate climate;

  double mean_survival() const;
  double mean_part(double SurvivalParts::*part) const;
  /// Mean over members of a number of the state at the beginning of day `day`.
  double mean_at(std::size_t day, Eigen::ArrayXd UnionStates::*number) const;
  /// First day at whose beginning the median member's number is at least `level`; -1 if never.
  int median_day(Eigen::ArrayXd UnionStates::*number, double level) const;
};

struct MadeCase {
  std::string species = "citrus", method = "cleft", wrap = "film", cover = "none", scion_state;
  double shade = 0;
  bool tip_open = false;
  double latitude_deg = -34;
  double sun_share = 0.9, wind_share = 0.6;
  std::string match = "both";
  int members = 256;
  double stock_stress = 1;  ///< Kst throughout.
  std::uint64_t seed = 1;
  std::optional<double> diameter_mm;
};

const Models& published_models();
Site made_site(const MadeCase& made);
MadeRun run_made(const MadeCase& made, const HourlyWeather& weather);

}  // namespace graftcast::testing
