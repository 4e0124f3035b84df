#include "graftcast/convection.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

// Churchill & Bernstein 1977, value of a public library's tests (seen).
TEST(CylinderNusselt, MatchesAPublishedValue) {
  EXPECT_NEAR(cylinder_nusselt(6071, 0.7), 40.63708594, 5e-9);
}

// Incropera et al., worked example of a heated cylinder, 12.7 mm across 10 m/s, film at about 77 degC: 96 W
// m-2 K-1 by Churchill & Bernstein (seen); measured 102 (seen).
TEST(CylinderHeatTransfer, MatchesAWorkedExample) {
  const double h = cylinder_heat_transfer_w_m2_k(10, 0.0127, (26.2 + 128.4) / 2, 101.325);
  EXPECT_NEAR(h, 96, 1.0);
  EXPECT_NEAR(h, 102, 0.1 * 102);
}

// A twig of 1 cm in 1 m/s at 20 degC, air 15.06e-6 m2/s, 0.0257 W m-1 K-1, Pr 0.71: computed by a second
// program.
TEST(CylinderHeatTransfer, MatchesASecondProgramForATwig) {
  EXPECT_NEAR(cylinder_nusselt(0.01 / 15.06e-6, 0.71), 13.043, 5e-4);
  EXPECT_NEAR(cylinder_heat_transfer_w_m2_k(1, 0.01, 20, 101.325), 33.52, 0.05);
}

// Hilpert's correlation (constants recalled) is another fit to the same kind of measurements.
TEST(CylinderNusselt, LiesWithinATenthOfHilpertUpTo2500) {
  for (double re = 40; re < 2500; re *= 1.3) {
    const double hilpert = 0.683 * std::pow(re, 0.466) * std::cbrt(0.71);
    EXPECT_NEAR(cylinder_nusselt(re, 0.71) / hilpert, 1, 0.1) << re;
  }
}

TEST(CylinderNusselt, RefusesTooStillAnAirAndRisesFromThere) {
  EXPECT_THROW(cylinder_nusselt(0.19 / 0.7, 0.7), RangeError);
  EXPECT_GT(cylinder_nusselt(0.21 / 0.7, 0.7), 0.3);
  EXPECT_EQ(raw::cylinder_nusselt(0.0, 0.7), 0.3);
  for (double re = 1; re < 5e6; re *= 1.5)
    EXPECT_LT(cylinder_nusselt(re, 0.7), cylinder_nusselt(1.5 * re, 0.7));
}

TEST(CylinderHeatTransfer, RisesWithWindAndFallsWithThickness) {
  EXPECT_GT(cylinder_heat_transfer_w_m2_k(2, 0.01, 20, 101.3),
            cylinder_heat_transfer_w_m2_k(1, 0.01, 20, 101.3));
  EXPECT_GT(cylinder_heat_transfer_w_m2_k(1, 0.01, 20, 101.3),
            cylinder_heat_transfer_w_m2_k(1, 0.02, 20, 101.3));
  EXPECT_GT(cylinder_heat_transfer_w_m2_k(1, 0.01, 20, 101.3),
            cylinder_heat_transfer_w_m2_k(1, 0.01, 20, 70));
}

// Properties of air at atmospheric pressure (recalled from textbook tables, 300 and 350 K).
TEST(AirFilm, MatchesTextbookTables) {
  const AirFilm at_300 = air_film(26.85, 101.325);
  EXPECT_NEAR(at_300.kinematic_viscosity_m2_s, 15.89e-6, 0.02 * 15.89e-6);
  EXPECT_NEAR(at_300.conductivity_w_m_k, 26.3e-3, 0.01 * 26.3e-3);
  EXPECT_NEAR(at_300.prandtl, 0.707, 0.007);
  const AirFilm at_350 = air_film(76.85, 101.325);
  EXPECT_NEAR(at_350.kinematic_viscosity_m2_s, 20.92e-6, 0.02 * 20.92e-6);
  EXPECT_NEAR(at_350.conductivity_w_m_k, 30.0e-3, 0.01 * 30.0e-3);
  EXPECT_NEAR(at_350.prandtl, 0.700, 0.007);
}

// White 2006: the constants' own reference state.
TEST(AirFilm, GivesBackTheReferenceValuesOfItsSource) {
  EXPECT_NEAR(raw::air_viscosity_pa_s(273 - 273.15), 1.716e-5, 1e-12);
  EXPECT_NEAR(raw::air_conductivity_w_m_k(273 - 273.15), 0.0241, 1e-12);
}

// Campbell & Norman 1998 eq. 7.30 (seen): leaves, vapour 0.147, heat 0.135.
TEST(VapourConductance, KeepsTheRatioOfHeatToVapourOfLeaves) {
  const double heat_mol_m2_s = 33.5 / 29.3;
  EXPECT_NEAR(vapour_conductance_mol_m2_s(33.5) / heat_mol_m2_s, 0.147 / 0.135, 0.011);
  EXPECT_NEAR(vapour_conductance_mol_m2_s(33.5) / heat_mol_m2_s, std::pow(21.2 / 18.9, 2.0 / 3.0), 1e-7);
}

// Computed by a second program: emissivity 0.97 at 25 degC, as a conductance of 29.3 J mol-1 K-1,
// sigma 5.67e-8.
TEST(RadiativeCoefficient, MatchesASecondProgram) {
  EXPECT_NEAR(radiative_coefficient_w_m2_k(0.97, 25) / 29.3, 0.19900, 2e-5);
}

TEST(RadiativeCoefficient, IsTheDerivativeOfBlackBodyRadiation) {
  for (double t = -30; t <= 60; t += 10) {
    const double numeric = (raw::black_body_w_m2(t + 0.01) - raw::black_body_w_m2(t - 0.01)) / 0.02;
    EXPECT_NEAR(radiative_coefficient_w_m2_k(1, t), numeric, 1e-6);
  }
}

}  // namespace
}  // namespace graftcast
