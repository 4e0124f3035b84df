#include "app/site_sources.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

namespace graftcast::cli {
namespace {

using Json = nlohmann::ordered_json;

const std::vector<Json> entry{{{"file", "weather/a.csv"}}};

std::string added(const std::string& text) {
  return with_sources(text, "site.json", entry);
}

TEST(WithSources, AddsAfterTheLastAndKeepsTheRestByteForByte) {
  EXPECT_EQ(added("{\"weather\": {\"sources\": [\n  {\"file\": \"b\"}\n ]},  \"x-end\":1.50}\n"),
            "{\"weather\": {\"sources\": [\n  {\"file\": \"b\"},\n   {\"file\":\"weather/a.csv\"}\n ]},  "
            "\"x-end\":1.50}\n");
}

TEST(WithSources, MakesTheListWhereThereIsNone) {
  for (const char* text : {"{}", "{\"name\": \"x\"}", "{\"weather\": {}}", "{\"weather\":{\"x-a\":[1]}}",
                           "{\"weather\": {\"sources\": []}, \"name\": \"x\"}"}) {
    const Json site = Json::parse(added(text));
    EXPECT_EQ(site["weather"]["sources"], Json(entry)) << text;
    const Json before = Json::parse(text);
    EXPECT_EQ(site.value("name", ""), before.value("name", ""));
  }
}

TEST(WithSources, IsNotMisledByBracketsInText) {
  const std::string text =
      R"({"name": "a ] } \" [", "weather": {"sources": [{"file": "]}\\"}], "x-note": "]"}})";
  const Json site = Json::parse(added(text));
  EXPECT_EQ(site["weather"]["sources"].size(), 2U);
  EXPECT_EQ(site["weather"]["sources"][0]["file"], "]}\\");
  EXPECT_EQ(site["weather"]["x-note"], "]");
}

TEST(SourceEntry, HoldsOnlyWhatIsNotAsByDefault) {
  SourceSettings source;
  source.file = "weather/a.csv";
  EXPECT_EQ(source_entry(source), entry.front());
  source.stamp = Stamp::instant;
  source.wind_height_m = 10;
  source.as_forecast = true;
  source.made_at = Instant(std::chrono::sys_days(std::chrono::year(2025) / 6 / 9));
  source.columns["air_temperature"] = {.column = "T", .unit = "degF", .format = "", .missing = {"-99"}};
  const Json json = source_entry(source);
  EXPECT_EQ(json["stamp"], "instant");
  EXPECT_EQ(json["made_at"], "2025-06-09T00:00:00Z");
  EXPECT_EQ(json["columns"]["air_temperature"],
            Json({{"column", "T"}, {"unit", "degF"}, {"missing", {"-99"}}}));
}

}  // namespace
}  // namespace graftcast::cli
