// The stock's water by hand.

#include "plant/stock_water.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "graftcast/error.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

// A pot of 8 litres holds 2 litres that plants can take; its leaves and mouth catch 0.01 * 8^(2/3) = 0.04 m2.
StockConstants made_constants() {
  StockConstants made;
  made.pot_available_share.value = 0.25;
  made.ground_available_mm.value = 100;
  made.crop_headed.value = 0.2;
  made.crop_full.value = 0.8;
  made.leaf_area_coefficient.value = 0.01;
  made.depletion_share.value = 0.5;
  made.waterlogged_days.value = 2;
  return made;
}
const StockConstants constants = made_constants();

std::vector<StockHour> hours_of(std::size_t count, const StockHour& hour) {
  return std::vector(count, hour);
}

StockHour drying(double et0_mm, bool full_head = false) {
  StockHour hour;
  hour.et0_mm = et0_mm;
  hour.full_head = full_head;
  return hour;
}

TEST(Pot, LosesCropFactorTimesEvapotranspirationTimesLeafArea) {
  // 10 mm x 0.2 x 0.04 m2 = 0.08 litres of 2: 4 % of the store an hour.
  const StockWater water = stock_water(constants, 8.0, hours_of(5, drying(10)));
  for (std::size_t i = 0; i < 5; ++i)
    EXPECT_NEAR(water.depletion[i], 0.04 * static_cast<double>(i + 1), 1e-12);
  // With its head on it loses four times that.
  EXPECT_NEAR(stock_water(constants, 8.0, hours_of(1, drying(10, true))).depletion[0], 0.16, 1e-12);
}

TEST(Pot, DriesFasterTheSmallerItIs) {
  double before = 1;
  for (const double litres : {1.0, 2.0, 5.0, 10.0, 40.0}) {
    const double depletion = stock_water(constants, litres, hours_of(10, drying(1))).depletion.back();
    EXPECT_LT(depletion, before) << litres;
    before = depletion;
  }
}

TEST(Stress, IsThatOfFao56Equation84) {
  // Allen et al. (1998), eq. 84: Ks = (TAW - Dr) / ((1 - p) TAW), 1 while Dr <= p TAW. Loss of 4 % an hour.
  const StockWater water = stock_water(constants, 8.0, hours_of(30, drying(10)));
  for (std::size_t i = 0; i < 25; ++i) {
    const double depletion = 0.04 * static_cast<double>(i + 1);
    EXPECT_NEAR(water.stress[i], depletion <= 0.5 ? 1.0 : (1 - depletion) / 0.5, 1e-9) << i;
  }
  EXPECT_NEAR(water.stress[17], 0.56, 1e-12);  // Dr 72 % of TAW: 0.28 / 0.5
  EXPECT_EQ(water.stress[29], 0);
  EXPECT_EQ(water.depletion[29], 1);
}

TEST(Stress, BeginsWhereTheConstantsSay) {
  // The worked example of FAO-56 (TAW 160 mm, p 0.4, so that 64 mm are readily available); recalled.
  StockConstants tomato = constants;
  tomato.ground_available_mm.value = 160;
  tomato.depletion_share.value = 0.4;
  tomato.crop_full.value = 1;
  const auto stress_at = [&](double depletion_mm) {
    return stock_water(tomato, std::nullopt, hours_of(1, drying(depletion_mm, true))).stress[0];
  };
  EXPECT_NEAR(stress_at(55), 1, 1e-12);
  EXPECT_NEAR(stress_at(64), 1, 1e-12);
  EXPECT_NEAR(stress_at(73), 87.0 / 96.0, 1e-12);
  EXPECT_NEAR(stress_at(112), 0.5, 1e-12);
  EXPECT_NEAR(stress_at(160), 0, 1e-12);
}

TEST(Watering, ToCapacityFillsAndSoManyLitresAdd) {
  std::vector<StockHour> hours = hours_of(12, drying(10));
  hours[10].watered_full = true;
  StockWater water = stock_water(constants, 8.0, hours);
  EXPECT_NEAR(water.depletion[9], 0.4, 1e-12);
  EXPECT_NEAR(water.depletion[10], 0.04, 1e-12);  // full, then the loss of that hour

  hours[10].watered_full = false;
  hours[10].watered_l = 0.5;  // a quarter of the store
  water = stock_water(constants, 8.0, hours);
  EXPECT_NEAR(water.depletion[10], 0.4 + 0.04 - 0.25, 1e-12);
}

TEST(Rain, FallsOnTheCatchAreaAndWhatIsTooMuchRunsOff) {
  std::vector<StockHour> hours = hours_of(11, drying(10));
  hours[10].rain_mm = 25;  // 25 mm x 0.04 m2 = 1 litre, half of the store
  EXPECT_NEAR(stock_water(constants, 8.0, hours).depletion[10], 0.4 + 0.04 - 0.5 + 0.06, 1e-12);
  hours[10].rain_mm = 12.5;
  EXPECT_NEAR(stock_water(constants, 8.0, hours).depletion[10], 0.44 - 0.25, 1e-12);
}

TEST(Ground, HoldsMillimetresAndRainAddsItsOwn) {
  std::vector<StockHour> hours = hours_of(11, drying(10));  // 2 mm an hour of 100
  hours[10].rain_mm = 7;
  const StockWater water = stock_water(constants, std::nullopt, hours);
  EXPECT_NEAR(water.depletion[9], 0.20, 1e-12);
  EXPECT_NEAR(water.depletion[10], 0.15, 1e-12);
}

TEST(Dew, DoesNotWaterTheStock) {
  std::vector<StockHour> hours = hours_of(20, drying(10));
  for (std::size_t i = 10; i < 20; ++i) hours[i].et0_mm = -5;
  const StockWater water = stock_water(constants, 8.0, hours);
  EXPECT_DOUBLE_EQ(water.depletion[19], water.depletion[9]);
}

TEST(Waterlogged, AfterTwoDaysAboveCapacityWithoutABreak) {
  StockHour wet;
  wet.rain_mm = 1;
  EXPECT_FALSE(stock_water(constants, 8.0, hours_of(47, wet)).waterlogged);
  EXPECT_TRUE(stock_water(constants, 8.0, hours_of(48, wet)).waterlogged);
  std::vector<StockHour> broken = hours_of(60, wet);
  broken[30] = drying(0.1);
  EXPECT_FALSE(stock_water(constants, 8.0, broken).waterlogged);
  EXPECT_FALSE(stock_water(constants, 8.0, hours_of(100, drying(1))).waterlogged);
}

TEST(Pot, OfNoSizeIsAnError) {
  for (const double litres : {0.0, -1.0, std::nan("")}) {
    EXPECT_THROW(stock_water(constants, litres, hours_of(1, drying(1))), RangeError) << litres;
  }
}

TEST(StockWater, StaysBetweenEmptyAndFullWhateverComes) {
  std::mt19937_64 random(4);
  std::uniform_real_distribution<double> uniform(0, 1);
  const StockConstants& published = published_models().stock;
  for (int round = 0; round < 50; ++round) {
    std::vector<StockHour> hours(500);
    for (StockHour& hour : hours) {
      hour = {2 * uniform(random) - 0.4, uniform(random) < 0.05 ? 30 * uniform(random) : 0,
              uniform(random) < 0.5, uniform(random) < 0.01,
              uniform(random) < 0.01 ? 20 * uniform(random) : 0};
    }
    const auto pot = round % 3 == 0 ? std::nullopt : std::optional(0.2 + 20 * uniform(random));
    const StockWater water = stock_water(published, pot, hours);
    ASSERT_EQ(water.stress.size(), hours.size());
    for (std::size_t i = 0; i < hours.size(); ++i) {
      EXPECT_TRUE(water.stress[i] >= 0 && water.stress[i] <= 1) << water.stress[i];
      EXPECT_TRUE(water.depletion[i] >= 0 && water.depletion[i] <= 1) << water.depletion[i];
      EXPECT_NEAR(water.stress[i], std::min(1.0, (1 - water.depletion[i]) / (1 - published.depletion_share)),
                  1e-12);
    }
  }
}

}  // namespace
}  // namespace graftcast::testing
