#include "weather/weather_file.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "temporary_folder.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::lisbon;
using testing::TemporaryFolder;
using testing::terrace;

constexpr const char* log_text =
    "time,air_temperature [degC],precipitation_amount "
    "[mm]\n2025-06-01T00:00Z,10,0\n2025-06-01T01:00Z,,1\n2025-06-01T02:00Z,13,0\n";

TEST(AddWeatherFile, CopiesTheFileAndSaysWhatItHolds) {
  const TemporaryFolder site;
  const TemporaryFolder elsewhere;
  const auto file = elsewhere.write("log.csv", log_text);
  const AddedWeather added = add_weather_file(site.path(), file, {}, terrace, lisbon());
  EXPECT_EQ(added.source.file, "weather/log.csv");
  EXPECT_EQ(site.read("weather/log.csv"), log_text);
  EXPECT_EQ(added.summary.rows, 3U);
  EXPECT_FALSE(added.summary.daily);
  EXPECT_EQ(utc_text(added.summary.first), "2025-06-01T00:00:00Z");
  EXPECT_EQ(utc_text(added.summary.last), "2025-06-01T03:00:00Z");
  ASSERT_EQ(added.summary.channels.size(), 2U);
  EXPECT_EQ(added.summary.channels[0].known, 2U);
  EXPECT_EQ(added.summary.channels[0].least, 10);
  EXPECT_EQ(added.summary.channels[0].greatest, 13);
}

TEST(AddWeatherFile, NeverWritesOverAnotherFile) {
  const TemporaryFolder site;
  const TemporaryFolder elsewhere;
  site.write("weather/log.csv", "something else");
  const auto file = elsewhere.write("log.csv", log_text);
  EXPECT_THROW(add_weather_file(site.path(), file, {}, terrace, lisbon()), WriteError);
  EXPECT_EQ(site.read("weather/log.csv"), "something else");
}

TEST(AddWeatherFile, OnlyChecksAFileThatIsAlreadyThere) {
  const TemporaryFolder site;
  const TemporaryFolder elsewhere;
  const auto inside = site.write("weather/log.csv", log_text);
  EXPECT_EQ(add_weather_file(site.path(), inside, {}, terrace, lisbon()).source.file, "weather/log.csv");
  const auto same = elsewhere.write("log.csv", log_text);
  EXPECT_EQ(add_weather_file(site.path(), same, {}, terrace, lisbon()).source.file, "weather/log.csv");
  EXPECT_EQ(site.read("weather/log.csv"), log_text);
}

TEST(AddWeatherFile, CopiesNothingThatCannotBeRead) {
  const TemporaryFolder site;
  const TemporaryFolder elsewhere;
  const auto file = elsewhere.write("log.csv", "time,air_temperature [degC]\n2025-06-01T00:00Z,warm\n");
  EXPECT_THROW(add_weather_file(site.path(), file, {}, terrace, lisbon()), DataError);
  EXPECT_FALSE(std::filesystem::exists(site.path() / "weather"));
}

TEST(AddWeatherFile, KeepsTheColumnMapInTheEntry) {
  const TemporaryFolder site;
  const TemporaryFolder elsewhere;
  SourceSettings settings;
  settings.time_zone = "UTC";
  settings.columns = {{"time", {"When", "", "", {}}}, {"air_temperature", {"Temp", "degF", "", {}}}};
  const auto file = elsewhere.write("log.csv", "When,Temp\n2025-06-01T00:00,50\n");
  const AddedWeather added = add_weather_file(site.path(), file, settings, terrace, lisbon());
  EXPECT_EQ(added.source.columns.at("air_temperature").unit, "degF");
  EXPECT_EQ(added.source.time_zone, "UTC");
  EXPECT_NEAR(added.summary.channels.at(0).least, 10, 1e-9);
}

}  // namespace
}  // namespace graftcast
