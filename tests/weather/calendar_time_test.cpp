#include "graftcast/calendar_time.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "graftcast/error.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::day;
using Fold = Clock::Resolved::Fold;

std::chrono::local_seconds reading(std::string_view text) {
  return parse_time(text).value().reading;
}

struct Change {
  const char* zone;
  const char* local;
  const char* first;
  const char* second;
  Fold fold;
};

// Published transitions of the IANA time zone data, checked beforehand with another program.
TEST(Clock, TellsSkippedAndDoubledHours) {
  const std::vector<Change> changes = {
      {"America/Los_Angeles", "2024-03-10T01:59", "2024-03-10T09:59Z", "2024-03-10T09:59Z", Fold::unique},
      {"America/Los_Angeles", "2024-03-10T02:00", "2024-03-10T10:00Z", "2024-03-10T10:00Z", Fold::absent},
      {"America/Los_Angeles", "2024-03-10T03:00", "2024-03-10T10:00Z", "2024-03-10T10:00Z", Fold::unique},
      {"America/Los_Angeles", "2024-11-03T01:00", "2024-11-03T08:00Z", "2024-11-03T09:00Z", Fold::doubled},
      {"Australia/Sydney", "2024-10-06T02:30", "2024-10-05T16:00Z", "2024-10-05T16:00Z", Fold::absent},
      {"Australia/Sydney", "2025-04-06T02:30", "2025-04-05T15:30Z", "2025-04-05T16:30Z", Fold::doubled},
      {"Australia/Lord_Howe", "2024-10-06T02:15", "2024-10-05T15:30Z", "2024-10-05T15:30Z", Fold::absent},
      {"Asia/Kathmandu", "2024-01-01T00:00", "2023-12-31T18:15Z", "2023-12-31T18:15Z", Fold::unique},
      {"Europe/London", "2024-10-27T01:30", "2024-10-27T00:30Z", "2024-10-27T01:30Z", Fold::doubled},
  };
  for (const Change& change : changes) {
    const Clock clock(change.zone);
    const auto first = clock.resolve(reading(change.local));
    EXPECT_EQ(first.fold, change.fold) << change.local;
    EXPECT_EQ(utc_text(first.instant), utc_text(at(change.first))) << change.local;
    EXPECT_EQ(utc_text(clock.resolve(reading(change.local), true).instant), utc_text(at(change.second)));
  }
}

TEST(Clock, CountsTheHoursOfDaysWhenTheClocksChange) {
  const Clock clock("America/New_York");
  EXPECT_EQ(clock.hours_in(day("2013-03-10")), 23);
  EXPECT_EQ(clock.hours_in(day("2013-11-03")), 25);
  EXPECT_EQ(clock.hours_in(day("2013-07-01")), 24);
  EXPECT_EQ(Clock("Australia/Lord_Howe").hours_in(day("2024-10-06")), 23.5);
}

TEST(Clock, BeginsADayWithoutMidnightAfterTheGap) {
  EXPECT_EQ(utc_text(Clock("America/Sao_Paulo").begin_of(day("2018-11-04"))), "2018-11-04T03:00:00Z");
}

TEST(Clock, PutsEveryInstantIntoTheDayThatHoldsIt) {
  std::mt19937_64 generator(20250131);
  std::uniform_int_distribution<long> any(0, 2'000'000'000);
  for (const char* const zone :
       {"Europe/Lisbon", "Asia/Kathmandu", "America/Sao_Paulo", "Australia/Lord_Howe"}) {
    const Clock clock(zone);
    for (int trial = 0; trial < 300; ++trial) {
      const Instant instant{std::chrono::seconds(any(generator))};
      const LocalDay local = clock.day_of(instant);
      EXPECT_LE(clock.begin_of(local), instant) << utc_text(instant);
      EXPECT_GT(clock.begin_of(local + std::chrono::days(1)), instant) << utc_text(instant);
    }
  }
}

TEST(Clock, KnowsStandardTimeInBothHemispheres) {
  using std::chrono::hours;
  EXPECT_EQ(Clock("America/Los_Angeles").standard_offset_at(at("2024-07-01T00:00Z")), hours(-8));
  EXPECT_EQ(Clock("Australia/Sydney").standard_offset_at(at("2024-01-01T00:00Z")), hours(10));
  EXPECT_EQ(Clock("Europe/Dublin").standard_offset_at(at("2024-07-01T00:00Z")), hours(0));
}

TEST(Clock, OffersTheNearestZoneForAnUnknownOne) {
  try {
    Clock("Europe/Lisbn");
    FAIL() << "accepted";
  } catch (const RangeError& error) {
    EXPECT_THAT(error.hint(), ::testing::HasSubstr("Europe/Lisbon"));
  }
}

TEST(Clock, ShowsLocalTime) {
  EXPECT_EQ(Clock("Europe/Lisbon").local_text(at("2025-07-01T05:30Z")), "2025-07-01T06:30");
}

TEST(ParseDay, TakesOnlyDaysOfTheCalendar) {
  EXPECT_EQ(day_text(day("2024-02-29")), "2024-02-29");
  for (const char* const wrong : {"2025-02-30", "2025-02-29", "2025-13-01", "2025-00-10", "2025-1-1",
                                  "20250101", "2025-01-01 ", "2025/01/01", "", "-025-01-01"}) {
    EXPECT_FALSE(parse_day(wrong)) << wrong;
  }
}

TEST(ParseTime, ReadsIsoTimes) {
  EXPECT_EQ(utc_text(at("2025-01-31T06:07:08Z")), "2025-01-31T06:07:08Z");
  EXPECT_EQ(utc_text(at("2025-01-31 06:07:08.250+05:45")), "2025-01-31T00:22:08Z");
  EXPECT_EQ(utc_text(at("2025-01-31T06:07-0230")), "2025-01-31T08:37:00Z");
  EXPECT_EQ(utc_text(at("2025-01-31T24:00Z")), "2025-02-01T00:00:00Z");
  EXPECT_FALSE(parse_time("2025-01-31T06:07")->offset);
}

TEST(ParseTime, RefusesWhatIsNoTime) {
  for (const char* const wrong :
       {"2025-01-31", "2025-01-31T06", "2025-01-31T25:00", "2025-01-31T24:01", "2025-01-31T06:60",
        "2025-01-31T06:07:60", "2025-01-31T06:07x", "2025-01-31T06:07+1", "2025-01-31T06:07:08.",
        "2025-02-30T06:07", "2025-01-31X06:07", "2025-01-31T06:07+25:00", "2025-01-31T06:07+01:60",
        "2025-01-31T06:07+01-00"}) {
    EXPECT_FALSE(parse_time(wrong)) << wrong;
  }
}

}  // namespace
}  // namespace graftcast
