#include "weather/table_reader.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::channel;
using testing::complaint;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::NanSensitiveDoubleEq;
using testing::note;
using testing::table;

std::vector<std::string> begins(const Readings& readings) {
  std::vector<std::string> texts;
  for (const Span& span : readings.blocks.at(0).spans) texts.push_back(utc_text(span.begin));
  return texts;
}

const double nothing = std::nan("");

TEST(TableReader, ReadsSelfDescribingHeadersInBracketsOrParentheses) {
  const Readings readings = table(
      "time,air_temperature [degF],relative_humidity (%),wind_speed [km h-1],precipitation_amount [kg m-2],"
      "surface_downwelling_shortwave_flux_in_air [MJ m-2],air_pressure [hPa]\n"
      "2025-01-01T00:00Z,50,55,36,1.2,0,1010\n"
      "2025-01-01T01:00Z,59,54,18,0,1.8,1011\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value,
              ElementsAre(::testing::DoubleNear(10, 1e-9), ::testing::DoubleNear(15, 1e-9)));
  EXPECT_THAT(channel(readings, Quantity::relative_humidity).value, ElementsAre(55, 54));
  EXPECT_THAT(channel(readings, Quantity::wind_speed).value, ElementsAre(10, 5));
  EXPECT_THAT(channel(readings, Quantity::precipitation, Kind::sum).value, ElementsAre(1.2, 0));
  EXPECT_THAT(channel(readings, Quantity::shortwave, Kind::sum).value, ElementsAre(0, 1.8));
  EXPECT_THAT(channel(readings, Quantity::pressure).value,
              ElementsAre(::testing::DoubleNear(101.0, 1e-9), ::testing::DoubleNear(101.1, 1e-9)));
  EXPECT_THAT(readings.notes, IsEmpty());
}

TEST(TableReader, ReadsThroughAColumnMap) {
  SourceSettings source;
  source.time_zone = "UTC";
  source.stamp = Stamp::end;
  source.wind_height_m = 10;
  source.columns = {{"time", {"When", "", "%d/%m/%Y %H:%M", {}}},
                    {"air_temperature", {"Temp (\u00b0F)", "degF", "", {"-99"}}},
                    {"wind_speed", {"Wind", "mph", "", {}}}};
  const Readings readings = table(
      "Orchard 4\n\nWhen,Note,Temp (\xB0"
      "F),Wind\n31/01/2025 01:00,a,32,10\n31/01/2025 02:00,b,-99,Calm\n",
      source);
  EXPECT_THAT(begins(readings), ElementsAre("2025-01-31T00:00:00Z", "2025-01-31T01:00:00Z"));
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value,
              ElementsAre(::testing::DoubleNear(0, 1e-9), NanSensitiveDoubleEq(nothing)));
  // FAO-56 eq. 47: a wind at 10 m is 0.748 of itself at 2 m (example 14, seen).
  EXPECT_NEAR(channel(readings, Quantity::wind_speed).value[0], 4.4704 * 0.748, 0.002);
  EXPECT_EQ(channel(readings, Quantity::wind_speed).value[1], 0);
}

TEST(TableReader, ReadsDateAndTimeInTwoColumns) {
  SourceSettings source;
  source.time_zone = "+02:00";
  source.columns = {{"date", {"Date", "", "%m/%d/%Y", {}}},
                    {"time", {"Time", "", "%I:%M %p", {}}},
                    {"air_temperature", {"T", "degC", "", {}}}};
  const Readings readings = table("Date,Time,T\n1/31/2025,12:00 AM,1\n1/31/2025,1:00 PM,2\n", source);
  EXPECT_THAT(begins(readings), ElementsAre("2025-01-30T22:00:00Z", "2025-01-31T11:00:00Z"));
}

TEST(TableReader, ReadsNumberedHoursUpToTwentyFour) {
  SourceSettings source;
  source.time_zone = "UTC";
  source.stamp = Stamp::end;
  source.columns = {{"year", {"Y", "", "", {}}},
                    {"day_of_year", {"DOY", "", "", {}}},
                    {"hour", {"Hour", "", "", {}}},
                    {"air_temperature", {"T", "degC", "", {}}}};
  EXPECT_THAT(begins(table("Y,DOY,Hour,T\n2024,365,2300,1\n2024,365,2400,2\n2024,366,0100,3\n", source)),
              ElementsAre("2024-12-30T22:00:00Z", "2024-12-30T23:00:00Z", "2024-12-31T00:00:00Z"));
  EXPECT_THAT(begins(table("Y,DOY,Hour,T\n2024,365,23,1\n2024,365,24,2\n2024,366,1,3\n", source)),
              ElementsAre("2024-12-30T22:00:00Z", "2024-12-30T23:00:00Z", "2024-12-31T00:00:00Z"));
}

TEST(TableReader, ReadsDecimalCommasBetweenSemicolonsAndTabs) {
  const std::string rows = "2025-01-01T00:00Z;1,5\n2025-01-01T01:00Z;-0,25\n";
  const std::string text = "\xEF\xBB\xBFtime;air_temperature [degC]\r\n" + rows;
  EXPECT_THAT(channel(table(text), Quantity::air_temperature).value, ElementsAre(1.5, -0.25));
  std::string tabbed = text;
  std::replace(tabbed.begin(), tabbed.end(), ';', '\t');
  EXPECT_THAT(channel(table(tabbed), Quantity::air_temperature).value, ElementsAre(1.5, -0.25));
}

TEST(TableReader, TakesTheUsualWordsForNothing) {
  const Readings readings = table(
      "time,air_temperature [degC],precipitation_amount [mm]\n"
      "2025-01-01T00:00Z,NA,T\n2025-01-01T01:00Z,--,0\n2025-01-01T02:00Z,NaN,\n2025-01-01T03:00Z,4,1\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value,
              ElementsAre(NanSensitiveDoubleEq(nothing), NanSensitiveDoubleEq(nothing),
                          NanSensitiveDoubleEq(nothing), 4));
  EXPECT_THAT(channel(readings, Quantity::precipitation, Kind::sum).value,
              ElementsAre(0, 0, NanSensitiveDoubleEq(nothing), 1));
}

TEST(TableReader, SetsAsideWhatCannotBeAndShowsIt) {
  const Readings readings = table(
      "time,air_temperature [degC],relative_humidity [%],precipitation_amount [mm],wind_speed [m s-1]\n"
      "2025-01-01T00:00Z,10,130,-1,3\n2025-01-01T01:00Z,11,101.5,0,468\n2025-01-01T02:00Z,12,-3,0,2\n");
  EXPECT_THAT(channel(readings, Quantity::relative_humidity).value,
              ElementsAre(NanSensitiveDoubleEq(nothing), 100, NanSensitiveDoubleEq(nothing)));
  EXPECT_TRUE(std::isnan(channel(readings, Quantity::precipitation, Kind::sum).value[0]));
  EXPECT_TRUE(std::isnan(channel(readings, Quantity::wind_speed).value[1]));
  const QualityNote beyond = note(readings.notes, "beyond-limits");
  EXPECT_EQ(beyond.count, 2U);
  EXPECT_THAT(beyond.examples, ElementsAre("log.csv:2:22: 130", "log.csv:4:22: -3"));
  EXPECT_THAT(beyond.text, HasSubstr("relative_humidity"));
  EXPECT_EQ(note(readings.notes, "overshoot").count, 1U);
}

TEST(TableReader, SaysWhichColumnsAreEmptyAndWhichAreNotRead) {
  const Readings readings = table(
      "time,air_temperature [degC],relative_humidity [%],air_temprature [degC],comment\n"
      "2025-01-01T00:00Z,10,,9,x\n2025-01-01T01:00Z,11,,9,y\n");
  EXPECT_THAT(note(readings.notes, "all-missing").text, HasSubstr("relative_humidity"));
  std::string unused;
  for (const QualityNote& each : readings.notes) {
    if (each.kind == "unused-column") unused += each.text;
  }
  EXPECT_THAT(unused, HasSubstr("comment"));
  EXPECT_THAT(unused, HasSubstr("did you mean air_temperature"));
}

TEST(TableReader, SaysThatAUnitWasAssumed) {
  const Readings readings = table("time,air_temperature\n2025-01-01T00:00Z,10\n");
  EXPECT_THAT(note(readings.notes, "unit-assumed").text, HasSubstr("degC"));
}

TEST(TableReader, SetsAsideALastRowThatIsCutOff) {
  const Readings readings =
      table("time,air_temperature [degC],wind_speed [m s-1]\n2025-01-01T00:00Z,10,1\n2025-01-01T01:00Z,1");
  EXPECT_EQ(channel(readings, Quantity::air_temperature).value.size(), 1U);
  EXPECT_THAT(note(readings.notes, "cut-off-row").examples, ElementsAre("log.csv:3:20"));
}

TEST(TableReader, PassesOverRowsOfEmptyCells) {
  const Readings readings =
      table("time,air_temperature [degC]\n2025-01-01T00:00Z,10\n,\n2025-01-01T01:00Z,11\n");
  EXPECT_EQ(channel(readings, Quantity::air_temperature).value.size(), 2U);
}

TEST(TableReader, SortsRowsAndSetsAsideRepeatedOnes) {
  const Readings readings = table(
      "time,air_temperature [degC]\n2025-01-01T00:00Z,0\n2025-01-01T02:00Z,2\n2025-01-01T01:00Z,1\n"
      "2025-01-01T02:00Z,99\n2025-01-01T03:00Z,3\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value, ElementsAre(0, 1, 2, 3));
  EXPECT_THAT(note(readings.notes, "out-of-order").examples, ElementsAre("log.csv:4"));
  EXPECT_THAT(note(readings.notes, "repeated-time").examples, ElementsAre("log.csv:5"));
}

TEST(TableReader, ReadsNewestFirstFilesWithoutComplaint) {
  const Readings readings =
      table("time,air_temperature [degC]\n2025-01-01T02:00Z,2\n2025-01-01T01:00Z,1\n2025-01-01T00:00Z,0\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value, ElementsAre(0, 1, 2));
  EXPECT_THAT(readings.notes, IsEmpty());
}

// ---- Stamps ----

TEST(TableReader, TakesAStampForTheBeginningOfAnHourUnlessToldOtherwise) {
  const char* const text =
      "time,air_temperature [degC],precipitation_amount [mm]\n2025-01-01T01:00Z,1,0\n2025-01-01T02:00Z,2,0\n";
  const Span first_hour{at("2025-01-01T01:00Z"), at("2025-01-01T02:00Z")};
  const Span hour_before{at("2025-01-01T00:00Z"), at("2025-01-01T01:00Z")};
  EXPECT_EQ(table(text).blocks.at(0).spans.at(0), first_hour);
  SourceSettings source;
  source.stamp = Stamp::end;
  EXPECT_EQ(table(text, source).blocks.at(0).spans.at(0), hour_before);
  source.stamp = Stamp::instant;
  const Readings readings = table(text, source);
  EXPECT_EQ(channel(readings, Quantity::air_temperature, Kind::instant).value.size(), 2U);
  EXPECT_EQ(readings.blocks.at(0).spans.at(0), (Span{first_hour.begin, first_hour.begin}));
  EXPECT_EQ(readings.blocks.at(1).spans.at(0), hour_before);  // Rain fell before the moment of the stamp.
}

TEST(TableReader, TakesCoarseRowsForInstants) {
  const Readings readings =
      table("time,air_temperature [degC]\n2025-01-01T00:00Z,1\n2025-01-01T03:00Z,2\n2025-01-01T06:00Z,2\n");
  EXPECT_NO_THROW(channel(readings, Quantity::air_temperature, Kind::instant));
}

TEST(TableReader, KeepsTheStepOfTheFileAcrossAHole) {
  const Readings readings = table(
      "time,air_temperature [degC]\n2025-01-01T00:00Z,1\n2025-01-01T00:10Z,2\n2025-01-01T00:20Z,2\n"
      "2025-01-01T05:00Z,3\n");
  EXPECT_EQ(readings.blocks.at(0).spans.at(2).end, at("2025-01-01T00:30Z"));
}

// ---- Clocks ----

TEST(TableReader, TellsTheTwoPassesOfADoubledHourApart) {
  // Lisbon, 2024-10-27: 02:00 WEST becomes 01:00 WET.
  const Readings readings = table(
      "time,air_temperature "
      "[degC]\n2024-10-27T00:30,1\n2024-10-27T01:00,2\n2024-10-27T01:30,3\n2024-10-27T01:00,4\n"
      "2024-10-27T01:30,5\n2024-10-27T02:00,6\n");
  EXPECT_THAT(begins(readings),
              ElementsAre("2024-10-26T23:30:00Z", "2024-10-27T00:00:00Z", "2024-10-27T00:30:00Z",
                          "2024-10-27T01:00:00Z", "2024-10-27T01:30:00Z", "2024-10-27T02:00:00Z"));
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value, ElementsAre(1, 2, 3, 4, 5, 6));
  EXPECT_EQ(note(readings.notes, "doubled-hour").count, 4U);
}

TEST(TableReader, TellsThePassesApartInNewestFirstFilesToo) {
  const Readings readings = table(
      "time,air_temperature "
      "[degC]\n2024-10-27T02:00,4\n2024-10-27T01:00,3\n2024-10-27T01:00,2\n2024-10-27T00:00,1\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value, ElementsAre(1, 2, 3, 4));
}

TEST(TableReader, SetsAsideRowsInAnHourThatTheClockSkips) {
  // Lisbon, 2024-03-31: 01:00 WET becomes 02:00 WEST.
  const Readings readings =
      table("time,air_temperature [degC]\n2024-03-31T00:00,1\n2024-03-31T01:00,2\n2024-03-31T02:00,3\n");
  EXPECT_THAT(begins(readings), ElementsAre("2024-03-31T00:00:00Z", "2024-03-31T01:00:00Z"));
  EXPECT_THAT(channel(readings, Quantity::air_temperature).value, ElementsAre(1, 3));
  EXPECT_THAT(note(readings.notes, "absent-hour").examples, ElementsAre("log.csv:3"));
  EXPECT_THAT(note(readings.notes, "absent-hour").text, HasSubstr("time_zone"));
}

TEST(TableReader, FollowsAFixedOffsetThroughTheChange) {
  SourceSettings source;
  source.time_zone = "+00:00";
  const Readings readings = table(
      "time,air_temperature [degC]\n2024-03-31T00:00,1\n2024-03-31T01:00,2\n2024-03-31T02:00,3\n", source);
  EXPECT_THAT(begins(readings),
              ElementsAre("2024-03-31T00:00:00Z", "2024-03-31T01:00:00Z", "2024-03-31T02:00:00Z"));
  EXPECT_THAT(readings.notes, IsEmpty());
}

TEST(TableReader, LetsAStampsOwnOffsetOutweighTheZone) {
  const Readings readings = table(
      "time,air_temperature [degC]\n2024-07-01T00:00+05:30,1\n2024-07-01T00:00Z,2\n2024-07-01T02:00,3\n");
  EXPECT_THAT(begins(readings),
              ElementsAre("2024-06-30T18:30:00Z", "2024-07-01T00:00:00Z", "2024-07-01T01:00:00Z"));
}

TEST(TableReader, ReadsUtcFromTheHeader) {
  const Readings readings = table("time [UTC],air_temperature [degC]\n2024-07-01T00:00,1\n");
  EXPECT_THAT(begins(readings), ElementsAre("2024-07-01T00:00:00Z"));
}

TEST(TableReader, ReadsDaysAsLocalDaysOfTheirTrueLength) {
  const Readings readings = table(
      "date,air_temperature_min [degC],air_temperature_max [degC],precipitation_sum [mm],"
      "surface_downwelling_shortwave_flux_in_air_sum [MJ m-2],relative_humidity_mean [%]\n"
      "2024-03-30,5,15,1,12,60\n2024-03-31,6,16,0,13,61\n2024-04-01,6,16,0,13,61\n");
  const auto& spans = readings.blocks.at(0).spans;
  EXPECT_EQ(spans.at(0).end - spans.at(0).begin, std::chrono::hours(24));
  EXPECT_EQ(spans.at(1).end - spans.at(1).begin, std::chrono::hours(23));
  EXPECT_EQ(utc_text(spans.at(2).begin), "2024-03-31T23:00:00Z");
  EXPECT_THAT(channel(readings, Quantity::air_temperature, Kind::minimum).value, ElementsAre(5, 6, 6));
  EXPECT_THAT(channel(readings, Quantity::shortwave, Kind::sum).value, ElementsAre(12, 13, 13));
}

TEST(TableReader, TurnsVapourPressureAndSeaLevelPressure) {
  const Readings readings = table(
      "time,water_vapor_partial_pressure_in_air [hPa],air_pressure_at_mean_sea_level "
      "[hPa]\n2025-01-01T00:00Z,23.38,1013\n");
  // FAO-56 table 2.3 (recalled, agrees with eq. 11): 2.338 kPa saturates air of 20.0 degC. Eq. 7 (seen): 98.3
  // kPa at 260 m, computed.
  EXPECT_NEAR(channel(readings, Quantity::dew_point).value[0], 20.0, 0.01);
  EXPECT_NEAR(channel(readings, Quantity::pressure).value[0], 98.3, 0.1);
}

// ---- What stands below the table ----

const std::string two_rows = "time,air_temperature [degC]\n2025-06-01T00:00,12\n2025-06-01T01:00,13\n";

TEST(TableFooter, IsSetAsideAndNoted) {
  for (const char* const footer :
       {"Mean,12.5\n", "\nMade on 2 June 2025\n", ",\nTotal,\nEnd of report\n", "NA,NA\nNA,NA\n"}) {
    const Readings readings = table(two_rows + footer);
    EXPECT_EQ(readings.blocks.at(0).spans.size(), 2U) << footer;
    EXPECT_GT(note(readings.notes, "footer").count, 0U) << footer;
  }
}

TEST(TableFooter, IsNotTheLastRowCutOff) {
  const Readings readings = table(two_rows + "2025-06-01T02:0");
  EXPECT_EQ(note(readings.notes, "footer").count, 0U);
  EXPECT_EQ(note(readings.notes, "cut-off-row").count, 1U);
}

TEST(TableFooter, IsAnErrorWhereValuesFollow) {
  EXPECT_NE(complaint(two_rows + "Mean,12.5\n2025-06-01T02:00,14\n").find("log.csv:4:1"), std::string::npos);
  EXPECT_NE(complaint(two_rows + "second sensor\n2025-06-01T02:00,14\n").find("log.csv:4:"),
            std::string::npos);
}

TEST(TableFooter, DoesNotHideATimeThatIsWrong) {
  EXPECT_NE(complaint(two_rows + "2025-06-31T02:00,14\n").find("log.csv:4:1"), std::string::npos);
}

TEST(TableFooter, DoesNotSpoilTheLayoutOfTheTimes) {
  const Readings readings = table(
      "date,air_temperature_min [degC],air_temperature_max [degC]\n13/06/2025,9,20\n14/06/2025,8,21\nPrinted "
      "15/06/2025\n");
  EXPECT_EQ(readings.blocks.at(0).spans.size(), 2U);
}

}  // namespace
}  // namespace graftcast
