// The public archives' layouts: units, flags, missing values and times as their documents give them.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "archive_cases.hpp"
#include "graftcast/air.hpp"
#include "temporary_folder.hpp"
#include "weather/daily_to_hourly.hpp"
#include "weather/detect_reader.hpp"
#include "weather/resample.hpp"

namespace graftcast {
namespace {

using testing::archive;
using testing::at;
using testing::channel;
using testing::day;
using testing::dly_line;
using ::testing::DoubleEq;
using ::testing::ElementsAre;
using testing::epw_header;
using testing::epw_row;
using testing::ghcnh_header;
using ::testing::HasSubstr;
using testing::isd;
using testing::lisbon;
using testing::note;
using testing::one_an_hour;
using testing::terrace;
using testing::tmy3_head;

// ---- GHCN-Daily ----

TEST(GhcnDaily, FixedWidthIsInTenths) {
  const Readings readings = archive(read_ghcn_daily, dly_line("202102TMAX", {"  189  a", "  204  a"}) +
                                                         dly_line("202102TMIN", {"  -31  a", "   40  a"}) +
                                                         dly_line("202102PRCP", {"    0T a", "  123  a"}));
  const auto days = daily_readings(readings, lisbon());
  ASSERT_EQ(days.size(), 2U);
  EXPECT_EQ(days[0].day, day("2021-02-01"));
  EXPECT_EQ(days[0].maximum_temperature_c, 18.9);
  EXPECT_EQ(days[0].minimum_temperature_c, -3.1);
  EXPECT_EQ(days[0].precipitation_mm, 0);
  EXPECT_EQ(days[1].precipitation_mm, 12.3);
}

TEST(GhcnDaily, ValueThatFailedACheckIsSetAsideAndShown) {
  const Readings readings =
      archive(read_ghcn_daily, dly_line("202102TMAX", {"  189  a", "  512 Xa", "  204  a"}));
  EXPECT_EQ(daily_readings(readings, lisbon()).size(), 2U);
  const QualityNote failed = note(readings.notes, "failed-check");
  EXPECT_EQ(failed.count, 1U);
  EXPECT_THAT(failed.examples, ElementsAre("archive:1:30: 512 on 2021-02-02, flag X"));
}

TEST(GhcnDaily, ThirtiethOfFebruaryIsNoGapAndNoError) {
  std::vector<std::string> days(31, "  100  a");
  const Readings readings = archive(read_ghcn_daily, dly_line("202102TMAX", days));
  EXPECT_EQ(daily_readings(readings, lisbon()).size(), 28U);
}

TEST(GhcnDaily, LineTrimmedOfItsBlanksIsRead) {
  const Readings readings = archive(read_ghcn_daily, "XXE00000001202102TMAX  189  a  204\n");
  EXPECT_THAT(channel(readings, Quantity::air_temperature, Kind::maximum).value, ElementsAre(18.9, 20.4));
}

TEST(GhcnDaily, ValueOfFiveDigitsTouchesTheElement) {
  const Readings readings = archive(read_ghcn_daily, dly_line("202102PRCP", {"10000  a", "-9999   "}));
  EXPECT_THAT(channel(readings, Quantity::precipitation, Kind::sum).value, ElementsAre(1000.0));
}

TEST(GhcnDaily, AmountOfSeveralDaysIsNotedNotUsed) {
  const Readings readings =
      archive(read_ghcn_daily, dly_line("202102PRCP", {"    5  a"}) + dly_line("202102MDPR", {"   80  a"}));
  EXPECT_EQ(note(readings.notes, "several-days").count, 1U);
  EXPECT_THAT(channel(readings, Quantity::precipitation, Kind::sum).value, ElementsAre(0.5));
}

TEST(GhcnDaily, HourOfObservationUnknownIsSaid) {
  const Readings readings = archive(read_ghcn_daily, dly_line("202102PRCP", {"    5  a"}));
  EXPECT_EQ(note(readings.notes, "day-boundary").count, 1U);
}

TEST(GhcnDaily, MaximumAndRainReadInTheMorningAreOfTheDayBefore) {
  const Readings readings = archive(read_ghcn_daily,
                                    "XXE00000001,20210702,TMAX,322,,,7,0700\n"
                                    "XXE00000001,20210702,TMIN,111,,,7,0700\n"
                                    "XXE00000001,20210702,PRCP,45,,,7,0700\n");
  const auto days = daily_readings(readings, lisbon());
  ASSERT_EQ(days.size(), 2U);
  EXPECT_EQ(days[0].day, day("2021-07-01"));
  EXPECT_EQ(days[0].maximum_temperature_c, 32.2);
  EXPECT_EQ(days[0].precipitation_mm, 4.5);
  EXPECT_EQ(days[1].minimum_temperature_c, 11.1);
  EXPECT_EQ(note(readings.notes, "day-boundary").count, 0U);
}

TEST(GhcnDaily, ReadInTheEveningOrAtMidnightIsOfItsDate) {
  for (const char* const hour : {"1700", "2400", "1200"}) {
    const Readings readings =
        archive(read_ghcn_daily, std::string("ID,DATE,ELEMENT,DATA_VALUE,M_FLAG,Q_FLAG,S_FLAG,OBS_TIME\n"
                                             "XXE00000001,20210702,TMAX,322,,,W,") +
                                     hour + "\n");
    const auto days = daily_readings(readings, lisbon());
    ASSERT_EQ(days.size(), 1U) << hour;
    EXPECT_EQ(days[0].day, day("2021-07-02")) << hour;
  }
}

TEST(GhcnDaily, StationTableKeepsAttributesApart) {
  const Readings readings =
      archive(read_ghcn_daily,
              "\"STATION\",\"DATE\",\"NAME\",\"PRCP\",\"PRCP_ATTRIBUTES\",\"TMAX\",\"TMAX_ATTRIBUTES\"\n"
              "\"XXE00000001\",\"2021-07-01\",\"EXAMPLE, XX\",\"    0\",\"T,,a\",\"  189\",\",,a\"\n"
              "\"XXE00000001\",\"2021-07-02\",\"EXAMPLE, XX\",\"   12\",\",X,a\",\"  204\",\",,a,1700\"\n"
              "\"XXE00000001\",\"2021-07-03\",\"EXAMPLE, XX\",,,\"  215\",\",,a\"\n");
  const auto days = daily_readings(readings, lisbon());
  ASSERT_EQ(days.size(), 3U);
  EXPECT_EQ(days[0].precipitation_mm, 0);
  EXPECT_TRUE(std::isnan(days[1].precipitation_mm));
  EXPECT_EQ(days[1].maximum_temperature_c, 20.4);
  EXPECT_EQ(note(readings.notes, "failed-check").count, 1U);
}

// ---- ISD-Lite ----

TEST(IsdLite, TenthsInUtcWithTraceOfRain) {
  const Readings readings = archive(read_isd_lite, isd, '\t');
  const Block& values = readings.blocks.at(0);
  EXPECT_EQ(values.spans.front(), (Span{at("2021-07-01T00:00Z"), at("2021-07-01T00:00Z")}));
  EXPECT_THAT(channel(readings, Quantity::air_temperature, Kind::instant).value,
              ElementsAre(21.4, 20.6, 20.0));
  const auto& pressure = channel(readings, Quantity::pressure, Kind::instant).value;
  EXPECT_NEAR(pressure[0], 101.32 * air_pressure_kpa(260) / air_pressure_kpa(0), 1e-9);
  EXPECT_TRUE(std::isnan(pressure[1]));
  // 0.748 of the wind at 10 m (FAO-56 example 14: 3.2 m/s at 10 m are 2.4 m/s at 2 m).
  EXPECT_NEAR(channel(readings, Quantity::wind_speed, Kind::instant).value[0], 3.1 * 0.748, 0.001);
  const auto& cloud = channel(readings, Quantity::cloud_cover, Kind::instant).value;
  EXPECT_EQ(cloud[0], 25);
  EXPECT_EQ(cloud[2], 43.75);
  const Block& rain = readings.blocks.at(1);
  EXPECT_THAT(rain.channels.at(0).value, ElementsAre(0.0, 0.0));
  EXPECT_EQ(rain.spans.back(), (Span{at("2021-07-01T01:00Z"), at("2021-07-01T02:00Z")}));
}

TEST(IsdLite, SixHourRainCountsOnlyWhereNoHourHasItsOwn) {
  std::string text;
  for (int hour = 0; hour < 13; ++hour) {
    const bool six = hour == 6 || hour == 12;
    const bool own = hour == 10;
    text += "2021 07 01 " + std::string(hour < 10 ? "0" : "") + std::to_string(hour) +
            "   214   161 10132   270    31     2 " + (own ? "    7" : "-9999") +
            (six ? "    21" : " -9999") + "\n";
  }
  const QuantityHours result = resample(archive(read_isd_lite, text, '\t'), terrace);
  const auto& rain = result[Quantity::precipitation].value;
  double early = 0;
  for (std::size_t k = 0; k < result.size(); ++k) {
    if (result.hour(k) < at("2021-07-01T06:00Z") && !std::isnan(rain[k])) early += rain[k];
  }
  const auto index = [&](std::string_view time) {
    return static_cast<std::size_t>((at(time) - Instant(result.start)) / std::chrono::hours(1));
  };
  EXPECT_EQ(rain.at(index("2021-07-01T09:00Z")), 0.7);
  EXPECT_TRUE(std::isnan(rain.at(index("2021-07-01T07:00Z"))));
  EXPECT_NEAR(early, 2.1, 1e-12);
}

// ---- GHCN-hourly ----

TEST(GhcnHourly, ReportsOfAnyMinuteWithGoodCodes) {
  const Readings readings = archive(
      read_ghcn_hourly,
      ghcnh_header +
          "XXE1|EXAMPLE "
          "AP|2025-07-01T13:53:00|34.1|-118.2|85.0|31.1||1|FM-15|12.2|1|4.1||1013.0|0.3||FM-15|a, b\n"
          "XXE1|EXAMPLE AP|2025-07-01T14:20:00|34.1|-118.2|85.0|45.1||3|FM-16|12.0|1|4.1|||1.3||FM-16|\n"
          "XXE1|EXAMPLE AP|2025-07-01T14:53:00|34.1|-118.2|******|32.0||5|FM-15|||||1013.0|T||FM-15|\n",
      '|');
  const auto& air = channel(readings, Quantity::air_temperature, Kind::instant).value;
  ASSERT_EQ(air.size(), 3U);
  EXPECT_EQ(air[0], 31.1);
  EXPECT_TRUE(std::isnan(air[1]));
  EXPECT_EQ(note(readings.notes, "failed-check").count, 1U);
  const Block& rain = readings.blocks.at(1);
  EXPECT_THAT(rain.channels.at(0).value, ElementsAre(0.3, 0.0));
  EXPECT_EQ(rain.spans[0], (Span{at("2025-07-01T12:53Z"), at("2025-07-01T13:53Z")}));
}

TEST(GhcnHourly, NamesOfAnOlderReleaseAreTheSame) {
  const Readings readings =
      archive(read_ghcn_hourly,
              "Station_ID|Year|Month|Day|Hour|Minute|Temperature|Temperature_Quality_Code\n"
              "XXE1|2025|7|1|13|53|31.1|\n",
              '|');
  EXPECT_EQ(readings.blocks.at(0).spans.at(0).begin, at("2025-07-01T13:53Z"));
}

// ---- EPW and TMY3 ----

TEST(Epw, HourOneEndsAtOneLocalStandardTime) {
  const Readings readings = archive(read_epw, epw_header + one_an_hour + epw_row("2007,1,1,1,0", "17.2") +
                                                  epw_row("2007,1,1,13,60", "31.4", "9.1", "612") +
                                                  epw_row("2007,1,1,24,0", "20.0"));
  const Block& values = readings.blocks.at(0);
  EXPECT_EQ(values.spans.at(0).begin, at("2007-01-01T09:00Z"));
  EXPECT_EQ(values.spans.at(2).begin, at("2007-01-02T08:00Z"));
  EXPECT_DOUBLE_EQ(channel(readings, Quantity::pressure, Kind::instant).value[0], 98.35);
  const Block& light = readings.blocks.at(1);
  EXPECT_EQ(light.spans.at(1), (Span{at("2007-01-01T20:00Z"), at("2007-01-01T21:00Z")}));
  EXPECT_EQ(light.channels.at(0).value[1], 612);
}

TEST(Epw, CodesForNoneDifferByColumn) {
  const Readings readings = archive(read_epw, epw_header + one_an_hour +
                                                  epw_row("2007,7,1,1,0", "99.90", "99.9", "9999", "999999") +
                                                  epw_row("2007,7,1,2,0", "20.1", "10.0", "999", "98000"));
  EXPECT_EQ(readings.blocks.at(0).spans.size(), 2U);  // Humidity, wind and cloud are known in the first row.
  EXPECT_TRUE(std::isnan(channel(readings, Quantity::air_temperature, Kind::instant).value[0]));
  EXPECT_THAT(channel(readings, Quantity::shortwave).value, ElementsAre(999.0));
}

TEST(Epw, TypicalYearIsDatedAsOneThatIsNoLeapYear) {
  const Readings readings = archive(
      read_epw, epw_header + one_an_hour + epw_row("2004,2,28,24,0", "5") + epw_row("2004,2,29,1,0", "6") +
                    epw_row("1977,3,1,1,0", "7") + epw_row("2000,4,1,1,0", "8"));
  const Block& values = readings.blocks.at(0);
  ASSERT_EQ(values.spans.size(), 3U);
  EXPECT_EQ(values.spans.at(0).begin, at("1977-03-01T08:00Z"));
  EXPECT_EQ(values.spans.at(1).begin, at("1977-03-01T09:00Z"));
  EXPECT_EQ(values.spans.at(2).begin, at("1977-04-01T09:00Z"));
  EXPECT_THAT(note(readings.notes, "typical-year").text, HasSubstr("from 1977 to 2004"));
}

TEST(Epw, TrueRecordOverTheNewYearKeepsItsYears) {
  const Readings readings =
      archive(read_epw, epw_header + one_an_hour + epw_row("2003,12,31,24,0", "5") +
                            epw_row("2004,1,1,1,0", "6") + epw_row("2004,2,29,1,0", "7"));
  EXPECT_EQ(readings.blocks.at(0).spans.at(0).begin, at("2004-01-01T08:00Z"));
  EXPECT_EQ(readings.blocks.at(0).spans.at(2).begin, at("2004-02-29T09:00Z"));
}

TEST(Epw, MinutesFromZeroOrToSixty) {
  const std::string half_hours = "DATA PERIODS,1,2,Data,Sunday, 1/ 1,12/31\n";
  for (const auto& [first, second] : {std::pair("0", "30"), std::pair("30", "60")}) {
    const Readings readings = archive(
        read_epw, epw_header + half_hours + epw_row(std::string("2007,7,1,12,") + first, "20", "9", "300") +
                      epw_row(std::string("2007,7,1,12,") + second, "21", "9", "310"));
    const Block& light = readings.blocks.at(1);
    EXPECT_EQ(light.spans.at(0), (Span{at("2007-07-01T19:00Z"), at("2007-07-01T19:30Z")})) << first;
    EXPECT_EQ(light.channels.at(0).value[1], 620) << first;  // 310 Wh/m2 in half an hour.
  }
}

TEST(Epw, StationFarFromTheSiteIsNoted) {
  std::string header = epw_header;
  header.replace(header.find("41.20"), 5, "43.20");
  EXPECT_THAT(
      note(archive(read_epw, header + one_an_hour + epw_row("2007,7,1,1,0", "20")).notes, "elsewhere").text,
      HasSubstr("222 km"));
  EXPECT_EQ(
      note(archive(read_epw, epw_header + one_an_hour + epw_row("2007,7,1,1,0", "20")).notes, "elsewhere")
          .count,
      0U);
}

TEST(Tmy3, HourEndingUnitsAndCodes) {
  const Readings readings = archive(read_tmy3, tmy3_head +
                                                   "07/01/1993,01:00,0,1,5,20.5,10.1,983,2.1,2,1\n"
                                                   "07/01/1993,24:00,12,1,-9900,-9900,10.1,983,2.1,9,6\n");
  EXPECT_EQ(readings.blocks.at(0).spans.at(0).begin, at("1993-07-01T09:00Z"));
  EXPECT_EQ(readings.blocks.at(0).spans.at(1).begin, at("1993-07-02T08:00Z"));
  EXPECT_THAT(channel(readings, Quantity::pressure, Kind::instant).value,
              ElementsAre(DoubleEq(98.3), DoubleEq(98.3)));
  EXPECT_TRUE(std::isnan(channel(readings, Quantity::air_temperature, Kind::instant).value[1]));
  EXPECT_EQ(channel(readings, Quantity::cloud_cover, Kind::instant).value[0], 50);
  const auto& rain = channel(readings, Quantity::precipitation, Kind::sum).value;
  EXPECT_EQ(rain[0], 2);
  EXPECT_TRUE(std::isnan(rain[1]));  // Of six hours.
  EXPECT_EQ(channel(readings, Quantity::shortwave).value[1], 12);
}

// ---- Detection ----

TEST(DetectReader, ToldByContent) {
  EXPECT_EQ(detect_reader(dly_line("202102TMAX", {"  189  a"})), "ghcn-daily");
  EXPECT_EQ(detect_reader("XXE00000001,20210702,TMAX,322,,,7,0700\n"), "ghcn-daily");
  EXPECT_EQ(detect_reader("\"STATION\",\"DATE\",\"TMAX\",\"TMAX_ATTRIBUTES\"\n"), "ghcn-daily");
  EXPECT_EQ(detect_reader(isd), "isd-lite");
  EXPECT_EQ(detect_reader(ghcnh_header), "ghcn-hourly");
  EXPECT_EQ(detect_reader("\xEF\xBB\xBF" + epw_header), "epw");
  EXPECT_EQ(detect_reader(tmy3_head), "tmy3");
}

TEST(DetectReader, AnythingElseIsATable) {
  for (const char* const text :
       {"", "\n", "date,air_temperature [degC]\n2025-01-01,3\n", "STATION,NAME,DATE,TMAX\n",
        "2021 07 01 00 some prose of at least fifty-five characters here\n", "{\"type\":\"Feature\"}"}) {
    EXPECT_EQ(detect_reader(text), "table") << text;
  }
}

TEST(ReadWeatherFile, ContentDecidesButAWordOutweighsIt) {
  const testing::TemporaryFolder folder;
  const auto file = folder.write("log.csv", isd);
  EXPECT_EQ(read_weather_file(file, {}, terrace, lisbon()).blocks.at(0).spans.size(), 3U);
  SourceSettings table;
  table.reader = "table";
  EXPECT_THROW(read_weather_file(file, table, terrace, lisbon()), DataError);
  table.reader = "isd-lit";
  try {
    read_weather_file(file, table, terrace, lisbon());
    FAIL() << "a word that is not known was taken";
  } catch (const DataError& error) {
    EXPECT_THAT(error.what(), HasSubstr("isd-lite"));
  }
  EXPECT_THROW(read_weather_file(folder.path() / "absent", {}, terrace, lisbon()), OpenError);
  EXPECT_THROW(read_weather_file(folder.path(), {}, terrace, lisbon()), OpenError);
}

}  // namespace
}  // namespace graftcast
