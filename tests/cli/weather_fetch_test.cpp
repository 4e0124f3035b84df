// `weather fetch` as a whole command, against a server on this machine.

#include <chrono>
#include <fstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "graftcast/calendar_time.hpp"
#include "json_schema.hpp"
#include "small_site.hpp"
#include "weather/loopback_server.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::LoopbackServer;
using ::testing::Not;
using testing::PlayedAnswer;
using testing::Said;
using testing::SmallSite;
using testing::whole;

Instant at(const std::string& text) {
  const auto time = parse_time(text).value();
  return Instant(time.reading.time_since_epoch() - time.offset.value());
}

json hour_of_forecast(Instant time, double air_c) {
  return {{"time", utc_text(time)},
          {"data",
           {{"instant",
             {{"details",
               {{"air_temperature", air_c},
                {"relative_humidity", 50},
                {"wind_speed", 3},
                {"cloud_area_fraction", 20}}}}},
            {"next_1_hours", {{"details", {{"precipitation_amount", 0.0}}}}}}}};
}

/// An answer of MET Norway for the small site: two days of one temperature from the hour after `made` on.
std::string forecast(const std::string& made, double air_c) {
  const auto first = std::chrono::ceil<std::chrono::hours>(at(made));
  json series = json::array();
  for (int hour = 0; hour < 48; ++hour)
    series.push_back(hour_of_forecast(first + std::chrono::hours(hour), air_c));
  const json units{{"air_temperature", "celsius"},
                   {"relative_humidity", "%"},
                   {"wind_speed", "m/s"},
                   {"cloud_area_fraction", "%"},
                   {"precipitation_amount", "mm"}};
  return json{{"type", "Feature"},
              {"geometry", {{"type", "Point"}, {"coordinates", {0.4, 40.9, 110}}}},
              {"properties", {{"meta", {{"updated_at", made}, {"units", units}}}, {"timeseries", series}}}}
      .dump();
}

/// Valid for no time at all, so that a test can ask again at once.
constexpr const char* expired =
    "Date: Mon, 09 Jun 2025 04:00:00 GMT\r\nExpires: Mon, 09 Jun 2025 04:00:00 GMT\r\n"
    "Last-Modified: Mon, 09 Jun 2025 03:59:59 GMT\r\n";

PlayedAnswer good(const std::string& body) {
  return whole(200, body, expired);
}

/// The small site with services in place of its saved forecast.
struct FetchSite : SmallSite {
  explicit FetchSite(const std::string& entries) {
    replace("site.json",
            R"({"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"})", entries);
  }
  Said fetch(std::vector<std::string> more = {}) const {
    std::vector<std::string> words{"--site", text(), "--width", "400", "weather", "fetch"};
    words.insert(words.end(), more.begin(), more.end());
    return testing::run(words);
  }
};

std::string entry(const std::string& base_url, const std::string& service = "met-norway") {
  return fmt::format(R"({{"service": "{}", "contact": "grower@example.org", "base_url": "{}"}})", service,
                     base_url);
}

/// Standard output as JSON, which must fit the schema of `command`.
json parsed(const Said& said, const std::string& command) {
  const json answer = json::parse(said.out, nullptr, false);
  EXPECT_FALSE(answer.is_discarded()) << said.out << said.err;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-" + command + ".schema.json");
  EXPECT_THAT(testing::SchemaCheck(json::parse(stream)).complaints(answer), IsEmpty());
  return answer;
}

TEST(WeatherFetch, BringsAForecastWithItsCreditIntoTheSite) {
  const LoopbackServer server({good(forecast("2025-06-11T02:37:12Z", 33))});
  const FetchSite site(entry(server.url()));
  const Said said = site.fetch();
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("met-norway: stored the answer, made at 2025-06-11T02:37:12Z."));
  EXPECT_THAT(said.out, HasSubstr("Data from MET Norway"));
  ASSERT_EQ(server.seen().size(), 1U);
  EXPECT_THAT(server.seen()[0].header("user-agent"),
              ::testing::MatchesRegex("graftcast/[0-9.]+ \\(grower@example.org\\)"));
  EXPECT_THAT(server.seen()[0].target, HasSubstr("lat=40.9&lon=0.4&altitude=110"));
  for (const auto& [command, needed] :
       {std::pair{"morning", "data   "}, {"since", "data   "}, {"weather show", "data   "}}) {
    std::vector<std::string> words{command};
    if (std::string_view(command) == "weather show") words = {"weather", "show"};
    EXPECT_THAT(site.run(words).out, HasSubstr(needed + std::string("Data from MET Norway"))) << command;
    words.emplace_back("--json");
    const json answer =
        parsed(site.run(words), std::string_view(command) == "weather show" ? "weather-show" : command);
    EXPECT_THAT(answer["weather"]["credits"].dump(), HasSubstr("Data from MET Norway")) << command;
    EXPECT_THAT(answer["weather"]["forecast_until"].get<std::string>(), ::testing::StartsWith("2025-06-13T0"))
        << command;
  }
}

TEST(WeatherFetch, AnswersInJson) {
  const LoopbackServer server({good(forecast("2025-06-11T02:37:12Z", 33)), whole(304, "", expired)});
  const FetchSite site(entry(server.url()));
  const json first = parsed(site.fetch({"--json"}), "weather-fetch");
  ASSERT_EQ(first["fetched"].size(), 1U);
  EXPECT_EQ(first["fetched"][0]["result"], "stored");
  EXPECT_EQ(first["fetched"][0]["made_at"], "2025-06-11T02:37:12Z");
  EXPECT_THAT(first["fetched"][0]["credit"].get<std::string>(), HasSubstr("MET Norway"));
  EXPECT_EQ(parsed(site.fetch({"--json"}), "weather-fetch")["fetched"][0]["result"], "not-modified");
  EXPECT_EQ(server.seen().at(1).header("if-modified-since"), "Mon, 09 Jun 2025 03:59:59 GMT");
}

TEST(WeatherFetch, DryRunPrintsWhatWouldBeAskedAndAsksNothing) {
  const LoopbackServer server({good("never")});
  const FetchSite site(entry(server.url()));
  const std::string before = site.fingerprint();
  const Said said = site.fetch({"--dry-run"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(
      said.out,
      HasSubstr("GET " +
                server.url("/weatherapi/locationforecast/2.0/complete?lat=40.9&lon=0.4&altitude=110")));
  EXPECT_THAT(said.out, HasSubstr("(grower@example.org)"));
  const json planned = parsed(site.fetch({"--dry-run", "--json"}), "weather-fetch")["planned"];
  EXPECT_EQ(planned.at(0)["may_ask"], true);
  EXPECT_THAT(server.seen(), IsEmpty());
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(WeatherFetch, DoesNotAskBeforeTheAnswerExpires) {
  const LoopbackServer server(
      {whole(200, forecast("2025-06-11T02:37:12Z", 33),
             "Date: Mon, 09 Jun 2025 04:00:00 GMT\r\nExpires: Mon, 09 Jun 2025 04:30:00 GMT\r\n")});
  const FetchSite site(entry(server.url()));
  site.fetch();
  const Said again = site.fetch();
  EXPECT_EQ(again.exit_code, 0);
  EXPECT_THAT(again.out, HasSubstr("the last answer holds until"));
  EXPECT_EQ(server.seen().size(), 1U);
  EXPECT_THAT(site.fetch({"--dry-run"}).out, HasSubstr("would not be asked: the last answer holds until"));
}

TEST(WeatherFetch, ThatFailsLeavesTheForecastTellsItsAgeAndEndsWith75) {
  const LoopbackServer server(
      {good(forecast("2025-06-11T02:37:12Z", 33)), whole(200, "<html>sign in</html>", expired)});
  const FetchSite site(entry(server.url()));
  site.fetch();
  const std::string before = site.run({"weather", "show", "--hourly"}).out;
  const Said said = site.fetch();
  EXPECT_EQ(said.exit_code, 75);
  EXPECT_THAT(said.out, HasSubstr("HTML"));
  EXPECT_THAT(said.out, HasSubstr("the forecast made at 2025-06-11T02:37:12Z"));
  EXPECT_THAT(said.out, HasSubstr("days old, stands"));
  EXPECT_EQ(site.run({"weather", "show", "--hourly"}).out, before);
  EXPECT_THAT(site.run({"weather", "show", "--hindsight"}).err, HasSubstr("the answer cannot be read"));
}

TEST(WeatherFetch, IsLeftAloneAfterTroubleAndStillSaysSo) {
  const LoopbackServer server(
      {good(forecast("2025-06-11T02:37:12Z", 33)), whole(429, "slow down", "Retry-After: 10800\r\n")});
  const FetchSite site(entry(server.url()));
  site.fetch();
  EXPECT_EQ(site.fetch().exit_code, 75);
  const Said said = site.fetch({"--json"});
  EXPECT_EQ(said.exit_code, 75);
  EXPECT_EQ(parsed(said, "weather-fetch")["fetched"][0]["result"], "left-alone");
  EXPECT_EQ(server.seen().size(), 2U);
}

TEST(WeatherFetch, WithoutAnyForecastFails) {
  const LoopbackServer server({whole(403, "who are you")});
  const FetchSite site(entry(server.url()));
  const Said said = site.fetch();
  EXPECT_EQ(said.exit_code, 69);
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_THAT(said.err, HasSubstr("403"));
  EXPECT_THAT(said.err, HasSubstr("no forecast of this service is kept"));
  EXPECT_THAT(site.fetch().err, HasSubstr("not asked again until the contact changes"));
  EXPECT_EQ(server.seen().size(), 1U);
}

TEST(WeatherFetch, IsDoneInPartWhereOneOfTwoServicesFails) {
  const LoopbackServer well({good(forecast("2025-06-11T02:37:12Z", 33))});
  const LoopbackServer ill({whole(404, "no such place")});
  const FetchSite site(entry(well.url()) + "," + entry(ill.url(), "open-meteo"));
  const Said said = site.fetch();
  EXPECT_EQ(said.exit_code, 75);
  EXPECT_THAT(said.out, HasSubstr("met-norway: stored"));
  EXPECT_THAT(said.out, HasSubstr("open-meteo: the service answered with status 404"));
}

TEST(WeatherFetch, AsksOnlyTheServicesNamed) {
  const LoopbackServer named({good(forecast("2025-06-11T02:37:12Z", 33))});
  const LoopbackServer other({whole(500, "")});
  const FetchSite site(entry(named.url()) + "," + entry(other.url(), "open-meteo"));
  EXPECT_EQ(site.fetch({"met-norway"}).exit_code, 0);
  EXPECT_THAT(other.seen(), IsEmpty());
  const Said unknown = site.fetch({"nws"});
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_THAT(unknown.err, HasSubstr("this site has met-norway and open-meteo"));
}

TEST(WeatherFetch, WithoutAServiceSaysWhatToWrite) {
  const SmallSite site;
  const Said said = testing::run({"--site", site.text(), "weather", "fetch"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr(R"({"service": "met-norway", "contact": "grower@example.org"})"));
}

TEST(WeatherFetch, WithoutAContactIsRefusedWithWhatToWrite) {
  for (const char* const contact : {"", R"(, "contact": "me")"}) {
    const FetchSite site(
        fmt::format(R"({{"service": "met-norway", "base_url": "http://127.0.0.1:1"{}}})", contact));
    const Said said = site.fetch();
    EXPECT_EQ(said.exit_code, 65) << contact;
    EXPECT_THAT(said.err, HasSubstr("site.json")) << contact;
    EXPECT_THAT(said.err, HasSubstr("\"contact\": \"grower@example.org\"")) << contact;
    EXPECT_FALSE(std::filesystem::exists(site.path() / "weather/cache"));
  }
}

TEST(WeatherFetch, IsOfNow) {
  const FetchSite site(entry("http://127.0.0.1:1"));
  EXPECT_EQ(site.fetch({"--at", "2025-06-11"}).exit_code, 2);
}

// ---- Past forecasts ----

TEST(PastForecasts, AnswerForTheMomentTheyWereTheNewestOf) {
  const LoopbackServer server(
      {good(forecast("2025-06-10T22:37:12Z", 21)), good(forecast("2025-06-11T09:00:00Z", 34))});
  const FetchSite site(entry(server.url()));
  ASSERT_EQ(site.fetch().exit_code, 0);
  ASSERT_EQ(site.fetch().exit_code, 0);
  const auto highest = [&](const std::string& at) {
    const Said said = testing::run({"--site", site.text(), "--at", at, "--json", "weather", "show",
                                    "--hourly", "--from", "2025-06-11", "--to", "2025-06-11"});
    EXPECT_EQ(said.exit_code, 0) << said.err;
    double highest_c = -99;
    const json answer = json::parse(said.out);
    for (const json& hour : answer["hours"])
      if (hour["sources"]["air_temperature"] == "forecast")
        highest_c = std::max(highest_c, hour["air_temperature_c"].get<double>());
    return highest_c;
  };
  EXPECT_EQ(highest("2025-06-11T06:30"), 21);
  EXPECT_EQ(highest("2025-06-11T11:30"), 34);
  EXPECT_EQ(highest("2025-06-10T23:30"), -99) << "no forecast had been made by then";

  // They are packed: gzip begins with 1F 8B.
  for (const char* const name : {"2025-06-10T223712Z.http.gz", "2025-06-11T090000Z.http.gz"}) {
    bool found = false;
    for (const auto& file : std::filesystem::recursive_directory_iterator(site.path() / "weather/cache"))
      if (file.path().filename() == name) {
        std::ifstream stream(file.path(), std::ios::binary);
        std::string head(2, '\0');
        stream.read(head.data(), 2);
        EXPECT_EQ(head, "\x1F\x8B");
        found = true;
      }
    EXPECT_TRUE(found) << name;
  }
}

/// Thirty days of log, and a forecast fetched early on each of them.
struct SkilledSite {
  LoopbackServer server{[](const testing::SeenRequest&, std::size_t number) {
    return good(forecast(fmt::format("2025-06-{:02}T00:30:00Z", number + 1), 25));
  }};
  FetchSite site{entry(server.url())};

  SkilledSite() {
    site.write("weather/station.csv", testing::hourly_log(1, 30));
    for (int day = 0; day < 30; ++day) EXPECT_EQ(site.fetch().exit_code, 0);
  }
  Said ask(const std::string& day, std::vector<std::string> words) const {
    words.insert(words.begin(),
                 {"--site", site.text(), "--at", day + "T20:30", "--members", "8", "--width", "400"});
    return testing::run(words);
  }
};

TEST(Skill, OfThirtyForecastsIsShownAndSpreadsTheEnsemble) {
  const SkilledSite skilled;
  const std::string day = "2025-06-30";
  const json skill =
      parsed(skilled.ask(day, {"weather", "show", "--skill", "--json"}), "weather-show")["skill"];
  ASSERT_EQ(skill.size(), 1U);
  EXPECT_EQ(skill[0]["source"], "met-norway");
  EXPECT_EQ(skill[0]["forecasts"], 30);
  EXPECT_EQ(skill[0]["own_errors_count"], true);
  EXPECT_EQ(skill[0]["first_made"], "2025-06-01T00:30:00Z");
  const json& first = skill[0]["errors"][0];
  EXPECT_EQ(first["variable"], "air_temperature_c");
  EXPECT_EQ(first["lead_day"], 1);
  EXPECT_GT(first["hours"], 29 * 24);
  EXPECT_GE(first["rmse"].get<double>(), std::abs(first["bias"].get<double>()));
  const json spread = parsed(skilled.ask(day, {"morning", "--json"}), "morning")["weather"]["spread"];
  EXPECT_EQ(spread, (json{{"by", "own-errors"}, {"count", 30}}));
  const Said text = skilled.ask(day, {"weather", "show", "--skill"});
  EXPECT_THAT(text.out, HasSubstr("met-norway: 30 forecasts compared"));
  EXPECT_THAT(text.out, HasSubstr("The ensemble spreads by these errors."));

  // A day before there were twenty-nine, which do not count yet.
  const json before =
      parsed(skilled.ask("2025-06-29", {"weather", "show", "--skill", "--json"}), "weather-show")["skill"];
  EXPECT_EQ(before.at(0)["forecasts"], 29);
  EXPECT_EQ(before.at(0)["own_errors_count"], false);
  EXPECT_EQ(parsed(skilled.ask("2025-06-29", {"since", "--json"}), "since")["weather"]["spread"]["by"],
            "published-errors");
}

TEST(Skill, WithoutPastForecastsSaysHowToGetThem) {
  const SmallSite site;
  EXPECT_THAT(site.run({"weather", "show", "--skill"}).out, HasSubstr("weather fetch"));
  EXPECT_EQ(site.run({"weather", "show", "--skill", "--hourly"}).exit_code, 2);
}

TEST(Courses, OfAnEnsembleForecastSpreadTheEnsemble) {
  json answer{{"latitude", 40.9},
              {"longitude", 0.4},
              {"elevation", 110},
              {"utc_offset_seconds", 0},
              {"hourly_units", {{"time", "unixtime"}}},
              {"hourly", {{"time", json::array()}}}};
  const Instant first = at("2025-06-10T22:00:00Z");
  for (int hour = 0; hour < 60; ++hour)
    answer["hourly"]["time"].push_back((first + std::chrono::hours(hour)).time_since_epoch().count());
  for (const auto& [name, unit, value] : {std::tuple{"temperature_2m", "°C", 24.0},
                                          {"relative_humidity_2m", "%", 50.0},
                                          {"wind_speed_10m", "m/s", 3.0},
                                          {"shortwave_radiation", "W/m²", 100.0}})
    for (const char* const member : {"", "_member01", "_member02"}) {
      answer["hourly_units"][std::string(name) + member] = unit;
      answer["hourly"][std::string(name) + member] = std::vector<double>(60, value);
    }
  const LoopbackServer server({good(answer.dump())});
  const FetchSite site(entry(server.url(), "open-meteo-ensemble"));
  ASSERT_EQ(site.fetch().exit_code, 0);
  // Open-Meteo does not tell when a forecast was made: it counts from when it came, so this looks back.
  const Said said = site.run({"--hindsight", "--json", "morning"});
  EXPECT_EQ(parsed(said, "morning")["weather"]["spread"], (json{{"by", "courses"}, {"count", 3}}));
  EXPECT_THAT(site.run({"--hindsight", "--width", "400", "morning"}).out,
              HasSubstr("3 courses of an ensemble forecast"));
}

}  // namespace
}  // namespace graftcast
