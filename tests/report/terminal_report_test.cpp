#include "report/terminal_report.hpp"

#include <algorithm>
#include <regex>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/text_layout.hpp"
#include "sample_reports.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::sample_basis;
using testing::sample_morning;
using testing::sample_since;
using ::testing::StartsWith;

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string without_colour(const std::string& text) {
  return std::regex_replace(text, std::regex("\x1b\\[[0-9;]*m"), "");
}

std::string line_with(const std::string& text, const std::string& part) {
  for (const std::string& line : lines_of(text))
    if (line.find(part) != std::string::npos) return line;
  return {};
}

TEST(MorningText, BeginsWithTheWeatherAndHowFreshItIs) {
  const std::string text = morning_text(sample_morning(), sample_basis(), {.width = 200});
  EXPECT_THAT(lines_of(text).front(), HasSubstr("measured until today 06:00"));
  EXPECT_THAT(lines_of(text).front(), HasSubstr("forecast until Thu 12 Jun 06:00"));
  EXPECT_THAT(lines_of(text).front(), HasSubstr("the last known week again"));
}

TEST(MorningText, SaysThatThereIsNoForecastAndHowOldTheLogIs) {
  ReportBasis basis = sample_basis();
  basis.weather.forecast_until.reset();
  basis.weather.measured_until = testing::june(6, 4);
  basis.weather.gaps = {{testing::june(9, 4), testing::june(30, 4), {}, {}, StandIn::past_years}};
  const std::string first = lines_of(morning_text(sample_morning(), basis, {.width = 200})).front();
  EXPECT_THAT(first, HasSubstr("3 days old"));
  EXPECT_THAT(first, HasSubstr("no forecast; from now on: the site's own past years at this date"));
}

TEST(MorningText, NamesWhatIsDerivedExceptThePressure) {
  const std::string text = morning_text(sample_morning(), sample_basis(), {.width = 200});
  EXPECT_THAT(text, HasSubstr("so derived: wind speed."));
  EXPECT_THAT(text, Not(HasSubstr("pressure")));
}

TEST(MorningText, GivesABlockToWhatNeedsSomething) {
  const std::string text = morning_text(sample_morning(), sample_basis(), {.width = 200});
  EXPECT_THAT(line_with(text, "N1:"), StartsWith("NOW"));
  EXPECT_THAT(line_with(text, "S1:"), StartsWith("SOON"));
  EXPECT_THAT(text, HasSubstr("Blue Lattice on pot 7, citrus chip, 6 grafts, south-bench"));
  EXPECT_THAT(text, HasSubstr("4 days old, fresh; 59 % (43\u201377 %)"));
  EXPECT_THAT(text, HasSubstr("shade it (50 % cloth), by today 20:00; the risk is then 12 %."));
  EXPECT_THAT(line_with(text, "  why"), HasSubstr("tissue up to 46.2 \u00b0C in the open on Tue 10 Jun"));
  EXPECT_THAT(line_with(text, "  note"), HasSubstr("not given and assumed: wrap"));
  EXPECT_THAT(line_with(text, "  note"), Not(HasSubstr("tissue up to")));
}

TEST(MorningText, GivesOneLineToWhatIsWatchedAndCountsTheRest) {
  for (const std::size_t width : {40U, 80U, 200U}) {
    const std::vector<std::string> lines =
        lines_of(morning_text(sample_morning(), sample_basis(), {.width = width}));
    EXPECT_EQ(std::ranges::count_if(lines, [](const std::string& line) { return line.starts_with("watch"); }),
              1);
    EXPECT_EQ(std::ranges::count_if(
                  lines, [](const std::string& line) { return line.find("W1") != std::string::npos; }),
              1);
    EXPECT_EQ(std::ranges::count_if(
                  lines, [](const std::string& line) { return line.starts_with("leave  2 rows alone"); }),
              1);
  }
}

TEST(MorningText, ExplainsAnEmptyList) {
  EXPECT_THAT(morning_text({}, sample_basis(), {.width = 200}), HasSubstr("No graft is open"));
}

TEST(MorningText, EndsWithTheCautionsAndTheCreditsThatSourcesAskFor) {
  ReportBasis basis = sample_basis();
  basis.weather.credits = {"Weather by an invented service"};
  const std::vector<std::string> lines = lines_of(morning_text(sample_morning(), basis, {}));
  EXPECT_EQ(lines.back(), "data   Weather by an invented service");
  EXPECT_EQ(lines[lines.size() - 2], "mind   Mind the knife.");
}

TEST(EveryText, KeepsWithinTheWidth) {
  const ReportBasis basis = sample_basis();
  for (std::size_t width = least_width; width <= 132; ++width)
    for (const bool utf8 : {true, false}) {
      const TerminalStyle style{.width = width, .utf8 = utf8};
      for (const std::string& text :
           {morning_text(sample_morning(), basis, style), since_text(sample_since(), basis, style, true),
            why_text(testing::sample_why(), basis, style, true),
            why_losses_text(testing::sample_losses(), basis, style)})
        for (const std::string& line : lines_of(text)) EXPECT_LE(display_width(line), width) << line;
    }
}

TEST(EveryText, SaysTheSameWithoutColour) {
  const ReportBasis basis = sample_basis();
  const TerminalStyle plain{}, coloured{.colour = true};
  EXPECT_EQ(without_colour(morning_text(sample_morning(), basis, coloured)),
            morning_text(sample_morning(), basis, plain));
  EXPECT_EQ(without_colour(since_text(sample_since(), basis, coloured, true)),
            since_text(sample_since(), basis, plain, true));
  EXPECT_THAT(morning_text(sample_morning(), basis, coloured), HasSubstr("\x1b["));
  EXPECT_THAT(morning_text(sample_morning(), basis, plain), Not(HasSubstr("\x1b")));
}

TEST(EveryText, IsAsciiWhereTheTerminalIsNotUtf8) {
  MorningReport report = sample_morning();
  report.grafts.front().scion = "\u6885 Sauv\u00e9";
  const std::string text = morning_text(report, sample_basis(), {.utf8 = false});
  EXPECT_TRUE(
      std::ranges::all_of(text, [](char letter) { return static_cast<unsigned char>(letter) < 0x80; }));
  EXPECT_THAT(text, HasSubstr("?? Sauv?"));
  EXPECT_THAT(text, Not(HasSubstr("  week")));  // Bars need more than ASCII.
}

TEST(EveryText, LetsNoNameSteerTheTerminal) {
  MorningReport morning = sample_morning();
  for (std::string* text :
       {&morning.grafts[0].scion, &morning.grafts[0].id, &morning.grafts[0].spot, &morning.grafts[0].stock,
        &morning.grafts[0].advice.act.to, &morning.grafts[2].scion})
    *text = "x\x1b]0;title\x07";
  SinceReport since = sample_since();
  morning.grafts[0].advice.act.kind = ActKind::move;
  morning.grafts[0].reasons = {CellsAssumed{{"x\x1b[2J"}}};
  since.grafts[0].scion = "x\x1b[2J";
  ReportBasis basis = sample_basis();
  basis.site = basis.weather.credits.emplace_back("\x1b[2J");
  EXPECT_THAT(morning_text(morning, basis, {}), Not(HasSubstr("\x1b")));
  EXPECT_THAT(since_text(since, basis, {}, true), Not(HasSubstr("\x1b")));
}

TEST(SinceText, ShowsEveryDateWithItsRange) {
  const std::string text = since_text(sample_since(), sample_basis("since"), {.width = 120}, false);
  EXPECT_THAT(line_with(text, "bridged "), HasSubstr("Tue 24 Jun (Fri 20 Jun to Mon 30 Jun)"));
  EXPECT_THAT(line_with(text, "drinking from"), HasSubstr("Mon 30 Jun (not before Wed 25 Jun)"));
  EXPECT_THAT(line_with(text, "slit the wrap"), HasSubstr("later than the run reaches"));
  EXPECT_THAT(text, Not(HasSubstr("vent the bag")));  // It has none.
  EXPECT_THAT(text, HasSubstr("check; alive 93 %, will take 71 %; look under the wrap"));
}

TEST(SinceText, CountsDegreeDaysInTheWantedUnit) {
  EXPECT_THAT(since_text(sample_since(), sample_basis(), {.width = 200}, false),
              HasSubstr("61 \u00b0C days (sine above 12.5 \u00b0C, horizontal cut-off at 30.0 \u00b0C)"));
  // A degree-day is a difference: 61.4 x 1.8 = 110.5, the thresholds are temperatures: 12.5 degC = 54.5 degF.
  EXPECT_THAT(since_text(sample_since(), sample_basis(), {.width = 200, .units = UnitSystem::us}, false),
              HasSubstr("111 \u00b0F days (sine above 54.5 \u00b0F, horizontal cut-off at 86.0 \u00b0F)"));
}

TEST(SinceText, MarksTheDaysAheadInItsTable) {
  const std::string text = since_text(sample_since(), sample_basis(), {}, true);
  EXPECT_THAT(line_with(text, "Sun 8 Jun"), Not(HasSubstr("ahead")));
  EXPECT_THAT(line_with(text, "Mon 9 Jun"), HasSubstr("ahead, heat"));
}

WeatherDay sample_day() {
  WeatherDay day;
  day.day = testing::day_of_june(8);
  day.length_h = 24;
  day.hours = 20;
  day.air_temperature_min_c = 10;
  day.air_temperature_max_c = 25;
  day.precipitation_mm = 25.4;
  day.origin.fill(Origin::measured);
  return day;
}

TEST(WeatherText, ShowsADotForWhatIsNotKnownAndHowManyHoursAre) {
  const std::vector<WeatherDay> days{sample_day()};
  const std::string line = line_with(weather_days_text(days, sample_basis(), {}), "2025-06-08");
  EXPECT_THAT(line, HasSubstr("10.0 25.0"));
  EXPECT_THAT(line, HasSubstr(" . "));
  EXPECT_THAT(line, HasSubstr("measured, 20 of 24 h"));
}

TEST(WeatherText, ConvertsToUsUnits) {
  const std::vector<WeatherDay> days{sample_day()};
  const std::string text = weather_days_text(days, sample_basis(), {.width = 120, .units = UnitSystem::us});
  EXPECT_THAT(text, HasSubstr("rain in"));
  EXPECT_THAT(line_with(text, "2025-06-08"), HasSubstr("1.00"));
  EXPECT_THAT(line_with(text, "2025-06-08"), HasSubstr("50.0"));
}

TEST(WeatherText, NamesSourcesAndGaps) {
  ReportBasis basis = sample_basis("weather show");
  basis.weather.gaps = {{testing::june(8, 1), testing::june(8, 5), {Variable::wind_speed}, {}}};
  const std::vector<WeatherDay> days{sample_day()};
  const std::string text = weather_days_text(days, basis, {});
  EXPECT_THAT(text, HasSubstr("from   weather/station.csv"));
  EXPECT_THAT(text, HasSubstr("gap    yesterday 03:00 to yesterday 07:00: wind speed not known"));
}

TEST(WeatherText, SaysHowToBringInALogWhereThereIsNone) {
  ReportBasis basis = sample_basis("weather show");
  basis.weather = {};
  EXPECT_THAT(weather_days_text({}, basis, {.width = 120}), HasSubstr("graftcast weather add FILE"));
}

TEST(WhyText, TellsCausesClocksAndWhatWouldHaveSavedIt) {
  const std::string text = why_text(testing::sample_why(), sample_basis("why"), {.width = 300}, false);
  EXPECT_THAT(line_with(text, "cause"), HasSubstr("sun on the cover, 52 %: in its clear bag"));
  EXPECT_THAT(text, HasSubstr("4 grafts noted dead of 6"));
  EXPECT_THAT(line_with(text, "clocks"), HasSubstr("union 0.20 of the bridge (bridged not by then"));
  EXPECT_THAT(line_with(text, "signs"), HasSubstr("blackened on Sat 7 Jun"));
  EXPECT_THAT(line_with(text, "saved"), HasSubstr("put paper over the bag (1 min), by Thu 5 Jun 07:00"));
  EXPECT_THAT(line_with(text, "shade 0.5"), StartsWith("Fri 6 Jun"));
  EXPECT_THAT(text, HasSubstr("an invented source (grade C)"));
}

TEST(WhyText, SaysPlainlyWhereTheWeatherDoesNotExplain) {
  const std::string text = why_losses_text(testing::sample_losses(), sample_basis("why"), {.width = 300});
  EXPECT_THAT(text, HasSubstr("The weather does not explain this"));
  EXPECT_THAT(line_with(text, "change"), HasSubstr("put paper over the bag: would have saved 3.1 of the 8"));
  EXPECT_THAT(text, HasSubstr("water the stock: would have saved another 0.4"));
  GraftWhy living = testing::sample_losses().grafts[1];
  living.lost = 0;
  living.outcome = RowOutcome::open;
  EXPECT_THAT(why_text(living, sample_basis("why"), {.width = 300}, false),
              HasSubstr("The weather has threatened it little so far"));
}

}  // namespace
}  // namespace graftcast
