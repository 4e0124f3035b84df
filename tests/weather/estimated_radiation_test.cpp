// Radiation worked out where none is measured, against years that have it: bias and root mean square error.

#include <gtest/gtest.h>

#include <iostream>

#include <fmt/format.h>

#include "graftcast/sun.hpp"
#include "open_stations.hpp"
#include "weather/derive.hpp"
#include "weather/resample.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::OpenStation;

struct Fit {
  double measured = 0;  ///< Mean.
  double bias = 0;
  double rmse = 0;
  std::size_t count = 0;
  double square = 0;

  void add(double truth, double estimate) {
    measured += truth;
    bias += estimate - truth;
    square += (estimate - truth) * (estimate - truth);
    ++count;
  }
  void finish() {
    const auto n = static_cast<double>(count);
    measured /= n;
    bias /= n;
    rmse = std::sqrt(square / n);
  }
};

void say(const std::string& name, const Fit& fit, const std::string& unit) {
  std::cout << fmt::format("{}: {} values, mean {:.2f}, bias {:+.2f}, root mean square error {:.2f} {}\n",
                           name, fit.count, fit.measured, fit.bias, fit.rmse, unit);
  ::testing::Test::RecordProperty(name + "_bias", fmt::format("{:.3f}", fit.bias));
  ::testing::Test::RecordProperty(name + "_rmse", fmt::format("{:.3f}", fit.rmse));
}

struct Fits {
  Fit hours;  ///< [W/m2], hours with the sun up.
  Fit days;   ///< [MJ/m2].
};

/// The derived radiation against the measured, which is hidden from it.
Fits derived_against_measured(const OpenStation& station) {
  const QuantityHours truth = resample(station.read(), station.place);
  QuantityHours hidden = truth;
  for (std::size_t k = 0; k < hidden.size(); ++k) {
    hidden[Quantity::shortwave].value[k] = unknown;
    hidden[Quantity::shortwave].origin[k] = Origin::missing;
  }
  derive_missing(hidden, station.place, station.clock);
  Fits fits;
  double day_truth = 0;
  double day_estimate = 0;
  std::size_t in_day = 0;
  for (std::size_t k = 0; k < truth.size(); ++k) {
    if (station.clock.local_text(truth.hour(k)).ends_with("T00:00")) {
      if (in_day == 24) fits.days.add(day_truth * 0.0036, day_estimate * 0.0036);
      day_truth = day_estimate = 0;
      in_day = 0;
    }
    const double measured = truth[Quantity::shortwave].value[k];
    const double derived = hidden[Quantity::shortwave].value[k];
    if (std::isnan(measured) || std::isnan(derived)) continue;
    day_truth += measured;
    day_estimate += derived;
    ++in_day;
    if (sun_period(truth.hour(k), station.place.latitude_deg, station.place.longitude_deg).sunlit_share > 0)
      fits.hours.add(measured, derived);
  }
  fits.hours.finish();
  fits.days.finish();
  return fits;
}

TEST(EstimatedRadiation, FromCloudInATypicalYearOfSanFrancisco) {
  const OpenStation station = testing::san_francisco();
  const Fits fits = derived_against_measured(station);
  say("cloud_hours", fits.hours, "W/m2");
  say("cloud_days", fits.days, "MJ/m2");
  EXPECT_GT(fits.days.count, 350U);
  EXPECT_LT(std::abs(fits.hours.bias), 0.15 * fits.hours.measured);
  EXPECT_LT(fits.hours.rmse, 0.35 * fits.hours.measured);
  EXPECT_LT(fits.days.rmse, 0.2 * fits.days.measured);
}

TEST(EstimatedRadiation, FromTheRangeOfTemperatureInAYearOfFallon) {
  const OpenStation station = testing::fallon();
  const Fits fits = derived_against_measured(station);
  say("range_hours", fits.hours, "W/m2");
  say("range_days", fits.days, "MJ/m2");
  EXPECT_GT(fits.days.count, 350U);
  EXPECT_LT(std::abs(fits.days.bias), 0.15 * fits.days.measured);
  EXPECT_LT(fits.days.rmse, 0.25 * fits.days.measured);
}

}  // namespace
}  // namespace graftcast
