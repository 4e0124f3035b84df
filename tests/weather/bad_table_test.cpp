// What the table reader says of input that is wrong, and where.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "repetitions.hpp"
#include "temporary_folder.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::complaint;
using ::testing::HasSubstr;
using ::testing::StartsWith;
using testing::table;

struct BadTable {
  const char* name;
  std::string text;
  const char* position;
  const char* message;
};

void PrintTo(const BadTable& bad, std::ostream* stream) {
  *stream << bad.name;
}

constexpr const char* header = "time,air_temperature [degC],relative_humidity [%]\n";

std::string below_header(std::string_view rows) {
  return header + std::string(rows);
}

std::string column_of(std::string_view heading, double from, double step, int count) {
  std::string text = "time," + std::string(heading) + "\n";
  for (int k = 0; k < count; ++k) {
    text += "2025-01-" + std::string(k / 24 < 9 ? "0" : "") + std::to_string(k / 24 + 1) + "T" +
            (k % 24 < 10 ? "0" : "") + std::to_string(k % 24) + ":00Z," +
            std::to_string(from + step * (k % 24)) + "\n";
  }
  return text;
}

const std::vector<BadTable>& bad_tables() {
  static const std::vector<BadTable> all = {
      {"empty", "", "log.csv:1:1: ", "empty"},
      {"headers_only", header, "log.csv:1:1: ", "no row below the headers"},
      {"no_headers", "2025-01-01T00:00,1,2\n", "log.csv:1:1: ", "no header row"},
      {"word_for_number", below_header("2025-01-01T00:00,1,2\n2025-01-01T01:00,warm,50\n"),
       "log.csv:3:18: ", "\"warm\""},
      {"number_too_large", below_header("2025-01-01T00:00,1e400,50\n"), "log.csv:2:18: ", "not a number"},
      {"hexadecimal", below_header("2025-01-01T00:00,1,0x1F\n"), "log.csv:2:20: ", "not a number"},
      {"two_numbers_in_a_cell", below_header("2025-01-01T00:00,1 2,50\n"), "log.csv:2:18: ", "not a number"},
      {"no_such_day", below_header("2025-02-30T00:00,1,50\n"), "log.csv:2:1: ", "not a time"},
      {"no_such_hour", below_header("2025-02-20T25:00,1,50\n"), "log.csv:2:1: ", "not a time"},
      {"slip_in_the_year", below_header("2025-02-20T05:00,1,50\n0225-02-20T06:00,1,50\n"),
       "log.csv:3:1: ", "0225-02-20 is no day of weather"},
      {"year_of_two_digits", below_header("0025-02-20,1,50\n"), "log.csv:2:1: ", "is no day of weather"},
      {"empty_time", below_header(",1,50\n"), "log.csv:2:1: ", "not a time"},
      {"short_row_amid", below_header("2025-01-01T00:00,1\n2025-01-01T01:00,1,50\n"),
       "log.csv:2:19: ", "ends after field 2 of 3"},
      {"only_a_short_row", below_header("2025-01-01T00:00,1\n"), "log.csv:2:19: ", "ends after field 2 of 3"},
      {"long_row", below_header("2025-01-01T00:00,1,50,7\n"), "log.csv:2:23: ", "4 fields, the header row 3"},
      {"decimal_comma_between_commas", below_header("2025-01-01T00:00,1,5,50\n"),
       "log.csv:2:22: ", "semicolons"},
      {"days_and_times", below_header("2025-01-01,1,50\n2025-01-01T01:00,1,50\n"), "log.csv:3:1: ", "mixed"},
      {"unknown_unit", "time,air_temperature [degX]\n2025-01-01T00:00,1\n",
       "log.csv:1:6: ", "\"degX\" is not a known unit"},
      {"unit_of_another_kind", "time,air_temperature [hPa]\n2025-01-01T00:00,1\n",
       "log.csv:1:6: ", "a pressure"},
      {"lux",
       "time,air_temperature [degC],surface_downwelling_shortwave_flux_in_air [lux]\n2025-01-01T00:00,1,2\n",
       "log.csv:1:29: ", "as the eye does"},
      {"two_temperatures", "time,air_temperature [degC],air_temperature [K]\n2025-01-01T00:00,1,280\n",
       "log.csv:1:29: ", "hold the same thing"},
      {"two_times", "time,time,air_temperature [degC]\n2025-01-01T00:00,2025-01-01T00:00,1\n",
       "log.csv:1:6: ", "a second column"},
      {"zone_in_the_header", "time [CET],air_temperature [degC]\n2025-01-01T00:00,1\n",
       "log.csv:1:1: ", "time_zone"},
      {"fahrenheit_as_celsius", column_of("air_temperature [degC]", 45, 1.5, 72),
       "log.csv:1:6: ", "likely degF"},
      {"kelvin_as_celsius", column_of("air_temperature [degC]", 280, 0.5, 72), "log.csv:1:6: ", "likely K"},
      {"tenths_as_degrees", column_of("air_temperature [degC]", -20, 12, 72),
       "log.csv:1:6: ", "likely tenths of degC"},
      {"hectopascal_as_kilopascal", column_of("air_pressure [kPa]", 1001, 0.5, 72),
       "log.csv:1:6: ", "likely hPa"},
      {"fraction_as_percent", column_of("relative_humidity [%]", 0.3, 0.02, 72), "log.csv:1:6: ", "likely 1"},
      {"megajoules_as_watts", column_of("surface_downwelling_shortwave_flux_in_air [W m-2]", 0, 0.14, 72),
       "log.csv:1:6: ", "likely MJ m-2 h-1"},
      {"open_quote", below_header("2025-01-01T00:00,\"1,50\n"), "log.csv:2:18: ", "never closed"},
      {"utf16", std::string("\xFF\xFEt\0i\0m\0e\0", 10), "log.csv:1:1: ", "UTF-16"},
      {"nul_byte", below_header(std::string_view("2025-01-01T00:00,\0,50\n", 22)), "log.csv:2:18: ", "NUL"},
      {"no_row_in_time", "time,air_temperature [degC]\n2025-13-01T00:00,1\n", "log.csv:2:1: ", "not a time"},
      {"a_million_letters", below_header("2025-01-01T00:00," + std::string(1'000'000, '7') + ",50\n"),
       "log.csv:2:18: ", "not a number"},
  };
  return all;
}

class BadTables : public ::testing::TestWithParam<BadTable> {};

TEST_P(BadTables, AreRefusedWithPlaceAndReason) {
  const BadTable& bad = GetParam();
  const std::string said = complaint(bad.text);
  EXPECT_THAT(said, StartsWith(bad.position));
  EXPECT_THAT(said, HasSubstr(bad.message));
  EXPECT_LT(said.size(), 1000U);
}

INSTANTIATE_TEST_SUITE_P(All, BadTables, ::testing::ValuesIn(bad_tables()),
                         [](const auto& each) { return std::string(each.param.name); });

SourceSettings mapped(std::map<std::string, ColumnMapping> columns) {
  SourceSettings source;
  source.columns = std::move(columns);
  return source;
}

TEST(BadColumnMap, NamesTheNearestColumnOfTheFile) {
  const auto source = mapped({{"time", {"When", "", "", {}}}, {"air_temperature", {"Temp", "degC", "", {}}}});
  const std::string said = complaint("Station 7\nWhen;Tmp;Hum\n2025-01-01T00:00;1;2\n", source);
  EXPECT_THAT(said, StartsWith("log.csv:2:1: no column \"Temp\" for air_temperature"));
  EXPECT_THAT(said, HasSubstr("Tmp"));
}

TEST(BadColumnMap, NamesTheNearestThingThatCanBeRead) {
  const auto source = mapped({{"time", {"When", "", "", {}}}, {"air_temprature", {"Temp", "degC", "", {}}}});
  EXPECT_THAT(complaint("When,Temp\n2025-01-01T00:00,1\n", source), HasSubstr("air_temperature"));
}

TEST(BadColumnMap, NeedsATime) {
  const auto source = mapped({{"air_temperature", {"Temp", "degC", "", {}}}});
  EXPECT_THAT(complaint("When,Temp\n2025-01-01T00:00,1\n", source), HasSubstr("names no time"));
}

TEST(BadColumnMap, SaysWhereATimeDoesNotFitItsFormat) {
  const auto source =
      mapped({{"time", {"When", "", "%d/%m/%Y %H:%M", {}}}, {"air_temperature", {"Temp", "degC", "", {}}}});
  EXPECT_THAT(complaint("When,Temp\n31/01/2025 06:00,1\n01/31/2025 07:00,1\n", source),
              StartsWith("log.csv:3:1: \"01/31/2025 07:00\""));
}

TEST(BadColumnMap, ChecksYearMonthAndDay) {
  const auto source = mapped({{"year", {"Y", "", "", {}}},
                              {"month", {"M", "", "", {}}},
                              {"day", {"D", "", "", {}}},
                              {"hour", {"H", "", "", {}}},
                              {"air_temperature", {"T", "degC", "", {}}}});
  EXPECT_THAT(complaint("Y,M,D,H,T\n2025,2,30,0,1\n", source), StartsWith("log.csv:2:8: "));
  EXPECT_THAT(complaint("Y,M,D,H,T\n2025,13,1,0,1\n", source), StartsWith("log.csv:2:6: "));
  EXPECT_THAT(complaint("Y,M,D,H,T\n2025,1,1,x,1\n", source), StartsWith("log.csv:2:10: "));
  EXPECT_THAT(complaint("Y,M,D,H,T\n2025,1,1,2460,1\n", source), StartsWith("log.csv:2:10: "));
}

TEST(BadFiles, CannotBeOpened) {
  const testing::TemporaryFolder folder;
  EXPECT_THROW(read_table(folder.path() / "none.csv", {}, testing::terrace, testing::lisbon()), OpenError);
  EXPECT_THROW(read_table(folder.path(), {}, testing::terrace, testing::lisbon()), OpenError);
}

// Whatever is changed in a good file, it is read or refused, but never gives a number that cannot be.
TEST(BadTablesProperty, NoDamageYieldsAnImpossibleNumber) {
  std::mt19937_64 generator(7);
  const std::string good =
      below_header("2025-01-01T00:00,1.5,50\n2025-01-01T01:00,-2,60\n2025-01-01T02:00,3,70\n");
  std::uniform_int_distribution<std::size_t> place(0, good.size() - 1);
  std::uniform_int_distribution<std::size_t> letter(0, 17);
  for (int trial = 0; trial < testing::repetitions(3000); ++trial) {
    std::string damaged = good;
    for (int change = 0; change < 3; ++change)
      damaged[place(generator)] = "0123456789.,-+e\n\"T"[letter(generator)];
    try {
      for (const Block& block : table(damaged).blocks) {
        for (const Channel& channel : block.channels) {
          ASSERT_EQ(channel.value.size(), block.spans.size());
          for (const double value : channel.value) ASSERT_FALSE(value < -80 || value > 100) << damaged;
        }
      }
    } catch (const DataError& error) {
      EXPECT_THAT(error.position().file, HasSubstr("log.csv"));
    }
  }
}

}  // namespace
}  // namespace graftcast
