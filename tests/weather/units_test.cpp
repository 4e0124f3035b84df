#include "weather/units.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;

double converted(double value, std::string_view unit) {
  return parse_unit(unit).to_own(value);
}

// Exact definitions (inch, mile, nautical mile, calorie per cm2), and what udunits2 gives for inHg.
TEST(Units, ConvertOnceToTheOwnUnit) {
  EXPECT_DOUBLE_EQ(converted(212, "degF"), 100);
  EXPECT_NEAR(converted(-40, "F"), -40, 1e-12);
  EXPECT_DOUBLE_EQ(converted(273.15, "K"), 0);
  EXPECT_DOUBLE_EQ(converted(0.55, "1"), 55);
  EXPECT_DOUBLE_EQ(converted(8, "okta"), 100);
  EXPECT_DOUBLE_EQ(converted(36, "km h-1"), 10);
  EXPECT_DOUBLE_EQ(converted(10, "mph"), 4.4704);
  EXPECT_NEAR(converted(10, "knot"), 5.14444, 1e-5);
  EXPECT_DOUBLE_EQ(converted(2, "inch"), 50.8);
  EXPECT_DOUBLE_EQ(converted(1013.25, "hPa"), 101.325);
  EXPECT_NEAR(converted(29.92, "inHg"), 101.3208, 1e-4);
  EXPECT_NEAR(converted(1, "MJ m-2 day-1"), 11.5741, 1e-4);
  EXPECT_NEAR(converted(60, "langley/h"), 697.3333, 1e-4);
  EXPECT_DOUBLE_EQ(converted(100, "langley"), 4.184);
  EXPECT_DOUBLE_EQ(converted(1, "kWh m-2"), 3.6);
  EXPECT_DOUBLE_EQ(converted(0.1, "in/hr"), 2.54);
}

TEST(Units, AreOneInAllSpellings) {
  for (const char* const spelling :
       {"W m-2", "W/m2", "W/m^2", "W/m\u00b2", "W m\u207b\u00b2", "w/sq.m", " W m-2 "}) {
    EXPECT_EQ(parse_unit(spelling).name, "W m-2") << spelling;
  }
  for (const char* const spelling : {"degC", "\u00b0C", "\u2103", "C", "celsius", "wmoUnit:degC", "deg C"}) {
    EXPECT_EQ(parse_unit(spelling).name, "degC") << spelling;
  }
  for (const char* const spelling : {"m s-1", "m/s", "ms-1", "m s\u207b\u00b9"}) {
    EXPECT_EQ(parse_unit(spelling).name, "m s-1") << spelling;
  }
  EXPECT_EQ(parse_unit("kg m-2").dimension, Dimension::depth);
  EXPECT_EQ(parse_unit("mp/h").name, "mph");
}

std::string refusal(std::string_view text) {
  try {
    parse_unit(text);
  } catch (const RangeError& error) {
    return error.what();
  }
  return {};
}

TEST(Units, RefuseLuxWithTheReason) {
  EXPECT_THAT(refusal("lux"), HasSubstr("as the eye does"));
  EXPECT_THAT(refusal("klx"), HasSubstr("as the eye does"));
}

TEST(Units, OfferTheNearestForAnUnknownOne) {
  EXPECT_THAT(refusal("knott"), HasSubstr("knot"));
  EXPECT_THAT(refusal("furlong per fortnight"), HasSubstr("not a known unit"));
}

}  // namespace
}  // namespace graftcast
