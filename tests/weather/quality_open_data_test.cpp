// The checks over real stations: what they find is plausible.

#include <gtest/gtest.h>

#include <iostream>

#include <fmt/format.h>

#include "open_stations.hpp"
#include "weather/quality_checks.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::note;
using testing::OpenStation;

/// What the checks find, printed so that a person can judge it.
std::vector<QualityNote> findings(Readings readings, const Location& place, const Clock& clock) {
  const SiteWeather weather = assemble({std::move(readings)}, place, clock, {at("2030-01-01T00:00Z"), true});
  for (const QualityNote& found : weather.findings)
    std::cout << fmt::format("{}: {} {}: {} ({})\n", found.source, found.count, found.kind, found.text,
                             fmt::join(found.examples, "; "));
  return weather.findings;
}

std::vector<QualityNote> findings(const OpenStation& station) {
  return findings(station.read(), station.place, station.clock);
}

std::size_t count(const std::vector<QualityNote>& notes, std::string_view kind) {
  return note(notes, kind).count;
}

TEST(OpenQuality, FallonOnItsOwnClockIsInStepButForARemainderOfItsClock) {
  const auto found = findings(testing::fallon());
  EXPECT_EQ(count(found, "radiation-late"), 0U);
  EXPECT_EQ(count(found, "night-sunshine"), 0U);
  EXPECT_EQ(count(found, "no-radiation-day"), 0U);
  EXPECT_EQ(count(found, "stuck-sensor"), 0U);
  EXPECT_EQ(count(found, "spike"), 0U);
  // Its hours run 0.4 h ahead of the sun all year: more before noon than the sun can give.
  for (const QualityNote& each : found)
    EXPECT_NE(each.text.find("0.4 h ahead"), std::string::npos) << each.text;
}

TEST(OpenQuality, FallonReadAsStandardTimeIsAnHourOffInSummerAlone) {
  OpenStation station = testing::fallon();
  station.source.time_zone = "-08:00";
  const QualityNote late = note(findings(station), "radiation-late");
  EXPECT_GT(late.count, 150U);
  EXPECT_EQ(late.text.substr(0, 15), "in summer time,");
}

TEST(OpenQuality, FallonReadWithStampsOfTheWrongEndIsFound) {
  OpenStation station = testing::fallon();
  station.source.stamp = Stamp::start;
  EXPECT_GT(count(findings(station), "radiation-late"), 50U);
}

TEST(OpenQuality, NewarkAndLaGuardiaAreCleanAndKennedyHasOneSpike) {
  const Location place{40.69, -74.17, 3};
  const Clock clock("America/New_York");
  EXPECT_TRUE(findings(testing::new_york("EWR"), place, clock).empty());
  EXPECT_TRUE(findings(testing::new_york("LGA"), place, clock).empty());
  // 13.1 between 57.02 and 57.2 degF on 8 May at 22 h: degC among degF.
  const auto kennedy = findings(testing::new_york("JFK"), place, clock);
  ASSERT_EQ(kennedy.size(), 1U);
  EXPECT_EQ(kennedy[0].kind, "spike");
  EXPECT_EQ(kennedy[0].latest, at("2013-05-09T03:00Z"));
}

TEST(OpenQuality, ParisTheTypicalYearAndThreeHourlyReadingsAreClean) {
  const testing::ThreeHourly three_hourly;
  EXPECT_TRUE(findings(three_hourly.read(), three_hourly.place, three_hourly.clock).empty());
  for (const OpenStation& station : {testing::paris(), testing::san_francisco()}) {
    EXPECT_TRUE(findings(station).empty()) << station.file;
  }
}

}  // namespace
}  // namespace graftcast
