// The raw formulas give members of an array, and lanes, what they give a single number.

#include <array>

#include <gtest/gtest.h>

#include <Eigen/Core>

#include "graftcast/air.hpp"
#include "graftcast/convection.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/temperature_response.hpp"
#include "science/lanes.hpp"

namespace graftcast {
namespace {

using Eigen::ArrayXd;

const ArrayXd temperatures_c = ArrayXd::LinSpaced(64, -12, 48);

template <class Formula>
void expect_alike(const ArrayXd& values, Formula formula) {
  for (Eigen::Index i = 0; i < temperatures_c.size(); ++i) {
    const double single = formula(temperatures_c[i]);
    EXPECT_NEAR(values[i], single, 1e-12 * std::abs(single) + 1e-14);
  }
}

TEST(RawFormulas, OfTheAirTakeArrays) {
  const ArrayXd saturation = raw::saturation_vapour_pressure_kpa(temperatures_c);
  expect_alike(saturation, [](double t) { return saturation_vapour_pressure_kpa(t); });
  expect_alike(raw::saturation_slope_kpa_per_c(temperatures_c, saturation),
               [](double t) { return saturation_slope_kpa_per_c(t); });
  expect_alike(raw::dew_point_c(saturation), [](double t) { return t; });
  expect_alike(raw::molar_heat_of_vaporisation_j_mol(temperatures_c),
               [](double t) { return raw::molar_heat_of_vaporisation_j_mol(t); });
}

TEST(RawFormulas, OfExpressionsAreThoseOfTheirValues) {
  expect_alike(raw::saturation_vapour_pressure_kpa(temperatures_c + 1.0),
               [](double t) { return saturation_vapour_pressure_kpa(t + 1); });
}

TEST(RawFormulas, OfConvectionTakeLanesOfWindAndTemperature) {
  using Four = Lanes<4>;
  for (Eigen::Index first = 0; first < temperatures_c.size(); first += 4) {
    const Four air_c = Four::load(temperatures_c.data() + first);
    std::array<double, 4> exchange{}, in_one_wind{};
    raw::cylinder_heat_transfer_w_m2_k(Four(0.5 + 0.02 * (air_c + 12.0)), 0.01, air_c, 95.0)
        .store(exchange.data());
    raw::cylinder_heat_transfer_w_m2_k(Four::Constant(2), 0.01, air_c, 95.0).store(in_one_wind.data());
    for (std::size_t i = 0; i < 4; ++i) {
      const double t = temperatures_c[first + static_cast<Eigen::Index>(i)];
      EXPECT_NEAR(exchange[i], cylinder_heat_transfer_w_m2_k(0.5 + 0.02 * (t + 12), 0.01, t, 95), 1e-10);
      EXPECT_NEAR(in_one_wind[i], cylinder_heat_transfer_w_m2_k(2, 0.01, t, 95), 1e-10);
    }
  }
}

TEST(RawFormulas, OfRadiationTakeArraysOfTemperature) {
  const ArrayXd h = raw::radiative_coefficient_w_m2_k(0.95, temperatures_c);
  expect_alike(h, [](double t) { return radiative_coefficient_w_m2_k(0.95, t); });
  expect_alike(raw::vapour_conductance_mol_m2_s(h),
               [](double t) { return vapour_conductance_mol_m2_s(radiative_coefficient_w_m2_k(0.95, t)); });
  expect_alike(raw::black_body_w_m2(temperatures_c), [](double t) { return raw::black_body_w_m2(t); });
}

TEST(RawFormulas, OfTheSkyTakeArrays) {
  expect_alike(raw::cloudy_sky_emissivity(raw::clear_sky_emissivity(1.1, temperatures_c), 0.4),
               [](double t) { return cloudy_sky_emissivity(clear_sky_emissivity(1.1, t), 0.4); });
}

TEST(RawFormulas, OfTheBetaResponseTakeArraysOfTemperatureAndOfLimits) {
  const CardinalTemperatures cardinals{.lower_c = 3, .optimum_c = 25, .upper_c = 36};
  const auto single = [&](double t) { return beta_response(t, cardinals); };
  expect_alike(raw::beta_response(temperatures_c, 3.0, 25.0, 36.0), single);
  const ArrayXd lower = ArrayXd::Constant(64, 3), optimum = ArrayXd::Constant(64, 25),
                upper = ArrayXd::Constant(64, 36);
  expect_alike(raw::beta_response(temperatures_c, lower, optimum, upper), single);
}

}  // namespace
}  // namespace graftcast
