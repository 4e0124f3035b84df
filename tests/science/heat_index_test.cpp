#include "graftcast/heat_index.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "published/heat_index.hpp"

namespace graftcast {
namespace {

double heat_index_f(double temperature_f, double humidity_pct) {
  return 32 + 1.8 * heat_index_c((temperature_f - 32) / 1.8, humidity_pct);
}

template <class Check>
void for_each_printed_cell(Check check) {
  for (const auto& row : published::heat_index_chart) {
    for (std::size_t i = 0; i < row.index_f.size(); ++i) {
      const double humidity = published::heat_index_first_humidity_pct +
                              published::heat_index_humidity_step_pct * static_cast<double>(i);
      if (row.index_f[i] > 0) check(row.temperature_f, humidity, row.index_f[i]);
    }
  }
}

// The chart was made with the regression alone; one cell of it is rounded up from 92.49.
TEST(HeatIndex, RegressionMatchesThePrintedChart) {
  for_each_printed_cell([](double t, double r, int printed) {
    EXPECT_NEAR(raw::rothfusz_regression_f(t, r), printed, t == 90 && r == 45 ? 0.52 : 0.5) << t << " " << r;
  });
}

// The whole algorithm raises humid air of 80 to 87 degF by up to 2.3 degF over the chart, and takes the
// simple mean in the chart's mildest cells.
TEST(HeatIndex, AlgorithmMatchesThePrintedChartOutsideTheHumidCorner) {
  for_each_printed_cell([](double t, double r, int printed) {
    const bool humid_corner = t <= 87 && r > 85;
    EXPECT_NEAR(heat_index_f(t, r), printed, humid_corner ? 2.35 : 0.52) << t << " " << r;
    if (humid_corner) {
      EXPECT_GE(heat_index_f(t, r), raw::rothfusz_regression_f(t, r));
    }
  });
}

TEST(HeatIndex, AlgorithmMatchesASecondProgram) {
  for (const auto& [t, r, index] : published::heat_index_algorithm) {
    EXPECT_NEAR(heat_index_f(t, r), index, 0.0051) << t << " " << r;
  }
}

TEST(HeatIndex, DoesNotFallBelowTheTemperatureWithoutReasonNorRiseByNight) {
  EXPECT_EQ(heat_index_c(-10, 50), (1.8 * -10 + 32 - 32) / 1.8);
  EXPECT_NEAR(heat_index_f(40, 100), 40, 1e-9);
  EXPECT_NEAR(heat_index_f(40.001, 100), 40, 2.0);  // the simple mean takes over here, with a step of its own
}

TEST(HeatIndex, RisesWithHumidityInHeat) {
  for (double t = 27; t <= 45; t += 1) {
    for (double r = 40; r < 100; r += 2)
      EXPECT_LT(heat_index_c(t, r), heat_index_c(t, r + 2)) << t << " " << r;
  }
}

TEST(HeatIndex, AdjustsDryAndHumidAirOnlyWithinItsBounds) {
  const auto adjustment = [](double t, double r) {
    return heat_index_f(t, r) - raw::rothfusz_regression_f(t, r);
  };
  EXPECT_LT(adjustment(95, 12.9), 0);
  EXPECT_NEAR(adjustment(95, 13), 0, 1e-9);
  EXPECT_NEAR(adjustment(112, 5), 0, 1e-9);
  EXPECT_NEAR(adjustment(113, 5), 0, 1e-9);
  EXPECT_NEAR(adjustment(85, 84.5), 0, 1e-9);
  EXPECT_NEAR(adjustment(85, 85), 0, 1e-9);
  EXPECT_NEAR(adjustment(79.5, 95), 0, 1e-9);
  EXPECT_NEAR(adjustment(85, 95), 0.4, 1e-9);
  EXPECT_NEAR(adjustment(87, 95), 0, 1e-9);
  EXPECT_NEAR(adjustment(88, 95), 0, 1e-9);
}

TEST(HeatCaution, ChangesAtThePublishedLimits) {
  const auto word_f = [](double index_f) { return heat_caution_word(heat_caution((index_f - 32) / 1.8)); };
  EXPECT_EQ(word_f(79.9), "none");
  EXPECT_EQ(word_f(80.1), "caution");
  EXPECT_EQ(word_f(89.9), "caution");
  EXPECT_EQ(word_f(90.1), "extreme caution");
  EXPECT_EQ(word_f(102.9), "extreme caution");
  EXPECT_EQ(word_f(103.1), "danger");
  EXPECT_EQ(word_f(124.9), "danger");
  EXPECT_EQ(word_f(125.1), "extreme danger");
}

}  // namespace
}  // namespace graftcast
