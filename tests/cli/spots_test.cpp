// `spots` and `when --season` over the whole program.

#include <fstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "report/text_layout.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;

json fitting(const std::string& schema, const Said& said) {
  EXPECT_EQ(said.exit_code, 0) << said.err;
  const json answer = json::parse(said.out, nullptr, false);
  EXPECT_FALSE(answer.is_discarded()) << said.out;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-" + schema + ".schema.json");
  const json rules = json::parse(stream);
  EXPECT_THAT(testing::SchemaCheck(rules).complaints(answer), IsEmpty());
  return answer;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::stringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

void expect_within(const std::string& text, std::size_t width) {
  for (const std::string& line : lines_of(text)) EXPECT_LE(display_width(line), width) << line;
}

/// A thermometer on the bench of the small site: the station's air, warmer by `gain_k` a kilowatt of sun; and
/// two fifths of its wind.
std::string bench_log(double gain_k) {
  std::stringstream rows(testing::hourly_log(1, 10));
  std::string text = "time,air_temperature [degC],wind_speed [m s-1]\n", row;
  std::getline(rows, row);
  while (std::getline(rows, row)) {
    std::vector<std::string> cells;
    std::stringstream stream(row);
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    text += fmt::format("{},{:.2f},{:.2f}\n", cells[0],
                        std::stod(cells[1]) + gain_k * std::stod(cells[4]) / 1000, 0.4 * std::stod(cells[3]));
  }
  return text;
}

std::vector<std::string> fit_words(const SmallSite& site, const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"spots",    "--fit", (site.path() / "bench.csv").string(), "--spot", "bench",
                                 "--sensor", "black"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(Spots, ShowsHowSunnyAndWindyEachIs) {
  const SmallSite site;
  const json spots = fitting("spots", site.run({"spots", "--json"}));
  ASSERT_EQ(spots["spots"].size(), 2U);
  EXPECT_EQ(spots["spots"][0]["name"], "bench");
  EXPECT_EQ(spots["spots"][0]["sun"], 0.9);
  EXPECT_TRUE(spots["learned"].is_null());
  for (const std::size_t width : {60U, 80U, 140U})
    expect_within(site.run({"spots", "--width", std::to_string(width)}).out, width);
  EXPECT_THAT(site.run({"spots"}).out, HasSubstr("90 %"));
}

TEST(Spots, ProposesSharesAndChangesNothing) {
  const SmallSite site;
  site.write("bench.csv", bench_log(9));
  const std::string before = site.fingerprint();
  const json learned = fitting("spots", site.run(fit_words(site, {"--json"})))["learned"];
  EXPECT_EQ(learned["spot"], "bench");
  EXPECT_FALSE(learned["written"]);
  EXPECT_EQ(learned["hours"], 240);
  EXPECT_TRUE(learned["wind"]["told"]);
  EXPECT_NEAR(learned["wind"]["value"].get<double>(), 0.4, 0.01);
  EXPECT_TRUE(learned["sun"]["told"]);
  EXPECT_LT(learned["sun"]["value"], 0.9);
  EXPECT_LE(learned["rmse_after_k"], learned["rmse_before_k"]);
  const Said said = site.run(fit_words(site));
  EXPECT_THAT(said.out, HasSubstr("\"sun\": "));
  EXPECT_THAT(said.out, HasSubstr("--write"));
  for (const std::size_t width : {60U, 80U, 140U})
    expect_within(site.run(fit_words(site, {"--width", std::to_string(width)})).out, width);
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(Spots, FindsLessSunWhereTheThermometerStaysCooler) {
  const SmallSite site;
  const auto sun = [&](double gain_k) {
    site.write("bench.csv", bench_log(gain_k));
    return fitting("spots", site.run(fit_words(site, {"--json"})))["learned"]["sun"]["value"].get<double>();
  };
  const double shaded = sun(3), half = sun(8), sunny = sun(14);
  EXPECT_LT(shaded, half);
  EXPECT_LT(half, sunny);
}

TEST(Spots, WritesOnlyTheSharesAndOnlyWhenAsked) {
  const SmallSite site;
  site.write("bench.csv", bench_log(9));
  const json before = json::parse(site.read("site.json"));
  const json learned = fitting("spots", site.run(fit_words(site, {"--json", "--write"})))["learned"];
  EXPECT_TRUE(learned["written"]);
  json expected = before;
  expected["spots"]["bench"]["sun"] = learned["sun"]["proposed"];
  if (!learned["wind"]["proposed"].is_null())
    expected["spots"]["bench"]["wind"] = learned["wind"]["proposed"];
  EXPECT_EQ(json::parse(site.read("site.json")), expected);
  EXPECT_NE(before, expected);
  EXPECT_EQ(site.run({"morning"}).exit_code, 0);
}

TEST(Spots, RefusesWhatDoesNotFitTogetherAndChangesNothing) {
  const SmallSite site;
  site.write("bench.csv", bench_log(9));
  site.write("bad.csv", "time,air_temperature [degC]\n2025-06-02T00:00,warm\n");
  site.write("other.csv", "time,air_temperature [degC]\n2019-06-02T00:00,12\n2019-06-02T01:00,12\n");
  const std::string before = site.fingerprint();
  const auto complaint = [&](const std::vector<std::string>& words) {
    const Said said = site.run(words);
    EXPECT_NE(said.exit_code, 0);
    EXPECT_THAT(said.out, IsEmpty());
    return said.err;
  };
  const std::string bench = (site.path() / "bench.csv").string();
  EXPECT_THAT(complaint({"spots", "--write"}), HasSubstr("--fit"));
  EXPECT_THAT(complaint({"spots", "--fit", bench}), HasSubstr("--spot"));
  EXPECT_THAT(complaint({"spots", "--fit", bench, "--spot", "bensh"}), HasSubstr("bench"));
  EXPECT_THAT(complaint({"spots", "--fit", bench, "--spot", "bench", "--sensor", "white"}),
              HasSubstr("black"));
  EXPECT_THAT(complaint({"spots", "--fit", bench, "--spot", "bench", "--diameter", "0"}),
              HasSubstr("--diameter"));
  EXPECT_THAT(complaint({"spots", "--fit", (site.path() / "bad.csv").string(), "--spot", "bench", "--write"}),
              HasSubstr("bad.csv:2:"));
  EXPECT_THAT(
      complaint({"spots", "--fit", (site.path() / "other.csv").string(), "--spot", "bench", "--write"}),
      HasSubstr("share 0 measured hours"));
  EXPECT_THAT(complaint({"spots", "--fit", "absent.csv", "--spot", "bench"}), HasSubstr("absent.csv"));
  EXPECT_EQ(site.fingerprint(), before);
}

/// The small site with four years of a real daily log; Seattle is not where it is, which no test here minds.
class SeasonOfTheSite : public ::testing::Test {
 protected:
  SeasonOfTheSite() {
    const Said said =
        site.run({"weather", "add", GRAFTCAST_SOURCE_DIR "/sample_weather/seattle_daily_2012_2015.csv"});
    EXPECT_EQ(said.exit_code, 0) << said.err;
  }
  Said when(std::vector<std::string> more) const {
    std::vector<std::string> words{"when",      "--season", "--at",     "2015-12-31T06:00",
                                   "--species", "apple",    "--method", "cleft"};
    words.insert(words.end(), more.begin(), more.end());
    return site.run(words);
  }
  SmallSite site;
};

TEST_F(SeasonOfTheSite, HasItsWeeksAndFitsItsSchema) {
  const json season = fitting("when-season", when({"--json"}));
  EXPECT_EQ(season["season"], "2015/16");
  EXPECT_EQ(season["midwinter"], "2015-12-21");
  EXPECT_EQ(season["years"], (json{"2014/15", "2013/14", "2012/13", "2011/12"}));
  ASSERT_EQ(season["candidates"].size(), 1U);
  EXPECT_EQ(season["candidates"][0]["weeks"].size(), 52U);
}

TEST_F(SeasonOfTheSite, KeepsWithinTheWidthAndNamesTheBestWeeks) {
  for (const std::size_t width : {60U, 80U, 140U}) {
    const Said said = when({"--width", std::to_string(width)});
    EXPECT_EQ(said.exit_code, 0) << said.err;
    expect_within(said.out, width);
    EXPECT_THAT(said.out, Not(HasSubstr("\u2026"))) << "cut at " << width;
    EXPECT_THAT(said.out, ::testing::AnyOf(HasSubstr("BEST from"), HasSubstr("NO WEEK")));
  }
}

TEST_F(SeasonOfTheSite, GivesTheSameBytesOnAnyNumberOfThreads) {
  EXPECT_EQ(when({"--json", "--threads", "1"}).out, when({"--json", "--threads", "2"}).out);
}

TEST_F(SeasonOfTheSite, DoesNotGoWithDays) {
  const Said said = when({"--days", "3"});
  EXPECT_NE(said.exit_code, 0);
  EXPECT_THAT(said.err, HasSubstr("--season"));
}

}  // namespace
}  // namespace graftcast
