#include "readers/time_pattern.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

std::string read(std::string_view format, std::string_view text) {
  const auto time = TimePattern(format).parse(text);
  if (!time) return "nothing";
  const auto offset = time->offset.value_or(std::chrono::seconds(0));
  return utc_text(Instant(time->reading.time_since_epoch() - offset));
}

TEST(TimePattern, ReadsTheLayoutsOfLogs) {
  EXPECT_EQ(read("%d/%m/%Y %H:%M", "31/01/2025 06:05"), "2025-01-31T06:05:00Z");
  EXPECT_EQ(read("%d/%m/%Y %H:%M", "1/2/2025    6:05"), "2025-02-01T06:05:00Z");
  EXPECT_EQ(read("%Y%m%d%H", "2025013106"), "2025-01-31T06:00:00Z");
  EXPECT_EQ(read("%F %T", "2025-01-31 06:05:09.5"), "2025-01-31T06:05:09Z");
  EXPECT_EQ(read("%D %R", "01/31/99 06:05"), "1999-01-31T06:05:00Z");
  EXPECT_EQ(read("%d-%b-%y", "31-Jan-25"), "2025-01-31T00:00:00Z");
  EXPECT_EQ(read("%e %B %Y", " 1 september 2025"), "2025-09-01T00:00:00Z");
  EXPECT_EQ(read("%Y-%j", "2024-366"), "2024-12-31T00:00:00Z");
  EXPECT_EQ(read("%s", "1738303500"), "2025-01-31T06:05:00Z");
  EXPECT_EQ(read("%F %R %z", "2025-01-31 06:05 +0200"), "2025-01-31T04:05:00Z");
  EXPECT_EQ(read("%F %R%z", "2025-01-31 06:05Z"), "2025-01-31T06:05:00Z");
  EXPECT_EQ(read("%F kl. %H", "2025-01-31 kl. 24"), "2025-02-01T00:00:00Z");
}

TEST(TimePattern, TellsMorningFromAfternoon) {
  EXPECT_EQ(read("%F %I:%M %p", "2025-03-09 01:05 PM"), "2025-03-09T13:05:00Z");
  EXPECT_EQ(read("%F %I:%M %p", "2025-03-09 12:05 AM"), "2025-03-09T00:05:00Z");
  EXPECT_EQ(read("%F %I:%M %p", "2025-03-09 12:05 p.m."), "2025-03-09T12:05:00Z");
  EXPECT_EQ(read("%F %I:%M%p", "2025-03-09 3:05a"), "2025-03-09T03:05:00Z");
}

TEST(TimePattern, RefusesWhatDoesNotFitEntirely) {
  EXPECT_EQ(read("%F %H:%M", "2025-01-31 10:05xyz"), "nothing");
  EXPECT_EQ(read("%F %H:%M", "2025-02-29 10:05"), "nothing");
  EXPECT_EQ(read("%F %H:%M", "2025-01-31 10:60"), "nothing");
  EXPECT_EQ(read("%F %H:%M", "2025-01-31"), "nothing");
  EXPECT_EQ(read("%F %H:%M", "2025-01-31 24:30"), "nothing");
  EXPECT_EQ(read("%F %I:%M %p", "2025-01-31 13:00 PM"), "nothing");
  EXPECT_EQ(read("%F %I:%M %p", "2025-01-31 1:00"), "nothing");
  EXPECT_EQ(read("%Y-%j", "2025-366"), "nothing");
  EXPECT_EQ(read("%d/%m/%Y", "31/01/25"), "nothing");
  EXPECT_EQ(read("%d %b %Y", "31 Jux 2025"), "nothing");
}

TEST(TimePattern, RefusesADirectiveItDoesNotKnow) {
  EXPECT_THROW(TimePattern("%Y-%Q"), RangeError);
  EXPECT_THROW(TimePattern("%Y-%"), RangeError);
}

TEST(TimePattern, KnowsWhetherItHasATimeOfDay) {
  EXPECT_FALSE(TimePattern("%F").has_time_of_day());
  EXPECT_TRUE(TimePattern("%F %I %p").has_time_of_day());
}

}  // namespace
}  // namespace graftcast
