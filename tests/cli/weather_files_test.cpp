// `weather add` of every kind of file that can be read. The layouts are true, the values invented.

#include <zlib.h>

#include <fstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "small_site.hpp"
#include "weather/archive_cases.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::SmallSite;
using testing::TemporaryFolder;

std::string saved_answer(const std::string& name) {
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/tests/weather/fixtures/services/" + name);
  return {std::istreambuf_iterator<char>(stream), {}};
}

std::string june_days(const std::string& element, int tenths) {
  return testing::dly_line("202506" + element, std::vector<std::string>(9, fmt::format("{:5}  a", tenths)));
}

std::string ghcn_table() {
  std::string text =
      "\"STATION\",\"DATE\",\"LATITUDE\",\"LONGITUDE\",\"ELEVATION\",\"NAME\",\"TMAX\",\"TMAX_ATTRIBUTES\","
      "\"TMIN\","
      "\"TMIN_ATTRIBUTES\"\n";
  for (int day = 1; day < 10; ++day)
    text += fmt::format(
        "\"XXE00000001\",\"2025-06-0{}\",\"40.9\",\"0.4\",\"110\",\"EXAMPLE, XX\",\"  271\",\",,a\",\"  "
        "140\",\",,a\"\n",
        day);
  return text;
}

std::string epw_day() {
  std::string text = testing::epw_header + testing::one_an_hour;
  for (int hour = 1; hour <= 24; ++hour)
    text += testing::epw_row(fmt::format("2024,6,1,{},0", hour), fmt::format("{:.1f}", 15 + 0.3 * hour));
  return text;
}

std::string tmy3_day() {
  std::string text = testing::tmy3_head;
  for (int hour = 1; hour <= 24; ++hour)
    text += fmt::format("06/01/2024,{:02}:00,0,1,5,20.1,9.0,983,2.0,-9900,-9900\n", hour);
  return text;
}

struct KnownFile {
  std::string name;
  std::string content;
  std::string reader;
  std::size_t rows;
};

void PrintTo(const KnownFile& file, std::ostream* out) {
  *out << file.reader << " " << file.name;
}

std::vector<KnownFile> known_files() {
  return {
      {"a.dly", june_days("TMAX", 271) + june_days("TMIN", 140), "ghcn-daily", 9},
      {"by_station.csv", ghcn_table(), "ghcn-daily", 9},
      {"722950-2021", testing::isd, "isd-lite", 3},
      {"hourly.psv",
       testing::ghcnh_header + "XXE1|EXAMPLE AP|2025-06-01T13:53:00|40.9|0.4|85.0|31.1||1|FM-15|12.2|1|4.1||"
                               "1013.0|0.3||FM-15|\n",
       "ghcn-hourly", 1},
      {"year.epw", epw_day(), "epw", 24},
      {"year_tmy3.csv", tmy3_day(), "tmy3", 24},
      {"answer.json", saved_answer("met_norway_complete.json"), "met-norway", 0},
      {"grid.json", saved_answer("nws_gridpoint.json"), "nws", 0},
      {"past.csv", saved_answer("open_meteo_archive.csv"), "open-meteo", 0},
      {"log.csv", testing::hourly_log(1, 2), "table", 48}};
}

class AddedFile : public ::testing::TestWithParam<KnownFile> {};

/// The one file of the answer with --json, which must fit its schema.
json added(const SmallSite& site, const std::string& path) {
  const Said said = site.run({"weather", "add", "--json", path});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  const json answer = json::parse(said.out, nullptr, false);
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-weather-add.schema.json");
  EXPECT_THAT(testing::SchemaCheck(json::parse(stream)).complaints(answer), IsEmpty());
  return answer.is_discarded() || answer["files"].empty() ? json() : answer["files"][0];
}

TEST_P(AddedFile, IsKnownByItsContentAndUsed) {
  const KnownFile& known = GetParam();
  const SmallSite site;
  const TemporaryFolder folder;
  const json file = added(site, folder.write(known.name, known.content).string());
  ASSERT_FALSE(file.is_null());
  EXPECT_EQ(file["reader"], known.reader);
  if (known.rows > 0) {
    EXPECT_EQ(file["rows"], known.rows);
  }
  EXPECT_EQ(site.read("weather/" + known.name), known.content);
  const Said shown = site.run({"weather", "show", "--all", "--json"});
  EXPECT_EQ(shown.exit_code, 0) << shown.err;
  EXPECT_THAT(shown.out, HasSubstr("weather/" + known.name));
}

TEST_P(AddedFile, IsKnownWhenCompressedToo) {
  const KnownFile& known = GetParam();
  const SmallSite site;
  const TemporaryFolder folder;
  const auto path = folder.path() / (known.name + ".gz");
  gzFile file = gzopen(path.c_str(), "wb");
  ASSERT_NE(file, nullptr);
  ASSERT_EQ(gzwrite(file, known.content.data(), static_cast<unsigned>(known.content.size())),
            static_cast<int>(known.content.size()));
  gzclose(file);
  EXPECT_EQ(added(site, path.string())["reader"], known.reader);
  EXPECT_EQ(site.run({"weather", "show", "--all", "--json"}).exit_code, 0);
}

INSTANTIATE_TEST_SUITE_P(EveryKind, AddedFile, ::testing::ValuesIn(known_files()), [](const auto& named) {
  std::string name = named.param.name;
  std::ranges::replace_if(
      name, [](char letter) { return std::isalnum(static_cast<unsigned char>(letter)) == 0; }, '_');
  return name;
});

TEST(WeatherAdd, SaysWhatIsAFactOfTheFormatOnceAndNotEachMorning) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto year = folder.write("year.epw", epw_day());
  EXPECT_THAT(site.run({"weather", "add", year.string()}).err, HasSubstr("rain"));
  EXPECT_THAT(site.run({"weather", "show"}).err, HasSubstr("rain"));
  const Said morning = site.run({"morning"});
  EXPECT_EQ(morning.exit_code, 0) << morning.err;
  EXPECT_THAT(morning.err, Not(HasSubstr("year.epw")));
}

TEST(WeatherAdd, TakesTheReaderByItsWord) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto log = folder.write("log.csv", testing::isd);
  EXPECT_EQ(site.run({"weather", "add", "--reader", "table", log.string()}).exit_code, 65);
  const Said unknown = site.run({"weather", "add", "--reader", "isd", log.string()});
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_THAT(unknown.err, HasSubstr("isd-lite"));
  EXPECT_EQ(site.run({"weather", "add", "--reader", "isd-lite", log.string()}).exit_code, 0);
  EXPECT_THAT(site.read("site.json"), HasSubstr("\"reader\":\"isd-lite\""));
}

TEST(WeatherAdd, LeavesTheSiteAloneWhenAnArchiveFileIsDamaged) {
  const SmallSite site;
  const TemporaryFolder folder;
  const auto bad = folder.write("bad.dly", june_days("TMAX", 271) + "XXE00000001202506TMIN  abc\n");
  const std::string before = site.fingerprint();
  const Said said = site.run({"weather", "add", bad.string()});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("bad.dly:2:"));
  EXPECT_EQ(site.fingerprint(), before);
}

// ---- weather show --quality ----

json quality(const SmallSite& site) {
  const Said said = site.run({"weather", "show", "--quality", "--json"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  const json answer = json::parse(said.out, nullptr, false);
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-weather-show.schema.json");
  EXPECT_THAT(testing::SchemaCheck(json::parse(stream)).complaints(answer), IsEmpty());
  return answer["quality"];
}

json check_of(const json& quality, const std::string& kind) {
  for (const json& check : quality)
    if (check["check"] == kind) return check;
  return {};
}

TEST(WeatherShowQuality, ListsEveryCheckWithItsCountAndExamples) {
  const SmallSite site;
  site.replace("weather/station.csv", "2025-06-04T12:00,", "2025-06-04T12:00,4");  // 25 becomes 425.
  site.replace("weather/station.csv", "2025-06-05T03:00,1", "2025-06-05T03:00,4");
  const json all = quality(site);
  const json limits = check_of(all, "beyond-limits");
  EXPECT_EQ(limits["count"], 1);
  EXPECT_EQ(limits["used"], false);
  EXPECT_EQ(limits["found"][0]["source"], "weather/station.csv");
  EXPECT_THAT(limits["found"][0]["examples"][0].get<std::string>(), HasSubstr("weather/station.csv:86:"));
  const json spike = check_of(all, "spike");
  EXPECT_EQ(spike["count"], 1);
  EXPECT_EQ(spike["used"], true);
  EXPECT_THAT(spike["found"][0]["examples"][0].get<std::string>(), HasSubstr("2025-06-05T01:00:00Z: "));
  EXPECT_EQ(check_of(all, "stuck-sensor")["count"], 0);
}

TEST(WeatherShowQuality, TellsThePersonTheSame) {
  const SmallSite site;
  site.replace("weather/station.csv", "2025-06-05T03:00,1", "2025-06-05T03:00,4");
  const Said said = site.run({"weather", "show", "--quality"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("(spike): used as it is"));
  EXPECT_THAT(said.out, HasSubstr("weather/station.csv"));
  EXPECT_THAT(said.out, HasSubstr("none"));
}

TEST(Morning, SaysInOneLineThatASensorIsStuck) {
  const SmallSite site;
  EXPECT_THAT(site.run({"morning"}).err, Not(HasSubstr("the same value")));
  std::string log = site.read("weather/station.csv");
  // The air temperature of the last two days stays as it was.
  std::string stuck;
  std::istringstream lines(log);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t comma = line.find(',');
    if (line.starts_with("2025-06-09") || line.starts_with("2025-06-10"))
      line = line.substr(0, comma) + ",21.3" + line.substr(line.find(',', comma + 1));
    stuck += line + "\n";
  }
  site.write("weather/station.csv", stuck);
  const Said said = site.run({"morning"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.err, HasSubstr("weather/station.csv: air temperature: the same value"));
}

}  // namespace
}  // namespace graftcast
