// Learning a spot's shares: a made log with known shares must give them back, and what a log cannot tell is
// said.

#include "ensemble/spot_fit.hpp"

#include <gtest/gtest.h>

#include <random>

#include "graftcast/error.hpp"
#include "model/made_weather.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

constexpr Location place{-34, 0, 100};

/// Days of sun and cloud, calm and wind.
HourlyWeather open_weather(int days, unsigned seed, double peak_w_m2 = 800) {
  std::mt19937_64 random(seed);
  std::uniform_real_distribution<double> share(0.25, 1.1), wind(0.4, 4.5), warm(-3, 3);
  return made_weather(std::chrono::November / 3 / 2025, days, [&](int) {
    const double warmer = warm(random);
    return MadeDay{12 + warmer, 25 + warmer, 40, wind(random), peak_w_m2 * share(random), 5.5};
  });
}

struct Truth {
  double sun = 0.55, wind = 0.4, offset_k = 0.3, noise_k = 0.5, persistence = 0.6;
};

/// What a thermometer in a spot of these shares would have logged.
HourlyWeather logged_in(const HourlyWeather& open, const Truth& truth, const SpotSensor& sensor,
                        unsigned seed) {
  std::mt19937_64 random(seed);
  std::normal_distribution<double> normal(0, 1);
  Spot spot;
  spot.sun_share = truth.sun;
  spot.wind_share = truth.wind;
  const Ambient ambient =
      ambient_of(place, open, 0, one_course(open, 0, open.size()), published_models().climate);
  const Eigen::ArrayXd true_c = sensor_temperatures_c(ambient, spot, sensor, published_models());
  HourlyWeather log = open;
  for (std::size_t v = 1; v < variable_count; ++v) log.columns[v].origin.assign(open.size(), Origin::missing);
  double error = truth.noise_k * normal(random);
  const double fresh = std::sqrt(1 - truth.persistence * truth.persistence);
  for (std::size_t i = 0; i < open.size(); ++i) {
    log[Variable::air_temperature].value[i] = true_c[static_cast<Eigen::Index>(i)] + truth.offset_k + error;
    error = truth.persistence * error + fresh * truth.noise_k * normal(random);
  }
  return log;
}

constexpr SpotSensor black{0.95, 0.01};

Spot as_guessed() {
  Spot spot;
  spot.sun_share = 0.9;
  spot.wind_share = 0.8;
  return spot;
}

SpotFit fit(const HourlyWeather& open, const HourlyWeather& log, const Spot& spot = as_guessed()) {
  return fit_spot(open, log, place, spot, black, published_models());
}

TEST(SpotFit, FindsTheSharesOfAFaultlessLogExactly) {
  const HourlyWeather open = open_weather(14, 1);
  const SpotFit found = fit(open, logged_in(open, {0.55, 0.4, 0.3, 0, 0}, black, 1));
  EXPECT_NEAR(found.sun.value, 0.55, 1e-3);
  EXPECT_NEAR(found.wind.value, 0.4, 1e-3);
  EXPECT_NEAR(found.sensor_offset_k, 0.3, 1e-2);
  EXPECT_TRUE(found.sun.is_told());
  EXPECT_TRUE(found.wind.is_told());
  EXPECT_LT(found.rmse_after_k, 0.01);
  EXPECT_GT(found.rmse_before_k, 0.3);
}

TEST(SpotFit, HoldsTheTruthWithinTwoStandardErrorsInMostRepeats) {
  // Of a normal error 95 % lie within; 85 % is far below that for chance, and far above it for errors that
  // are half of what they should be (68 %).
  const int rounds = repetitions(40);
  int sun_held = 0, sun_told = 0, wind_told = 0, wind_held = 0;
  double sun_error = 0;
  for (int round = 0; round < rounds; ++round) {
    const auto seed = static_cast<unsigned>(round);
    const HourlyWeather open = open_weather(28, 100 + seed);
    const Truth truth;
    const SpotFit found = fit(open, logged_in(open, truth, black, 900 + seed));
    sun_told += found.sun.is_told() ? 1 : 0;
    EXPECT_NEAR(found.autocorrelation, truth.persistence, 0.2);
    EXPECT_LT(found.effective_hours, static_cast<double>(found.hours));
    sun_held += std::abs(found.sun.value - truth.sun) <= 2 * found.sun.standard_error ? 1 : 0;
    sun_error += found.sun.standard_error / rounds;
    if (!found.wind.is_told()) continue;
    ++wind_told;
    wind_held += std::abs(found.wind.value - truth.wind) <= 2 * found.wind.standard_error ? 1 : 0;
  }
  std::cout << "truth within two standard errors: sun " << sun_held << " of " << rounds << " (" << sun_told
            << " told), wind " << wind_held << " of " << wind_told
            << " told; mean standard error of the sun share " << sun_error << "\n";
  EXPECT_GE(sun_held, 0.85 * rounds - 1);
  EXPECT_GE(wind_held, 0.85 * wind_told - 1);
  EXPECT_GE(sun_told, 0.8 * rounds - 1);
  EXPECT_GE(wind_told, 0.25 * rounds - 1);
}

TEST(SpotFit, TellsNoWindInDeepShadeAndKeepsTheGuess) {
  const HourlyWeather open = open_weather(14, 2);
  const SpotFit found = fit(open, logged_in(open, {0.03, 0.4, 0.2, 0.8, 0.6}, black, 2));
  EXPECT_FALSE(found.wind.is_told());
  EXPECT_EQ(found.wind.value, 0.8);
  EXPECT_EQ(found.wind.doubt, ShareDoubt::end_of_range);
  EXPECT_TRUE(found.sun.is_told());
  EXPECT_NEAR(found.sun.value, 0.03, 0.1);
}

TEST(SpotFit, TellsNothingWithoutSun) {
  const HourlyWeather open = open_weather(14, 3, 60);
  const SpotFit found = fit(open, logged_in(open, {}, black, 3));
  EXPECT_EQ(found.sunny_hours, 0U);
  EXPECT_FALSE(found.sun.is_told());
  EXPECT_FALSE(found.wind.is_told());
}

TEST(SpotFit, TakesTheWindShareFromAnAnemometerInTheSpot) {
  const HourlyWeather open = open_weather(14, 4);
  HourlyWeather log = logged_in(open, {}, black, 4);
  for (std::size_t i = 0; i < open.size(); ++i) {
    log[Variable::wind_speed].value[i] = 0.4 * open[Variable::wind_speed].value[i];
    log[Variable::wind_speed].origin[i] = Origin::measured;
  }
  const SpotFit found = fit(open, log);
  EXPECT_EQ(found.wind_hours, open.size());
  EXPECT_TRUE(found.wind.is_told());
  EXPECT_NEAR(found.wind.value, 0.4, 1e-9);
  EXPECT_NEAR(found.sun.value, 0.55, 0.1);
}

TEST(SpotFit, KeepsTheHoursOfTheSpot) {
  // A wall takes the afternoon: a fit that knows it finds the share of the morning, one that does not falls
  // short.
  const HourlyWeather open = open_weather(14, 5);
  Spot walled = as_guessed();
  walled.sun_to_h = 12;
  const Ambient ambient =
      ambient_of(place, open, 0, one_course(open, 0, open.size()), published_models().climate);
  Spot truth = walled;
  truth.sun_share = 0.8;
  truth.wind_share = 0.5;
  const Eigen::ArrayXd seen = sensor_temperatures_c(ambient, truth, black, published_models());
  HourlyWeather log = open;
  for (std::size_t v = 1; v < variable_count; ++v) log.columns[v].origin.assign(open.size(), Origin::missing);
  for (std::size_t i = 0; i < open.size(); ++i)
    log[Variable::air_temperature].value[i] = seen[static_cast<Eigen::Index>(i)];
  const SpotFit knowing = fit(open, log, walled);
  EXPECT_NEAR(knowing.sun.value, 0.8, 0.01);
  EXPECT_LT(knowing.rmse_after_k, 0.1);
  EXPECT_GT(fit(open, log).rmse_after_k, 0.5);
}

TEST(SpotFit, UsesOnlyHoursThatBothLogsMeasured) {
  HourlyWeather open = open_weather(14, 6);
  HourlyWeather log = logged_in(open, {}, black, 6);
  for (std::size_t i = 0; i < 100; ++i) open[Variable::air_temperature].origin[i] = Origin::filled;
  for (std::size_t i = 300; i < open.size(); ++i) log[Variable::air_temperature].origin[i] = Origin::missing;
  EXPECT_EQ(fit(open, log).hours, 200U);
}

TEST(SpotFit, OfTooFewHoursOrARoomIsAnError) {
  const HourlyWeather open = open_weather(14, 7);
  HourlyWeather elsewhen = open;
  elsewhen.start += std::chrono::days(400);
  EXPECT_THROW(fit(open, elsewhen), RangeError);
  Spot room = as_guessed();
  room.climate = {26, 85};
  EXPECT_THROW(fit(open, open, room), RangeError);
}

}  // namespace
}  // namespace graftcast::testing
