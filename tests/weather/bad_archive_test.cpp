// What archive readers say of input that is not right: where, and what would be.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "archive_cases.hpp"

namespace graftcast {
namespace {

using testing::archive_complaint;
using testing::dly_line;
using testing::epw_header;
using testing::epw_row;
using ::testing::HasSubstr;
using testing::one_an_hour;
using ::testing::StartsWith;

struct BadArchive {
  const char* name;
  testing::ReadArchive read;
  char separator;
  std::string text;
  const char* place;
  const char* complaint;
};

class BadArchives : public ::testing::TestWithParam<BadArchive> {};

TEST_P(BadArchives, AreRefusedWithTheirPlace) {
  const BadArchive& bad = GetParam();
  const std::string said = archive_complaint(bad.read, bad.text, bad.separator);
  EXPECT_THAT(said, StartsWith(bad.place));
  EXPECT_THAT(said, HasSubstr(bad.complaint));
}

const std::string station_header = "STATION,DATE,TMAX,TMAX_ATTRIBUTES\n";
const std::string tmy3_head =
    "999999,\"EXAMPLE FIELD\",XX,-8.0,41.200,-7.500,260\n"
    "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),Dry-bulb (C)\n";
const std::string ghcnh_header = "STATION|DATE|temperature|temperature_Quality_Code\n";

INSTANTIATE_TEST_SUITE_P(
    Tables, BadArchives,
    ::testing::Values(
        BadArchive{"DailyEmpty", read_ghcn_daily, ',', "", "archive:1:1", "empty"},
        BadArchive{"DailyLetters", read_ghcn_daily, ',', dly_line("202102TMAX", {"  1x9  a"}), "archive:1:22",
                   "\"1x9\""},
        BadArchive{"DailyMonth13", read_ghcn_daily, ',', dly_line("202113TMAX", {"  189  a"}), "archive:1:16",
                   "a month"},
        BadArchive{"DailyShort", read_ghcn_daily, ',', "XXE000000012021\n", "archive:1:16",
                   "before its first value"},
        BadArchive{"DailyLong", read_ghcn_daily, ',',
                   dly_line("202102TMAX", std::vector<std::string>(32, "  189  a")) + "x", "archive:2:2",
                   "before its first value"},
        BadArchive{
            "DailyOtherStation", read_ghcn_daily, ',',
            dly_line("202102TMAX", {"  189  a"}) + "Y" + dly_line("202103TMAX", {"  189  a"}).substr(1),
            "archive:2:1", "after station"},
        BadArchive{"DailyOnlyFlagged", read_ghcn_daily, ',', dly_line("202102TMAX", {"  189 Xa"}), "archive",
                   "no value"},
        BadArchive{"YearTableDate", read_ghcn_daily, ',', "XXE00000001,20210230,TMAX,322,,,7,\n",
                   "archive:1:13", "not a date"},
        BadArchive{"YearTableHour", read_ghcn_daily, ',', "XXE00000001,20210203,TMAX,322,,,7,0760\n",
                   "archive:1:35", "hour of observation"},
        BadArchive{"YearTableShort", read_ghcn_daily, ',', "XXE00000001,20210203,TMAX\n",
                   "archive:1:", "fewer than four"},
        BadArchive{"ExportUnits", read_ghcn_daily, ',', "STATION,DATE,TMAX\nXX,2021-07-01,90\n",
                   "archive:1:1", "units"},
        BadArchive{"ExportDecimals", read_ghcn_daily, ',', station_header + "XX,2021-07-01,32.2,\",,W\"\n",
                   "archive:2:15", "no whole number of tenths"},
        BadArchive{"IsdShort", read_isd_lite, '\t', "2021 07 01 00   214   161 10132   270\n", "archive:1:38",
                   "before its last value"},
        BadArchive{"IsdLetters", read_isd_lite, '\t',
                   "2021 07 01 00   21x   161 10132   270    31     2     0 -9999\n", "archive:1:14",
                   "\"21x\""},
        BadArchive{"IsdDate", read_isd_lite, '\t',
                   "2021 02 30 00   214   161 10132   270    31     2     0 -9999\n", "archive:1:9",
                   "no such day"},
        BadArchive{"IsdOrder", read_isd_lite, '\t',
                   "2021 07 01 01   214   161 10132   270    31     2     0 -9999\n"
                   "2021 07 01 01   214   161 10132   270    31     2     0 -9999\n",
                   "archive:2:1", "not later"},
        BadArchive{"HourlyHeader", read_ghcn_hourly, '|', "STATION|DATE|rain\n", "archive:1:1",
                   "no temperature"},
        BadArchive{"HourlyTime", read_ghcn_hourly, '|', ghcnh_header + "X|yesterday|3|\n", "archive:2:3",
                   "not a time"},
        BadArchive{"HourlyNumber", read_ghcn_hourly, '|', ghcnh_header + "X|2025-07-01T00:00:00|warm|\n",
                   "archive:2:23", "\"warm\""},
        BadArchive{"HourlyOrder", read_ghcn_hourly, '|',
                   ghcnh_header + "X|2025-07-01T01:00:00|3|\nX|2025-07-01T00:00:00|3|\n", "archive:3:3",
                   "earlier"},
        BadArchive{"EpwNoHeader", read_epw, ',', "a,b\n", "archive:1:1", "no line LOCATION"},
        BadArchive{"EpwNoPeriods", read_epw, ',', epw_header, "archive:7:1", "DATA PERIODS"},
        BadArchive{"EpwLatitude", read_epw, ',', "LOCATION,a,b,c,d,e,95,0,0,0\n", "archive:1:20", "latitude"},
        BadArchive{"EpwHour25", read_epw, ',', epw_header + one_an_hour + epw_row("2007,1,1,25,0", "17"),
                   "archive:9:10", "an hour"},
        BadArchive{"EpwApril31", read_epw, ',', epw_header + one_an_hour + epw_row("2007,4,31,1,0", "17"),
                   "archive:9:8", "no such day"},
        BadArchive{"EpwCutOff", read_epw, ',', epw_header + one_an_hour + "2007,1,1,1,0,?9,17.2\n",
                   "archive:9:", "after field 7"},
        BadArchive{"EpwOrder", read_epw, ',',
                   epw_header + one_an_hour + epw_row("2007,1,1,2,0", "17") + epw_row("2007,1,1,2,0", "17"),
                   "archive:10:1", "not later"},
        BadArchive{"EpwNumber", read_epw, ',', epw_header + one_an_hour + epw_row("2007,1,1,2,0", "1,7x"),
                   "archive:9:23", "\"7x\""},
        BadArchive{"Tmy3NoHeader", read_tmy3, ',', "a,b,c,d\n", "archive:1:7", "time zone"},
        BadArchive{"Tmy3Date", read_tmy3, ',', tmy3_head + "13/01/1993,01:00,0,1\n", "archive:3:1",
                   "not a date"},
        BadArchive{"Tmy3Hour", read_tmy3, ',', tmy3_head + "01/01/1993,00:00,0,1\n", "archive:3:12",
                   "full hour"},
        BadArchive{"Tmy3Short", read_tmy3, ',', tmy3_head + "01/01/1993,01:00,0\n",
                   "archive:3:", "after field 3"}),
    [](const auto& bad) { return bad.param.name; });

}  // namespace
}  // namespace graftcast
