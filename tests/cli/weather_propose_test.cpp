// `weather add --propose` on exports of several makes. The layouts are like real ones, the values invented.

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <numbers>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;
using testing::TemporaryFolder;

/// An hour of May 2025 by the local clock, and what a station reads in it.
struct Hour {
  int day, hour;
  double air_c, humidity_pct, wind_m_s, rain_mm, shortwave_w_m2;
};

/// Rows of `days` days from the first of May on, one an hour, through `row`.
std::string rows(int days, const std::function<std::string(const Hour&)>& row) {
  std::string text;
  for (int k = 0; k < 24 * days; ++k) {
    const int hour = k % 24;
    const double air_c = 16 + 7 * std::cos(2 * std::numbers::pi * (hour - 16) / 24.0) + 0.1 * (k % 7);
    text +=
        row({1 + k / 24, hour, air_c, 90 - 2 * air_c + 0.3 * (k % 5), 1.1 + 0.1 * ((k * 7) % 23),
             k % 31 == 0 ? 1.2 : 0.0, std::max(0.0, 800 * std::sin(std::numbers::pi * (hour - 7.0) / 14))});
  }
  return text;
}

std::string half_day_clock(int hour, int minute = 0) {
  return fmt::format("{}:{:02} {}", hour % 12 == 0 ? 12 : hour % 12, minute, hour < 12 ? "AM" : "PM");
}

double fahrenheit(double celsius) {
  return celsius * 1.8 + 32;
}

/// Prose, quoted fields, Fahrenheit and inches, units behind a dash, AM and PM, month first.
std::string american_export(int days = 20) {
  return "Station report\nPeriod: May 2025\n\n\"Date & Time\",\"Barometer - in Hg\",\"Temp - "
         "\u00b0F\",\"High Temp - "
         "\u00b0F\",\"Hum - %\",\"Dew Point - \u00b0F\",\"Wind Speed - mph\",\"Wind Direction\",\"High Wind "
         "Speed - "
         "mph\",\"Rain - in\"\n" +
         rows(days, [](const Hour& at) {
           return fmt::format(
               "\"5/{}/25 {}\",\"30.01\",\"{:.1f}\",\"{:.1f}\",\"{:.0f}\",\"41.0\",\"{}\",\"NW\",\"9\","
               "\"{:.2f}\"\n",
               at.day, half_day_clock(at.hour), fahrenheit(at.air_c), fahrenheit(at.air_c) + 1,
               at.humidity_pct, at.hour == 5 ? "--" : fmt::format("{:.0f}", at.wind_m_s * 2.2),
               at.rain_mm / 25.4);
         });
}

/// Blank first lines, semicolons, decimal commas, latin-1, date and time apart, prose below.
std::string german_export() {
  const auto comma = [](double value) {
    std::string text = fmt::format("{:.1f}", value);
    std::ranges::replace(text, '.', ',');
    return text;
  };
  return "\n;;;;;\nDatum;Uhrzeit;Lufttemperatur (\xB0"
         "C);Luftfeuchte (%);Wind [km/h];Niederschlag (mm)\n" +
         rows(20,
              [&](const Hour& at) {
                return fmt::format("{:02}.05.2025;{:02}:00;{};{};{};{}\n", at.day, at.hour,
                                   at.day == 4 ? "-99,9" : comma(at.air_c), comma(at.humidity_pct),
                                   comma(at.wind_m_s * 3.6), comma(at.rain_mm));
              }) +
         "\nMittel;;16,2;;;\nErzeugt am 1.6.2025\n";
}

/// Units within the names, UTC, a running total of rain.
std::string pushed_export() {
  double total_in = 0;
  return "dateutc,tempf,humidity,windspeedmph,windgustmph,baromrelin,dailyrainin,solarradiation,"
         "indoortempf\n" +
         rows(20, [&](const Hour& at) {
           total_in = at.hour == 0 ? 0 : total_in + at.rain_mm / 25.4;
           return fmt::format(
               "2025-05-{:02} {:02}:00:00,{:.1f},{:.0f},{:.1f},{:.1f},30.01,{:.2f},{:.0f},70\n", at.day,
               at.hour, fahrenheit(at.air_c), at.humidity_pct, at.wind_m_s * 2.2, at.wind_m_s * 4, total_in,
               at.shortwave_w_m2);
         });
}

/// A spreadsheet's day numbers; the sign of degrees Celsius is one character.
std::string spreadsheet_export() {
  return "Time,Outdoor Temperature(\u2103),Outdoor Humidity(%),Wind(m/s),Indoor Humidity(%)\n" +
         rows(20, [](const Hour& at) {
           return fmt::format("{:.6f},{:.1f},{:.0f},{:.1f},50\n", 45778 - 1 + at.day + at.hour / 24.0,
                              at.air_c, at.humidity_pct, at.wind_m_s);
         });
}

/// A daily table, day first, with extremes.
std::string daily_export() {
  std::string text = "Fecha,Temp max (C),Temp min (C),Lluvia (mm)\n";
  for (int day = 1; day <= 31; ++day)
    text += fmt::format("{:02}/05/2025,{}.5,{}.1,0\n", day, 22 + day % 5, 9 + day % 4);
  return text;
}

class Proposed {
 public:
  explicit Proposed(const std::string& content, std::vector<std::string> options = {}) {
    path_ = folder_.write("export one.csv", content).string();
    const std::string before = site_.fingerprint();
    options.insert(options.begin(), {"weather", "add", "--propose"});
    options.push_back(path_);
    text_ = site_.run(options);
    options.emplace_back("--json");
    const Said said = site_.run(options);
    EXPECT_EQ(site_.fingerprint(), before);
    if (said.exit_code != 0) return;
    const json answer = json::parse(said.out, nullptr, false);
    std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-weather-add.schema.json");
    EXPECT_THAT(testing::SchemaCheck(json::parse(stream)).complaints(answer), IsEmpty());
    proposal_ = answer["proposals"][0];
  }

  const Said& text() const { return text_; }
  const json& operator*() const { return proposal_; }
  json mapped(const std::string& name) const { return proposal_["entry"]["columns"].value(name, json()); }
  std::string all(const char* member) const { return proposal_[member].dump(); }

  /// Runs the command as it is printed, through a shell; the entry must then stand in site.json.
  void expect_command_works() {
    const std::string command = proposal_["command"];
    ASSERT_EQ(command.substr(0, 10), "graftcast ");
    EXPECT_THAT(text_.out, HasSubstr(command));
    const std::string line = fmt::format("'{}' --site '{}' {} >/dev/null 2>&1", GRAFTCAST_PROGRAM,
                                         site_.text(), command.substr(10));
    EXPECT_EQ(std::system(line.c_str()), 0) << line;
    const json sources = json::parse(site_.read("site.json"))["weather"]["sources"];
    EXPECT_EQ(sources.back(), proposal_["entry"]);
    EXPECT_EQ(site_.run({"weather", "show", "--all", "--json"}).exit_code, 0);
  }

 private:
  SmallSite site_;
  TemporaryFolder folder_;
  std::string path_;
  Said text_;
  json proposal_;
};

TEST(Propose, MapsAnAmericanExport) {
  Proposed proposed(american_export());
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_EQ(proposed.mapped("time"), json({{"column", "Date & Time"}, {"format", "%m/%d/%y %I:%M %p"}}));
  EXPECT_EQ(proposed.mapped("air_temperature"), json({{"column", "Temp - \u00b0F"}, {"unit", "degF"}}));
  EXPECT_EQ(proposed.mapped("dew_point_temperature")["unit"], "degF");
  EXPECT_EQ(proposed.mapped("wind_speed")["unit"], "mph");
  EXPECT_EQ(proposed.mapped("precipitation_amount")["unit"], "inch");
  EXPECT_EQ(proposed.mapped("air_pressure")["unit"], "inHg");
  EXPECT_THAT(proposed.all("left_out"), AllOf(HasSubstr("Wind Direction"), HasSubstr("High Temp")));
  EXPECT_EQ((*proposed)["rows"], 480);
  EXPECT_EQ((*proposed)["from"], "2025-04-30T22:00:00Z");
  proposed.expect_command_works();
}

TEST(Propose, MapsDecimalCommasLatinLettersBlankLinesAndFooters) {
  Proposed proposed(german_export());
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_EQ(proposed.mapped("date"), json({{"column", "Datum"}, {"format", "%d.%m.%Y"}}));
  EXPECT_EQ(proposed.mapped("time"), json({{"column", "Uhrzeit"}}));
  EXPECT_EQ(proposed.mapped("air_temperature"), json({{"column",
                                                       "Lufttemperatur (\u00b0"
                                                       "C)"},
                                                      {"unit", "degC"},
                                                      {"missing", {"-99,9"}}}));
  EXPECT_EQ(proposed.mapped("wind_speed")["unit"], "km h-1");
  EXPECT_EQ((*proposed)["rows"], 480);
  proposed.expect_command_works();
}

TEST(Propose, MapsNamesThatEndInTheirUnits) {
  Proposed proposed(pushed_export());
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_EQ((*proposed)["entry"]["time_zone"], "UTC");
  EXPECT_EQ(proposed.mapped("air_temperature"), json({{"column", "tempf"}, {"unit", "degF"}}));
  EXPECT_EQ(proposed.mapped("wind_speed_of_gust"), json({{"column", "windgustmph"}, {"unit", "mph"}}));
  EXPECT_EQ(proposed.mapped("air_pressure_at_mean_sea_level"),
            json({{"column", "baromrelin"}, {"unit", "inHg"}}));
  EXPECT_EQ(proposed.mapped("precipitation_amount_running_total"),
            json({{"column", "dailyrainin"}, {"unit", "inch"}}));
  EXPECT_THAT(proposed.all("left_out"), HasSubstr("of indoors"));
  EXPECT_THAT(proposed.all("doubts"), HasSubstr("solarradiation"));  // It names no unit.
  proposed.expect_command_works();
}

TEST(Propose, MapsDayNumbersOfASpreadsheet) {
  Proposed proposed(spreadsheet_export());
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_EQ(proposed.mapped("time"), json({{"column", "Time"}, {"format", "%N"}}));
  EXPECT_EQ(proposed.mapped("air_temperature")["unit"], "degC");
  EXPECT_EQ((*proposed)["from"], "2025-04-30T22:00:00Z");
  proposed.expect_command_works();
}

TEST(Propose, MapsADailyTableWithItsExtremes) {
  Proposed proposed(daily_export());
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_EQ(proposed.mapped("date"), json({{"column", "Fecha"}, {"format", "%d/%m/%Y"}}));
  EXPECT_EQ(proposed.mapped("air_temperature_max")["column"], "Temp max (C)");
  EXPECT_EQ(proposed.mapped("air_temperature_min")["column"], "Temp min (C)");
  proposed.expect_command_works();
}

TEST(Propose, RefusesAnOrderOfDayAndMonthThatCannotBeToldAndNamesTheOption) {
  const std::string few = american_export(1);  // 1 May or 5 January.
  const Proposed refused(few);
  EXPECT_EQ(refused.text().exit_code, 65);
  EXPECT_THAT(refused.text().err,
              AllOf(HasSubstr("day and month"), HasSubstr("--column 'time=Date & Time::%")));
  Proposed settled(few, {"--column", "time=Date & Time::%m/%d/%y %I:%M %p"});
  ASSERT_EQ(settled.text().exit_code, 0) << settled.text().err;
  EXPECT_THAT((*settled)["columns"].dump(), HasSubstr("as given"));
  EXPECT_EQ(settled.mapped("air_temperature")["unit"], "degF");
  settled.expect_command_works();
}

TEST(Propose, SaysThatAUnitIsLikelyAnother) {
  std::string wrong = american_export();
  wrong.replace(wrong.find("Temp - \u00b0F"), 10,
                "Temp - \u00b0"
                "C");
  const Proposed proposed(wrong);
  ASSERT_EQ(proposed.text().exit_code, 0) << proposed.text().err;
  EXPECT_THAT(proposed.all("doubts"), AllOf(HasSubstr("says degC"), HasSubstr("likely degF")));
  EXPECT_THAT(proposed.text().out, HasSubstr("look before you run it"));
}

TEST(Propose, AsksNothingThatIsGiven) {
  const Proposed open(american_export());
  EXPECT_THAT(open.all("doubts"), AllOf(HasSubstr("--stamp"), HasSubstr("--wind-height")));
  const Proposed given(american_export(), {"--stamp", "end", "--wind-height", "3"});
  EXPECT_THAT(given.all("doubts"), AllOf(Not(HasSubstr("--stamp")), Not(HasSubstr("--wind-height"))));
  EXPECT_EQ((*given)["entry"]["stamp"], "end");
  EXPECT_THAT((*given)["command"].get<std::string>(),
              AllOf(HasSubstr("--stamp end"), HasSubstr("--wind-height 3")));
}

TEST(Propose, NeedsNoMapWhereTheFileNamesItself) {
  const Proposed proposed(testing::hourly_log(1, 2));
  EXPECT_TRUE((*proposed)["columns"].empty());
  EXPECT_THAT(proposed.text().out, HasSubstr("none is needed"));
}

TEST(Propose, SaysWhatToDoWithATableOfUnknownWords) {
  const Proposed proposed("alpha,beta\n1,2\n");
  EXPECT_EQ(proposed.text().exit_code, 65);
  EXPECT_THAT(proposed.text().err, HasSubstr("--column NAME=HEADER::UNIT"));
}

}  // namespace
}  // namespace graftcast
