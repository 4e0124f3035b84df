#include "records/site.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using namespace testing;

// The sample site with `rest` as further entries of its top level.
std::string site_with(const std::string& rest) {
  return R"({"format": 1, "latitude": 41, "longitude": -7, "elevation_m": 260, "time_zone": "Europe/Lisbon", )" +
         rest + "}";
}

Site site_of(const std::string& rest) {
  return site_from_text(site_with(rest), "site.json");
}

TEST(Site, ReadsThePlaceItsSpotsAndSupplies) {
  const Site site = parsed_site();
  EXPECT_EQ(site.name, "Terrace nursery");
  EXPECT_EQ(site.location.latitude_deg, 41.19);
  EXPECT_EQ(site.location.longitude_deg, -7.54);
  EXPECT_EQ(site.location.elevation_m, 260);
  EXPECT_EQ(site.time_zone, "Europe/Lisbon");
  ASSERT_EQ(site.spots.size(), 2U);
  const Spot& store = site.spots.at("store");
  EXPECT_EQ(store.sun_share, 0.05);
  EXPECT_EQ(store.wind_share, 0.1);
  EXPECT_FALSE(store.rain);
  EXPECT_TRUE(store.movable);
  EXPECT_EQ(site.supplies.at("clear-bag"), 12);
  ASSERT_EQ(site.weather.sources.size(), 1U);
  EXPECT_EQ(site.weather.sources[0].file, "weather/station.csv");
}

TEST(Site, NeedsOnlyWhereItIs) {
  const Site site = site_of(R"("x-note": {"anything": [1]})");
  EXPECT_TRUE(site.spots.empty());
  EXPECT_EQ(site.shade_cloth_share, 0.5);
  EXPECT_TRUE(site.weather.sources.empty());
}

TEST(Site, ReadsEverythingASpotCanSay) {
  const Site site =
      site_of(R"("spots": {"wall": {"sun_from": 7.5, "sun_to": 13, "horizon": [[0, 5], [90, 30.5]]},
      "room": {"climate": {"air_temperature_c": 26, "relative_humidity": 85}, "x-door": "left"}})");
  const Spot& wall = site.spots.at("wall");
  EXPECT_EQ(wall.sun_share, 1);
  EXPECT_EQ(wall.sun_from_h, 7.5);
  EXPECT_EQ(wall.sun_to_h, 13);
  ASSERT_EQ(wall.horizon.size(), 2U);
  EXPECT_EQ(wall.horizon[1].azimuth_deg, 90);
  EXPECT_EQ(wall.horizon[1].height_deg, 30.5);
  const Spot& room = site.spots.at("room");
  ASSERT_TRUE(room.climate);
  EXPECT_EQ(room.climate->air_temperature_c, 26);
  EXPECT_EQ(room.climate->relative_humidity_pct, 85);
}

TEST(Site, ReadsDegreeDaysMinutesAndShade) {
  const Site site =
      site_of(R"("degree_days": {"method": "sine", "base_c": 8, "upper_c": 32, "cutoff": "horizontal"},
      "minutes": {"clear-bag": 2, "move": 3.5}, "shade_cloth_share": 0.7)");
  EXPECT_EQ(site.degree_days.method, DegreeDayMethod::sine);
  EXPECT_EQ(site.degree_days.base_c, 8);
  EXPECT_EQ(site.degree_days.upper_c, 32);
  EXPECT_EQ(site.degree_days.cutoff, Cutoff::horizontal);
  EXPECT_EQ(site.minutes.at("move"), 3.5);
  EXPECT_EQ(site.shade_cloth_share, 0.7);
}

TEST(Site, ReadsAForeignLogsColumnMap) {
  const Site site =
      site_of(R"("weather": {"sources": [{"file": "weather/old.csv", "reader": "table", "time_zone": "+01:00",
      "stamp": "end", "wind_height_m": 10, "columns": {"time": {"column": "When", "format": "%d/%m/%Y %H:%M"},
      "air_temperature": {"column": "Temp", "unit": "degF", "missing": [-999, "n/a"]}}}]})");
  const SourceSettings& source = site.weather.sources.at(0);
  EXPECT_EQ(source.reader, "table");
  EXPECT_EQ(source.time_zone, "+01:00");
  EXPECT_EQ(source.stamp, Stamp::end);
  EXPECT_EQ(source.wind_height_m, 10);
  EXPECT_EQ(source.columns.at("time").format, "%d/%m/%Y %H:%M");
  EXPECT_EQ(source.columns.at("air_temperature").unit, "degF");
  EXPECT_THAT(source.columns.at("air_temperature").missing, ElementsAre("-999", "n/a"));
}

TEST(Site, ReadsForecastsAndServices) {
  const Site site = site_of(R"("weather": {"sources": [
      {"file": "weather/f.csv", "as": "forecast", "made_at": "2025-03-14T06:00"},
      {"service": "met-norway", "contact": "grower@example.org", "base_url": "http://127.0.0.1:8080/x"}]})");
  EXPECT_TRUE(site.weather.sources[0].as_forecast);
  EXPECT_EQ(site.weather.sources[0].made_at, instant("2025-03-14T06:00Z"));
  EXPECT_EQ(site.weather.sources[1].service, "met-norway");
  EXPECT_EQ(site.weather.sources[1].contact, "grower@example.org");
}

TEST(Site, TakesItsFoldersNameWhenItHasNone) {
  const TemporaryFolder folder;
  folder.write("upper terrace/site.json", site_with(R"("x-a": 1)"));
  EXPECT_EQ(read_site(folder.path() / "upper terrace").name, "upper terrace");
}

TEST(Site, FollowsLinksToKeepSourcesWithinTheFolder) {
  const TemporaryFolder folder;
  const TemporaryFolder elsewhere;
  const auto with_source = [](const char* file) {
    return site_with(R"("weather": {"sources": [{"file": ")" + std::string(file) + R"("}]})");
  };
  std::filesystem::create_directory_symlink(elsewhere.path(), folder.path() / "weather");
  folder.write("site.json", with_source("weather/station.csv"));
  EXPECT_THAT(error_of([&] { read_site(folder.path()); }), HasSubstr("lies outside the site folder"));
  folder.write("site.json", with_source("logs/../station.csv"));
  EXPECT_EQ(read_site(folder.path()).weather.sources.at(0).file, "logs/../station.csv");
}

NewSite new_site() {
  NewSite site{"Lower field", {-34.5, 150.25, 90}, "Australia/Sydney", {}, {{"clear-bag", 8}}};
  site.spots["bench"] = Spot{0.5, 0.25, false, true, 7.0, 15.5, {{10, 3}, {200, 12}}, Spot::Climate{24, 90}};
  return site;
}

TEST(CreateSite, WritesWhatReadsBackTheSame) {
  const TemporaryFolder folder;
  const auto path = folder.path() / "new" / "lower field";
  create_site(path, new_site());
  const Site site = read_site(path);
  EXPECT_EQ(site.name, "Lower field");
  EXPECT_EQ(site.location.latitude_deg, -34.5);
  EXPECT_EQ(site.location.longitude_deg, 150.25);
  EXPECT_EQ(site.location.elevation_m, 90);
  EXPECT_EQ(site.time_zone, "Australia/Sydney");
  EXPECT_EQ(site.supplies.at("clear-bag"), 8);
  const Spot& bench = site.spots.at("bench");
  EXPECT_EQ(bench.sun_share, 0.5);
  EXPECT_EQ(bench.wind_share, 0.25);
  EXPECT_FALSE(bench.rain);
  EXPECT_EQ(bench.sun_from_h, 7.0);
  EXPECT_EQ(bench.sun_to_h, 15.5);
  EXPECT_EQ(bench.horizon.at(1).height_deg, 12);
  EXPECT_EQ(bench.climate->relative_humidity_pct, 90);
}

TEST(CheckSupplies, TakesTheUsualOnesAndThoseOfOwnCovers) {
  std::string text(sample_site);
  text.replace(text.find("\"clear-bag\""), 11, "\"sock\"");
  const Site site = site_from_text(text, "site.json");
  EXPECT_EQ(site.supplies.at("sock"), 12);
  const std::vector<std::string> own{"sock"};
  check_supplies(site, own);
  EXPECT_EQ(
      error_of([&] { check_supplies(site, {}); }),
      "bad-data site.json:10:16: no cover needs \"sock\"; give one of: clear-bag, vented-bag, paper, foil, "
      "paper-bag, shade-cloth");
}

TEST(CreateSite, RefusesASupplyThatNoCoverNeeds) {
  const TemporaryFolder folder;
  NewSite site = new_site();
  site.supplies = {{"clear-bga", 3}};
  EXPECT_THAT(error_of([&] { create_site(folder.path() / "a", site); }), HasSubstr("did you mean clear-bag"));
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "a"));
}

TEST(CreateSite, StartsALedgerAndADiaryThatCanBeRead) {
  const TemporaryFolder folder;
  const Site site = create_site(folder.path() / "a", new_site());
  const Clock clock(site.time_zone);
  const Ledger ledger = read_ledger(folder.path() / "a", site, clock, sample_names());
  EXPECT_EQ(ledger.columns, graft_columns());
  EXPECT_TRUE(ledger.rows.empty());
  EXPECT_TRUE(read_diary(folder.path() / "a", site, clock, sample_names(), ledger).empty());
  EXPECT_TRUE(std::filesystem::is_directory(folder.path() / "a" / "weather"));
}

TEST(CreateSite, RefusesAFolderThatIsASiteAlready) {
  const SampleFolder folder;
  const auto before = folder.snapshot();
  EXPECT_THAT(error_of([&] { create_site(folder.path(), new_site()); }), HasSubstr("usage"));
  EXPECT_EQ(folder.snapshot(), before);
}

TEST(CreateSite, RefusesWrongEntriesBeforeItMakesAnything) {
  const TemporaryFolder folder;
  const auto error = [&](auto spoil) {
    NewSite site = new_site();
    spoil(site);
    return error_of([&] { create_site(folder.path() / "a", site); });
  };
  EXPECT_EQ(error([](NewSite& site) { site.location.latitude_deg = 95; }),
            "bad-data latitude 95 is out of range; give a number from -90 to 90 degrees, north positive");
  EXPECT_THAT(error([](NewSite& site) { site.time_zone = "Europe/Lisboa"; }), HasSubstr("Europe/Lisbon"));
  EXPECT_THAT(error([](NewSite& site) { site.name.clear(); }), HasSubstr("no name"));
  EXPECT_THAT(error([](NewSite& site) { site.spots["bench"].sun_share = 2; }),
              HasSubstr("sun 2 is out of range"));
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "a"));
}

}  // namespace
}  // namespace graftcast
