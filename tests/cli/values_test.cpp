#include "values.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"

namespace graftcast::cli {
namespace {

using namespace std::chrono_literals;

TEST(WholeNumber, IsHeldWithinItsLimits) {
  EXPECT_EQ(whole_number("--n", "3", 1, 9), 3);
  for (const char* wrong : {"0", "10", "1.5", "x", "", "1e400", "nan", "0x3", " "})
    EXPECT_THROW(whole_number("--n", wrong, 1, 9), UsageError) << wrong;
}

TEST(DecimalNumber, IsHeldWithinItsLimits) {
  EXPECT_EQ(decimal_number("--x", "-7.54", -180, 180), -7.54);
  for (const char* wrong : {"181", "inf", "nan", "1,5", "7 m"})
    EXPECT_THROW(decimal_number("--x", wrong, -180, 180), UsageError);
}

TEST(WordOf, OffersTheNearest) {
  const std::vector<std::string> known{"metric", "us"};
  EXPECT_EQ(word_of("--units", "us", known), "us");
  try {
    word_of("--units", "metirc", known);
    FAIL();
  } catch (const UsageError& error) {
    EXPECT_THAT(error.what(), ::testing::HasSubstr("did you mean metric"));
  }
}

TEST(TimeOf, IsOnTheClockUnlessItHasAnOffset) {
  const Clock madrid("Europe/Madrid");
  const Instant six = std::chrono::sys_days(std::chrono::year(2025) / 6 / 9) + 6h;
  EXPECT_EQ(time_of("--at", "2025-06-09T08:00", madrid, 6), six);
  EXPECT_EQ(time_of("--at", "2025-06-09T06:00Z", madrid, 6), six);
  EXPECT_EQ(time_of("--at", "2025-06-09T08:30+02:30", madrid, 6), six);
  EXPECT_EQ(time_of("--at", "2025-06-09", madrid, 8), six);
  for (const char* wrong : {"2025-02-30", "tomorrow", "", "2025-06-09T25:00"})
    EXPECT_THROW(time_of("--at", wrong, madrid, 6), UsageError) << wrong;
}

}  // namespace
}  // namespace graftcast::cli
