#include "report/json_report.hpp"

#include <fstream>
#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "json_schema.hpp"
#include "sample_reports.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::sample_basis;
using testing::sample_morning;
using testing::sample_since;

nlohmann::json schema_of(const std::string& name) {
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-" + name + ".schema.json");
  return nlohmann::json::parse(stream);
}

std::vector<std::string> complaints(const std::string& name, const nlohmann::ordered_json& answer) {
  const nlohmann::json schema = schema_of(name);
  return testing::SchemaCheck(schema).complaints(nlohmann::json::parse(answer.dump()));
}

std::string warnings_of(const nlohmann::ordered_json& answer) {
  return answer.at("warnings").dump();
}

TEST(MorningJson, FitsItsSchema) {
  EXPECT_THAT(complaints("morning", morning_json(sample_morning(), sample_basis())), IsEmpty());
  EXPECT_THAT(complaints("morning", morning_json({}, sample_basis())), IsEmpty());
}

TEST(MorningJson, IsRefusedByItsSchemaWithAMemberMoreOrLess) {
  nlohmann::ordered_json answer = morning_json(sample_morning(), sample_basis());
  answer["grafts"][0]["extra"] = 1;
  EXPECT_EQ(complaints("morning", answer).size(), 1U);
  answer["grafts"][0].erase("extra");
  answer["grafts"][0].erase("stage");
  EXPECT_EQ(complaints("morning", answer).size(), 1U);
}

TEST(MorningJson, BeginsWithTheMembersOfTheContract) {
  const auto answer = morning_json(sample_morning(), sample_basis());
  EXPECT_EQ(answer["schema"], "graftcast/1");
  EXPECT_EQ(answer["command"], "morning");
  EXPECT_EQ(answer["as_of"], "2025-06-09T04:30:00Z");
  EXPECT_EQ(answer["time_zone"], "Europe/Madrid");
  EXPECT_EQ(answer["weather"]["gaps"][0]["filled_by"], "last-week");
  EXPECT_EQ(answer["grafts"][0]["act_by"], "2025-06-09T18:00:00Z");
  EXPECT_EQ(answer["grafts"][0]["grafted_on"], "2025-06-04");
  EXPECT_EQ(answer["grafts"][0]["actions"][0]["needs"]["shade-cloth"], 1);
  EXPECT_EQ(answer.begin().key(), "schema");
}

TEST(MorningJson, ShowsAnUnknownNumberAsNullWithAReason) {
  MorningReport report = sample_morning();
  report.grafts[0].degree_days.reset();
  report.grafts[2].degree_days.reset();
  report.grafts[1].risk_until_drinking.reset();
  report.grafts[1].vpd_max_kpa_7d = std::numeric_limits<double>::quiet_NaN();
  const auto answer = morning_json(report, sample_basis());
  EXPECT_TRUE(answer["grafts"][0]["degree_days"].is_null());
  EXPECT_TRUE(answer["grafts"][1]["vpd_max_kpa_7d"].is_null());
  EXPECT_THAT(warnings_of(answer),
              HasSubstr("degree_days is null for N1, W1: the weather known does not reach back"));
  EXPECT_THAT(warnings_of(answer), HasSubstr("risk_until_drinking is null for S1"));
}

TEST(SinceJson, FitsItsSchemaAndWarnsOfDatesBeyondTheRun) {
  const auto answer = since_json(sample_since(), sample_basis("since"));
  EXPECT_THAT(complaints("since", answer), IsEmpty());
  EXPECT_EQ(answer["grafts"][0]["bridged_on"]["median"], "2025-06-24");
  EXPECT_TRUE(answer["grafts"][0]["drinking_from"]["p90"].is_null());
  EXPECT_THAT(warnings_of(answer), HasSubstr("drinking_from is null for N1"));
  EXPECT_THAT(warnings_of(answer), ::testing::Not(HasSubstr("vent_bag_from")));  // It has no bag.
}

TEST(SinceJson, HasNoUpperThresholdWithoutACutOff) {
  SinceReport report = sample_since();
  report.grafts[0].rule.cutoff = Cutoff::none;
  const auto answer = since_json(report, sample_basis("since"));
  EXPECT_TRUE(answer["grafts"][0]["upper_c"].is_null());
  EXPECT_THAT(complaints("since", answer), IsEmpty());
}

TEST(WeatherJson, FitsItsSchemaByDaysAndByHours) {
  WeatherDay day;
  day.day = testing::day_of_june(8);
  day.origin.fill(Origin::missing);
  const std::vector<WeatherDay> days{day};
  const auto answer = weather_days_json(days, sample_basis("weather show"));
  EXPECT_THAT(complaints("weather-show", answer), IsEmpty());
  EXPECT_THAT(warnings_of(answer), HasSubstr("null"));

  HourlyWeather weather;
  for (auto& column : weather.columns) column = {{unknown}, {Origin::missing}, {0}};
  EXPECT_THAT(complaints("weather-show", weather_hours_json(weather, 0, 1, sample_basis("weather show"))),
              IsEmpty());
}

TEST(ModelsJson, FitsItsSchemaWithAllOrOne) {
  const Models models = load_models(GRAFTCAST_SOURCE_DIR "/models");
  ReportBasis basis;
  basis.command = "models";
  const auto all = models_json(models, basis);
  EXPECT_THAT(complaints("models", all), IsEmpty());
  EXPECT_EQ(all["species"].size(), models.species.size());
  const auto one = models_json(models, basis, "avocado");
  EXPECT_EQ(one["species"].size(), 1U);
  EXPECT_TRUE(one["methods"].empty());
}

TEST(ErrorJson, FitsItsSchemaWithAndWithoutAPlace) {
  const auto placed = error_json(DataError({"grafts.csv", 3, 7}, "no such day", "write 2025-02-28"));
  EXPECT_THAT(complaints("error", placed), IsEmpty());
  EXPECT_EQ(placed["error"]["line"], 3);
  EXPECT_EQ(placed["error"]["kind"], "bad-data");
  const auto bare = error_json(UsageError("no such option"));
  EXPECT_THAT(complaints("error", bare), IsEmpty());
  EXPECT_TRUE(bare["error"]["file"].is_null());
  EXPECT_TRUE(bare["error"]["hint"].is_null());
}

/// The members that all answers share are written out in each schema, for those who read only one.
TEST(Schemas, ShareTheSameBeginning) {
  const nlohmann::json first = schema_of("morning");
  for (const char* name : {"since", "weather-show", "weather-add", "graft", "note", "split", "new", "models",
                           "when", "when-season", "spots"}) {
    const nlohmann::json other = schema_of(name);
    for (const char* member :
         {"schema", "as_of", "site", "time_zone", "seed", "members", "weather", "warnings", "cautions"})
      EXPECT_EQ(other["properties"][member], first["properties"][member]) << name << ' ' << member;
    for (const char* definition : {"time", "day", "weather"})
      EXPECT_EQ(other["definitions"][definition], first["definitions"][definition])
          << name << ' ' << definition;
  }
}

TEST(WhyJson, FitsItsSchema) {
  using testing::sample_losses;
  using testing::sample_why;
  WhyLosses without_losses;
  without_losses.season = "2024/25";
  EXPECT_THAT(complaints("why", why_json(sample_why(), sample_basis("why"))), IsEmpty());
  EXPECT_THAT(complaints("why", why_losses_json(sample_losses(), sample_basis("why"))), IsEmpty());
  EXPECT_THAT(complaints("why", why_losses_json(without_losses, sample_basis("why"))), IsEmpty());
  nlohmann::ordered_json answer = why_json(sample_why(), sample_basis("why"));
  answer.erase("shares");
  EXPECT_FALSE(complaints("why", answer).empty());
  answer = why_json(sample_why(), sample_basis("why"));
  answer["shares"][0]["cause"] = "bad luck";
  EXPECT_FALSE(complaints("why", answer).empty());
}

TEST(WhyJson, SaysWhyDatesAreNull) {
  const auto answer = why_json(testing::sample_why(), sample_basis("why"));
  EXPECT_TRUE(answer["clocks"]["bridged_on"]["median"].is_null());
  EXPECT_TRUE(answer["shares"][3]["loss_without"].is_null());
  EXPECT_EQ(answer["loss"]["when"]["median"], "2025-06-06");
  EXPECT_THAT(warnings_of(answer), HasSubstr("bridged_on is null for N1"));
}

}  // namespace
}  // namespace graftcast
