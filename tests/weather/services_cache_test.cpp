// Past forecasts: what was known when.

#include <gmock/gmock.h>

#include "services/cache_files.hpp"
#include "services/fetch_state.hpp"
#include "services_cases.hpp"
#include "temporary_folder.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {
namespace {

using testing::at;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using testing::lisbon;
using testing::replaced;
using testing::service_fixture;
using testing::terrace;

SourceSettings met_norway() {
  SourceSettings source;
  source.service = "met-norway";
  source.contact = "grower@example.org";
  return source;
}

const Instant first_made = at("2025-06-09T03:37:12Z");

struct Kept {
  testing::TemporaryFolder folder;
  SourceSettings source = met_norway();

  /// A forecast made `later` after the first one.
  void keep(std::chrono::seconds later,
            const std::string& body = service_fixture("met_norway_complete.json")) {
    const Instant made = first_made + later;
    CacheFiles(folder.path(), source)
        .keep(made,
              {"https://example.org", made, {200, {}, replaced(body, utc_text(first_made), utc_text(made))}});
  }
  std::vector<Readings> saved(Instant as_of, bool hindsight = false) {
    return saved_forecasts(folder.path(), source, terrace, lisbon(), {as_of, hindsight});
  }
};

TEST(SavedForecasts, AreThoseMadeByThenNewestFirst) {
  Kept kept;
  for (const int day : {0, 1, 2}) kept.keep(std::chrono::hours(24 * day));
  const auto known = kept.saved(first_made + std::chrono::hours(30));
  ASSERT_EQ(known.size(), 2U);
  EXPECT_EQ(known[0].made_at, first_made + std::chrono::hours(24));
  EXPECT_EQ(known[1].made_at, first_made);
  EXPECT_EQ(kept.saved(first_made - std::chrono::hours(1)).at(0).notes.at(0).kind, "no-saved-forecast");
  EXPECT_EQ(kept.saved(first_made, true).size(), 3U);
}

TEST(SavedForecasts, AreThinnedTheFartherBackTheyLie) {
  Kept kept;
  for (int k = 0; k < 48; ++k) kept.keep(std::chrono::hours(k));           // Two days, every hour.
  for (int k = 0; k < 8; ++k) kept.keep(std::chrono::hours(24 * 30 + k));  // A month later.
  const auto known = kept.saved(first_made + std::chrono::hours(24 * 40));
  // Of the last day two (0 and 6 h before the newest), of the two days a month before one each.
  EXPECT_EQ(known.size(), 4U);
  EXPECT_EQ(known[0].made_at, first_made + std::chrono::hours(24 * 30 + 7));
  EXPECT_EQ(known[1].made_at, first_made + std::chrono::hours(24 * 30 + 1));
  EXPECT_EQ(known[2].made_at, first_made + std::chrono::hours(47));
  EXPECT_EQ(known[3].made_at, first_made + std::chrono::hours(23));
}

TEST(SavedForecasts, OneThatIsThereAlreadyStays) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  kept.keep(std::chrono::hours(0), replaced(service_fixture("met_norway_complete.json"),
                                            "\"air_temperature\": 14.0", "\"air_temperature\": 1.0"));
  EXPECT_EQ(testing::channel(kept.saved(first_made).at(0), Quantity::air_temperature, Kind::instant).value[0],
            14);
}

TEST(SavedForecasts, ADamagedFileIsLeftOutWithANote) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  kept.keep(std::chrono::hours(24));
  const auto newest = past_forecasts(kept.folder.path(), kept.source).at(0).file;
  std::filesystem::resize_file(newest, 100);
  const auto known = kept.saved(first_made + std::chrono::hours(48));
  ASSERT_EQ(known.size(), 2U);
  EXPECT_EQ(known[0].notes.at(0).kind, "unreadable-forecast");
  EXPECT_EQ(known[1].made_at, first_made);
  EXPECT_FALSE(known[1].blocks.empty());
}

TEST(SavedForecasts, OneForAnotherPlaceIsLeftOutWithANote) {
  Kept kept;
  kept.keep(std::chrono::hours(0), replaced(service_fixture("met_norway_complete.json"), "-7.5", "-9.5"));
  const auto known = kept.saved(first_made);
  EXPECT_TRUE(known.at(0).blocks.empty());
  EXPECT_EQ(known.at(0).notes.at(0).kind, "other-place");
}

TEST(SavedForecasts, ADamagedStateDoesNotHideTheForecast) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  std::ofstream(cache_folder(kept.folder.path(), kept.source) / "state.json") << "{";
  const auto known = kept.saved(first_made);
  EXPECT_FALSE(known.at(0).blocks.empty());
  EXPECT_EQ(testing::note(known.at(0).notes, "fetch-trouble").count, 1U);
  EXPECT_THROW(plan_fetch(kept.folder.path(), kept.source, terrace, "graftcast/test", first_made), DataError);
}

TEST(SavedForecasts, ForeignFilesAmongThemAreIgnored) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  const auto folder = cache_folder(kept.folder.path(), kept.source) / "past";
  for (const char* const name : {"note.txt", "2025-06-09T03371ZZ.http.gz", ".2025-06-09T033712Z.http.gz.1-0"})
    std::ofstream(folder / name) << "x";
  EXPECT_EQ(past_forecasts(kept.folder.path(), kept.source).size(), 1U);
}

TEST(SavedForecasts, EnterTheSitesWeatherWithTheirCredit) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  WeatherSettings settings;
  settings.sources.push_back(kept.source);
  const SiteWeather weather = assemble(kept.folder.path(), terrace, lisbon(), settings, {first_made, false});
  EXPECT_EQ(weather.hourly.hour(0), std::chrono::floor<std::chrono::hours>(at("2025-06-09T04:00:00Z")));
  EXPECT_EQ(weather.hourly[Variable::air_temperature].origin[0], Origin::forecast);
  EXPECT_GE(weather.forecast_until.value(),
            Hour(std::chrono::floor<std::chrono::hours>(at("2025-06-10T00:00:00Z"))));
  EXPECT_THAT(weather.credits, ElementsAre(HasSubstr("Data from MET Norway")));
  EXPECT_NEAR(weather.hourly.forecast_lead_h[3], 3.38, 0.01);
}

TEST(SavedForecasts, TheForecastOfThatMorningAnswersForThatMorning) {
  Kept kept;
  kept.keep(std::chrono::hours(0));
  kept.keep(std::chrono::hours(6), replaced(service_fixture("met_norway_complete.json"),
                                            "\"air_temperature\": 29.5", "\"air_temperature\": 35.5"));
  WeatherSettings settings;
  settings.sources.push_back(kept.source);
  const auto noon = [&](Instant as_of) {
    const SiteWeather weather = assemble(kept.folder.path(), terrace, lisbon(), settings, {as_of, false});
    return weather.hourly[Variable::air_temperature].value.at(8);
  };
  // The day's course is fitted through coarse instants, so noon lies a little off the reading.
  EXPECT_NEAR(noon(first_made), 29.5, 2);
  EXPECT_NEAR(noon(first_made + std::chrono::hours(6)), 35.5, 2);
}

// ---- Past forecasts beside a log ----

/// A log of every hour of the days about the kept forecasts, but for the hours from `from` to `to`.
std::string log_without(int from, int to, bool with_rain = true) {
  std::string table =
      "time,air_temperature [degC],relative_humidity [%],wind_speed [m s-1],"
      "surface_downwelling_shortwave_flux_in_air [W m-2]" +
      std::string(with_rain ? ",precipitation_amount [kg m-2]\n" : "\n");
  for (int hour = 0; hour < 24 * 12; ++hour) {
    if (hour >= from && hour < to) continue;
    const Instant time = at("2025-06-08T00:00:00Z") + std::chrono::hours(hour);
    table += utc_text(time) + ",15,60,1,100" + (with_rain ? ",0\n" : "\n");
  }
  return table;
}

/// Sources of the site's weather whose name is the service's: past forecasts that were read.
std::size_t forecasts_read(Kept& kept, const std::string& log) {
  for (int day = 0; day < 10; ++day) kept.keep(std::chrono::hours(24 * day));
  kept.folder.write("weather/log.csv", log);
  SourceSettings station;
  station.file = "weather/log.csv";
  WeatherSettings settings;
  settings.sources = {station, kept.source};
  const SiteWeather weather = assemble(kept.folder.path(), terrace, lisbon(), settings,
                                       {first_made + std::chrono::hours(24 * 9 + 3), false});
  return static_cast<std::size_t>(std::ranges::count(weather.hourly.sources, "met-norway"));
}

TEST(PastForecasts, AreReadOnlyWhereTheLogLeavesHoursOpen) {
  Kept whole, gap, no_rain;
  EXPECT_EQ(forecasts_read(whole, log_without(0, 0)), 1U);                   // The newest looks ahead.
  EXPECT_EQ(forecasts_read(gap, log_without(24 * 4 + 6, 24 * 4 + 16)), 2U);  // And that of the gap's morning.
  EXPECT_EQ(forecasts_read(no_rain, log_without(0, 0, false)), 10U);
}

TEST(PastForecasts, FillTheSameHoursAsWhenAllAreRead) {
  Kept kept;
  forecasts_read(kept, log_without(24 + 2, 24 + 22));  // Of the day that the kept forecasts tell of.
  const Knowledge knowledge{first_made + std::chrono::hours(24 * 9 + 3), false};
  SourceSettings station;
  station.file = "weather/log.csv";
  WeatherSettings settings;
  settings.sources = {station, kept.source};
  std::vector<Readings> all = saved_forecasts(kept.folder.path(), kept.source, terrace, lisbon(), knowledge);
  ASSERT_EQ(all.size(), 10U);
  all.insert(all.begin(), read_source(kept.folder.path(), station, terrace, lisbon()));
  const HourlyWeather some = assemble(kept.folder.path(), terrace, lisbon(), settings, knowledge).hourly;
  const HourlyWeather every = assemble(std::move(all), terrace, lisbon(), knowledge).hourly;
  ASSERT_EQ(some.size(), every.size());
  EXPECT_EQ(some[Variable::air_temperature].origin.at(24 + 5), Origin::forecast);
  for (const Variable variable : {Variable::air_temperature, Variable::relative_humidity,
                                  Variable::wind_speed, Variable::shortwave, Variable::precipitation}) {
    EXPECT_EQ(some[variable].origin, every[variable].origin);
    EXPECT_THAT(some[variable].value,
                ::testing::Pointwise(::testing::NanSensitiveDoubleEq(), every[variable].value));
  }
}

TEST(CacheFolder, IsTheServicesOwnAndSafeWhateverTheAddress) {
  SourceSettings source = met_norway();
  EXPECT_EQ(cache_folder("site", source), std::filesystem::path("site/weather/cache/met-norway"));
  source.base_url = "http://127.0.0.1:80/../../x";
  EXPECT_EQ(cache_folder("site", source).parent_path(), std::filesystem::path("site/weather/cache"));
  EXPECT_THAT(cache_folder("site", source).filename().string(), ::testing::StartsWith("met-norway-"));
}

/// Addresses that only differ in letters no folder's name takes.
TEST(CacheFolder, TellsAddressesApartThatLookAlike) {
  SourceSettings one = met_norway(), other = met_norway();
  one.base_url = "http://127.0.0.1/a?x=1";
  other.base_url = "http://127.0.0.1/a/x/1";
  EXPECT_NE(cache_folder("site", one), cache_folder("site", other));
  EXPECT_EQ(cache_folder("site", one), cache_folder("site", one));
}

TEST(CacheFolder, OfBeforeAddressesHadTheirMarkStaysInUseForTheAddressItWasAskedAt) {
  const testing::TemporaryFolder folder;
  SourceSettings one = met_norway(), other = met_norway();
  one.base_url = "http://127.0.0.1/a?x=1";
  other.base_url = "http://127.0.0.1/a/x/1";
  const auto older = folder.path() / "weather/cache/met-norway-http-127.0.0.1-a-x-1";
  FetchState state;
  state.subject = "met-norway http://127.0.0.1/a?x=1 41.2,-7.5,260";
  folder.write("weather/cache/met-norway-http-127.0.0.1-a-x-1/state.json", state_text(state));
  EXPECT_EQ(cache_folder(folder.path(), one), older);
  EXPECT_NE(cache_folder(folder.path(), other), older);
}

TEST(SavedAnswers, AreReadAsFilesOfTheSiteByTheirContent) {
  const testing::TemporaryFolder folder;
  folder.write("weather/saved.json", service_fixture("met_norway_complete.json"));
  SourceSettings source;
  source.file = "weather/saved.json";
  source.as_forecast = true;
  const Readings readings = read_source(folder.path(), source, terrace, lisbon());
  EXPECT_EQ(readings.made_at, first_made);  // The answer's own time, without "made_at".
  EXPECT_EQ(readings.source, "weather/saved.json");
  EXPECT_EQ(testing::channel(readings, Quantity::air_temperature, Kind::instant).value[0], 14);
  const Readings far = read_source(folder.path(), source, {50, 0, 0}, lisbon());
  EXPECT_EQ(testing::note(far.notes, "other-place").count, 1U);
}

}  // namespace
}  // namespace graftcast
