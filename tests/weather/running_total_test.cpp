// Rain from a counter: what it rose by, and what cannot be known.

#include <gmock/gmock.h>

#include <cmath>

#include "weather/hourly_weather.hpp"
#include "weather_cases.hpp"

namespace graftcast {
namespace {

using testing::complaint;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using testing::lisbon;
using ::testing::NanSensitiveDoubleNear;
using testing::note;
using ::testing::Pointwise;
using testing::terrace;

/// An hourly table from midnight on; `cells` of hours that are left out of it are "-".
Readings read_counter(const std::vector<std::string>& cells, const std::string& unit = "mm",
                      bool newest_first = false) {
  std::vector<std::string> rows;
  for (std::size_t hour = 0; hour < cells.size(); ++hour)
    if (cells[hour] != "-")
      rows.push_back("2025-06-01T" + std::string(hour < 10 ? "0" : "") + std::to_string(hour) + ":00Z,15," +
                     cells[hour] + "\n");
  if (newest_first) std::reverse(rows.begin(), rows.end());
  std::string table = "time,air_temperature [degC],precipitation_amount_running_total [" + unit + "]\n";
  for (const std::string& row : rows) table += row;
  return read_table_text(table, "log.csv", {}, terrace, lisbon());
}

std::vector<double> rain_of(const Readings& readings) {
  return testing::channel(readings, Quantity::precipitation, Kind::sum).value;
}

auto are(std::vector<double> values) {
  return Pointwise(NanSensitiveDoubleNear(1e-9), std::move(values));
}

TEST(RunningTotal, GivesWhatItRoseBy) {
  const Readings readings = read_counter({"812.4", "812.4", "813.0", "815.2", "815.2"});
  EXPECT_THAT(rain_of(readings), are({unknown, 0, 0.6, 2.2, 0}));
  EXPECT_EQ(note(readings.notes, "running-total").count, 1U);
}

TEST(RunningTotal, IsReadInItsUnitAndInEitherOrderOfRows) {
  EXPECT_THAT(rain_of(read_counter({"1", "1.1", "1.3"}, "inch")), are({unknown, 2.54, 5.08}));
  EXPECT_THAT(rain_of(read_counter({"10", "11", "13"}, "mm", true)), are({unknown, 1, 2}));
}

TEST(RunningTotal, ThatIsSetBackStartsAnew) {
  const Readings readings = read_counter({"8.2", "8.4", "0", "0.2", "1.0"});
  EXPECT_THAT(rain_of(readings), are({unknown, 0.2, 0, 0.2, 0.8}));
  EXPECT_EQ(note(readings.notes, "total-set-back").count, 1U);
  EXPECT_THAT(note(readings.notes, "total-set-back").examples, ElementsAre(HasSubstr("0 after 8.4 mm")));
  // What it shows when it is seen again fell since.
  EXPECT_THAT(rain_of(read_counter({"8.2", "1.4"})), are({unknown, 1.4}));
}

TEST(RunningTotal, ThatFallsALittleTellsNothing) {
  const Readings readings = read_counter({"8.2", "8.0", "8.1"});
  EXPECT_THAT(rain_of(readings), are({unknown, unknown, 0.1}));
  EXPECT_EQ(note(readings.notes, "total-falls").count, 1U);
}

TEST(RunningTotal, OverMissingRowsOrValuesIsLeftOut) {
  const Readings gap = read_counter({"1", "2", "-", "-", "9", "10", "11"});
  EXPECT_THAT(rain_of(gap), are({unknown, 1, unknown, 1, 1}));
  EXPECT_EQ(note(gap.notes, "total-over-gap").count, 1U);
  EXPECT_THAT(rain_of(read_counter({"1", "", "4", "5"})), are({unknown, unknown, unknown, 1}));
  const Readings dry = read_counter({"1", "1", "-", "1", "1"});
  EXPECT_EQ(note(dry.notes, "total-over-gap").count, 0U);
}

TEST(RunningTotal, RisesNoFasterThanRainCanFall) {
  const Readings readings = read_counter({"1", "1", "2000", "2001"});
  EXPECT_THAT(rain_of(readings), are({unknown, 0, unknown, 1}));
  EXPECT_EQ(note(readings.notes, "beyond-limits").count, 1U);
}

TEST(RunningTotal, BesideTheRainItselfIsRefused) {
  EXPECT_THAT(complaint("time,precipitation_amount [mm],precipitation_amount_running_total [mm]\n"
                        "2025-06-01T00:00Z,0,1\n"),
              HasSubstr("hold the same thing"));
}

}  // namespace
}  // namespace graftcast
