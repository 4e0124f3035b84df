// The whole asking: policy, network, storing, reading. Whatever is played, the last good forecast stays.

#include <fstream>

#include <gmock/gmock.h>

#include "graftcast/error.hpp"
#include "loopback_server.hpp"
#include "services_cases.hpp"
#include "temporary_folder.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::gzipped;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::lisbon;
using testing::LoopbackServer;
using ::testing::Not;
using testing::PlayedAnswer;
using testing::raw;
using testing::replaced;
using testing::service_fixture;
using testing::terrace;
using testing::whole;
using What = FetchResult::What;

const char* const program = "graftcast/test";
const std::string good_headers =
    "Date: Mon, 09 Jun 2025 04:00:00 GMT\r\nExpires: Mon, 09 Jun 2025 04:31:00 GMT\r\nLast-Modified: Mon, 09 "
    "Jun 2025 03:59:59 GMT\r\n";

std::string first_forecast() {
  return service_fixture("met_norway_complete.json");
}
std::string second_forecast() {
  return replaced(first_forecast(), "2025-06-09T03:37:12Z", "2025-06-09T09:37:12Z");
}

/// A site folder, a clock that the test moves, and no real waits.
struct Bench {
  testing::TemporaryFolder folder;
  SourceSettings source;
  Location location = terrace;
  Instant now = at("2025-06-09T04:00:00Z");
  std::vector<std::chrono::milliseconds> waits;
  HttpLimits limits;

  explicit Bench(const std::string& base_url, const std::string& service = "met-norway") {
    source.service = service;
    source.contact = "grower@example.org";
    source.base_url = base_url;
    limits.time = std::chrono::milliseconds(2000);
  }
  FetchTools tools() {
    return {[this](const HttpRequest& request) { return http_get(request, limits); }, [this] { return now; },
            [this](std::chrono::milliseconds length) { waits.push_back(length); }, [] { return 0.5; }};
  }
  FetchResult fetch() { return fetch_forecast(folder.path(), source, location, lisbon(), program, tools()); }
  std::vector<Readings> saved(Instant as_of) {
    return saved_forecasts(folder.path(), source, location, lisbon(), {as_of, false});
  }
};

TEST(Fetch, StoresReadsAndKeepsAnAnswer) {
  const LoopbackServer server(
      {whole(200, gzipped(first_forecast()), good_headers + "Content-Encoding: gzip\r\n")});
  Bench bench(server.url());
  const FetchResult result = bench.fetch();
  EXPECT_EQ(result.what, What::stored) << result.message;
  EXPECT_EQ(result.made_at, at("2025-06-09T03:37:12Z"));
  EXPECT_EQ(result.not_before, at("2025-06-09T04:31:00Z"));
  EXPECT_THAT(result.credit, HasSubstr("MET Norway"));
  EXPECT_EQ(server.seen().at(0).target,
            "/weatherapi/locationforecast/2.0/complete?lat=41.2&lon=-7.5&altitude=260");
  EXPECT_EQ(server.seen().at(0).header("user-agent"), "graftcast/test (grower@example.org)");
  const auto past = past_forecasts(bench.folder.path(), bench.source);
  ASSERT_EQ(past.size(), 1U);
  EXPECT_EQ(past[0].made_at, at("2025-06-09T03:37:12Z"));
  const auto stored = parse_stored(
      testing::file_text(cache_folder(bench.folder.path(), bench.source) / "latest.http.gz"), "x");
  EXPECT_EQ(stored.answer.header("expires"), "Mon, 09 Jun 2025 04:31:00 GMT");
  EXPECT_EQ(stored.answer.body, first_forecast());
}

TEST(Fetch, AsksNothingBeforeTheAnswerExpires) {
  const LoopbackServer server({whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  bench.fetch();
  bench.now += std::chrono::minutes(30);
  const FetchResult early = bench.fetch();
  EXPECT_EQ(early.what, What::too_early);
  EXPECT_EQ(early.not_before, at("2025-06-09T04:31:00Z"));
  EXPECT_EQ(early.made_at, at("2025-06-09T03:37:12Z"));
  EXPECT_EQ(server.seen().size(), 1U);
}

TEST(Fetch, AsksWhetherThereIsNewsAndTakesNoForAnAnswer) {
  const LoopbackServer server(
      {whole(200, first_forecast(), good_headers),
       whole(304, "", "Date: Mon, 09 Jun 2025 05:00:00 GMT\r\nExpires: Mon, 09 Jun 2025 05:30:00 GMT\r\n"),
       whole(200, second_forecast(), good_headers)});
  Bench bench(server.url());
  bench.fetch();
  bench.now += std::chrono::hours(1);
  const FetchResult same = bench.fetch();
  EXPECT_EQ(same.what, What::not_modified);
  EXPECT_EQ(same.not_before, at("2025-06-09T05:30:00Z"));
  EXPECT_EQ(server.seen().at(1).header("if-modified-since"), "Mon, 09 Jun 2025 03:59:59 GMT");
  bench.now += std::chrono::hours(6);
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(past_forecasts(bench.folder.path(), bench.source).size(), 2U);
}

TEST(Fetch, AsksAnewForAnotherPlace) {
  const LoopbackServer server({whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  bench.fetch();
  bench.location.latitude_deg += 0.01;
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().at(1).header("if-modified-since"), "");
}

TEST(Fetch, TriesAgainSomeSecondsAfterPassingTrouble) {
  const LoopbackServer server(
      {whole(500, "oh"), whole(503, "oh"), whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_THAT(bench.waits,
              ::testing::ElementsAre(std::chrono::milliseconds(2000), std::chrono::milliseconds(4000)));
  EXPECT_EQ(server.seen().size(), 3U);
}

TEST(Fetch, StopsAfterThreeTriesAndLeavesTheServiceAlone) {
  const LoopbackServer server({whole(500, "oh")});
  Bench bench(server.url());
  const FetchResult result = bench.fetch();
  EXPECT_EQ(result.what, What::failed);
  EXPECT_EQ(server.seen().size(), 3U);
  EXPECT_EQ(result.not_before, bench.now + std::chrono::minutes(5));
  EXPECT_EQ(bench.fetch().what, What::left_alone);
  EXPECT_EQ(server.seen().size(), 3U);
}

TEST(Fetch, NeverAsksAgainAfterARefusalUntilTheContactChanges) {
  const LoopbackServer server(
      {whole(403, "<html>who are you</html>"), whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  EXPECT_THAT(bench.fetch().message, HasSubstr("403"));
  bench.now += std::chrono::hours(24 * 365);
  const FetchResult again = bench.fetch();
  EXPECT_EQ(again.what, What::left_alone);
  EXPECT_THAT(again.message, HasSubstr("not asked again until"));
  EXPECT_EQ(server.seen().size(), 1U);
  bench.source.contact = "grower.two@example.org";
  EXPECT_EQ(bench.fetch().what, What::stored);
}

TEST(Fetch, HonoursRetryAfter) {
  const LoopbackServer server({whole(429, "slow down", "Retry-After: 10800\r\n")});
  Bench bench(server.url());
  EXPECT_EQ(bench.fetch().not_before, bench.now + std::chrono::hours(3));
  EXPECT_EQ(server.seen().size(), 1U);
}

TEST(Fetch, UsesAnOutdatedVersionWithAWarning) {
  const LoopbackServer server({whole(203, first_forecast(), good_headers)});
  Bench bench(server.url());
  const FetchResult result = bench.fetch();
  EXPECT_EQ(result.what, What::stored);
  EXPECT_THAT(result.warnings, ::testing::Contains(HasSubstr("203")));
}

TEST(Fetch, RefusesWithoutAContact) {
  const LoopbackServer server({whole(200, first_forecast())});
  Bench bench(server.url());
  bench.source.contact = "";
  EXPECT_THROW(bench.fetch(), DataError);
  EXPECT_TRUE(server.seen().empty());
}

TEST(Fetch, AnAnswerForAnotherPlaceIsNotKept) {
  const LoopbackServer server({whole(200, replaced(first_forecast(), "-7.5", "-9.5"), good_headers)});
  Bench bench(server.url());
  EXPECT_THAT(bench.fetch().message, HasSubstr("km away"));
  EXPECT_THAT(past_forecasts(bench.folder.path(), bench.source), IsEmpty());
}

TEST(Fetch, AnAnswerOfAWildTimeIsNotKept) {
  const std::string wild = replaced(first_forecast(), "2025-06-09T04:00:00Z", "1012-06-09T04:00:00Z");
  const std::string too_new = replaced(first_forecast(), "2025-06-09T03:37:12Z", "2035-06-09T03:37:12Z");
  for (const auto& [body, said] : {std::pair{wild, "no service knows of"}, {too_new, "after it came"}}) {
    const LoopbackServer server({whole(200, body, good_headers)});
    Bench bench(server.url());
    EXPECT_THAT(bench.fetch().message, HasSubstr(said));
    EXPECT_THAT(past_forecasts(bench.folder.path(), bench.source), IsEmpty());
  }
}

TEST(Fetch, ThePlanSaysWhatWouldBeAskedAndAsksNothing) {
  const LoopbackServer server({whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  const FetchPlan plan = plan_fetch(bench.folder.path(), bench.source, terrace, program, bench.now);
  EXPECT_TRUE(plan.may_ask);
  EXPECT_THAT(plan.request.url, HasSubstr("lat=41.2&lon=-7.5"));
  EXPECT_TRUE(server.seen().empty());
  EXPECT_FALSE(std::filesystem::exists(bench.folder.path() / "weather"));
  bench.fetch();
  const FetchPlan early = plan_fetch(bench.folder.path(), bench.source, terrace, program, bench.now);
  EXPECT_FALSE(early.may_ask);
  EXPECT_THAT(early.reason, HasSubstr("2025-06-09T04:31:00Z"));
}

// ---- Every kind of trouble after one good forecast ----

struct Trouble {
  const char* name;
  PlayedAnswer (*play)();
  const char* said;  ///< Part of the message.
};

PlayedAnswer trickle() {
  PlayedAnswer answer{{"HTTP/1.1 200 OK\r\nContent-Length: 10000\r\n\r\n"}, std::chrono::milliseconds(100)};
  for (int k = 0; k < 40; ++k) answer.pieces.emplace_back("x");
  return answer;
}

const Trouble troubles[] = {
    {"Forbidden", [] { return whole(403, "no"); }, "403"},
    {"Throttled", [] { return whole(429, "no", "Retry-After: 60\r\n"); }, "429"},
    {"ServerError", [] { return whole(500, "no"); }, "500"},
    {"BadRequestInHtml", [] { return whole(400, "<html>bad</html>"); }, "400"},
    {"NotFound", [] { return whole(404, "no"); }, "404"},
    {"RedirectLoop", [] { return whole(302, "", "Location: /again\r\n"); }, "more than 3 times"},
    {"RedirectToHttp", [] { return whole(302, "", "Location: http://example.org/\r\n"); }, "away from https"},
    {"SlowTrickle", trickle, "no complete answer"},
    {"CutConnection", [] { return raw("HTTP/1.1 200 OK\r\nContent-Length: 9999\r\n\r\n{\"type\""); }, ""},
    {"GzipBomb",
     [] {
       return whole(200, gzipped(std::string(std::size_t{64} << 20U, ' ')), "Content-Encoding: gzip\r\n");
     },
     "larger than"},
    {"SeventeenMebibytes", [] { return whole(200, std::string(std::size_t{17} << 20U, ' ')); },
     "larger than"},
    {"HtmlInsteadOfJson", [] { return whole(200, "<html>sign in</html>", good_headers); }, "HTML"},
    {"JsonCutInTheMiddle", [] { return whole(200, second_forecast().substr(0, 3000), good_headers); },
     "cannot be read"},
    {"WrongLength",
     [] {
       return raw("HTTP/1.1 200 OK\r\nContent-Length: 2000\r\nConnection: close\r\n\r\n" + second_forecast());
     },
     "cannot be read"},
    {"EmptyBody", [] { return whole(200, ""); }, "empty"},
    {"JsonOfAnotherService", [] { return whole(200, service_fixture("nws_gridpoint.json")); },
     "cannot be read"},
};

class TroubleAfterAGoodForecast : public ::testing::TestWithParam<Trouble> {};

TEST_P(TroubleAfterAGoodForecast, LeavesTheForecastAndTellsItsAge) {
  const PlayedAnswer trouble = GetParam().play();
  const LoopbackServer server([&](const testing::SeenRequest&, std::size_t number) {
    return number == 0 ? whole(200, first_forecast(), good_headers) : trouble;
  });
  Bench bench(server.url());
  bench.limits.time = std::chrono::milliseconds(1000);
  ASSERT_EQ(bench.fetch().what, What::stored);
  const double before =
      testing::channel(bench.saved(bench.now).at(0), Quantity::air_temperature, Kind::instant).value.at(0);
  bench.now += std::chrono::hours(5);
  const FetchResult result = bench.fetch();
  EXPECT_EQ(result.what, What::failed) << result.message;
  EXPECT_THAT(result.message, HasSubstr(GetParam().said));
  EXPECT_THAT(result.message, HasSubstr("the forecast made at 2025-06-09T03:37:12Z, 5 h old, stands"));
  EXPECT_EQ(result.made_at, at("2025-06-09T03:37:12Z"));

  const auto saved = bench.saved(bench.now);
  ASSERT_EQ(saved.size(), 1U);
  EXPECT_EQ(testing::channel(saved[0], Quantity::air_temperature, Kind::instant).value.at(0), before);
  EXPECT_THAT(testing::note(saved[0].notes, "fetch-trouble").text,
              HasSubstr("made at 2025-06-09T03:37:12Z, 5 h before"));

  // The next answer is asked for in full when the last could not be read, and it is taken.
  const std::size_t asked = server.seen().size();
  EXPECT_GE(asked, 2U);
  EXPECT_NE(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().size(), asked) << "asked again at once";
}

INSTANTIATE_TEST_SUITE_P(Played, TroubleAfterAGoodForecast, ::testing::ValuesIn(troubles),
                         [](const auto& played) { return std::string(played.param.name); });

TEST(Fetch, ABodyThatCouldNotBeReadIsStoredAndNeverComparedWith) {
  const LoopbackServer server(
      {whole(200, "<html>", good_headers), whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  EXPECT_EQ(bench.fetch().what, What::failed);
  const auto latest = parse_stored(
      testing::file_text(cache_folder(bench.folder.path(), bench.source) / "latest.http.gz"), "x");
  EXPECT_EQ(latest.answer.body, "<html>");
  bench.now += std::chrono::hours(1);
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().at(1).header("if-modified-since"), "");
}

// ---- The services that need more than one request, or another reader ----

TEST(Fetch, AsksTheWeatherServiceFirstForItsGridCellAndRemembersIt) {
  const LoopbackServer server([](const testing::SeenRequest& request, std::size_t) {
    return whole(200, service_fixture(request.target.starts_with("/points/") ? "nws_points.json"
                                                                             : "nws_gridpoint.json"));
  });
  Bench bench(server.url(), "nws");
  bench.location = {38.01, -121.5, 5};
  bench.now = at("2024-05-01T03:00:00Z");
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().at(0).target, "/points/38.01,-121.5");
  EXPECT_EQ(server.seen().at(1).target, "/gridpoints/XYZ/41,67");
  EXPECT_EQ(server.seen().at(1).header("accept"), "application/geo+json");
  bench.now += std::chrono::hours(1);
  bench.fetch();
  EXPECT_EQ(server.seen().size(), 3U);
}

TEST(Fetch, AsksForTheGridCellAgainWhenItIsGone) {
  const LoopbackServer server([](const testing::SeenRequest& request, std::size_t number) {
    if (request.target.starts_with("/points/")) return whole(200, service_fixture("nws_points.json"));
    return number == 1 ? whole(404, "{\"title\":\"Not Found\"}")
                       : whole(200, service_fixture("nws_gridpoint.json"));
  });
  Bench bench(server.url(), "nws");
  bench.location = {38.01, -121.5, 5};
  bench.now = at("2024-05-01T03:00:00Z");
  EXPECT_EQ(bench.fetch().what, What::failed);
  bench.now += std::chrono::hours(25);
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().at(2).target, "/points/38.01,-121.5");
}

TEST(Fetch, ReadsAnyTableAtAnAddressOfTheOwners) {
  const LoopbackServer server({whole(200, "When,T\n2025-06-09T05:00Z,50\n2025-06-09T06:00Z,59\n")});
  Bench bench(server.url("/export.csv?station=7"), "url");
  bench.source.columns = {{"time", {"When", "", "", {}}}, {"air_temperature", {"T", "degF", "", {}}}};
  bench.source.as_forecast = true;
  const FetchResult result = bench.fetch();
  EXPECT_EQ(result.what, What::stored) << result.message;
  EXPECT_EQ(server.seen().at(0).target, "/export.csv?station=7");
  const auto saved = bench.saved(bench.now);
  EXPECT_NEAR(testing::channel(saved.at(0), Quantity::air_temperature).value.at(1), 15, 1e-9);
  EXPECT_EQ(saved[0].made_at, bench.now);
}

TEST(Fetch, OfAnArchiveOnlyTheNewestAnswerIsKept) {
  const LoopbackServer server({whole(200, service_fixture("open_meteo_archive.csv"))});
  Bench bench(server.url(), "open-meteo-archive");
  EXPECT_EQ(bench.fetch().what, What::stored);
  bench.now += std::chrono::hours(25);
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(past_forecasts(bench.folder.path(), bench.source).size(), 1U);
}

// Killed between the state and the kept forecast; here the latter cannot be written.
TEST(Fetch, ReadsAnAnswerThatCameBeforeItWasCutShortWithoutAskingAgain) {
  const LoopbackServer server({whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  const auto past = cache_folder(bench.folder.path(), bench.source) / "past";
  std::filesystem::create_directories(past.parent_path());
  std::ofstream(past) << "in the way";
  EXPECT_THROW(bench.fetch(), WriteError);
  EXPECT_THAT(bench.saved(bench.now).front().blocks, IsEmpty());
  std::filesystem::remove(past);
  const FetchResult second = bench.fetch();
  EXPECT_EQ(second.what, What::stored);
  EXPECT_EQ(second.made_at, at("2025-06-09T03:37:12Z"));
  EXPECT_EQ(bench.fetch().what, What::too_early);
  EXPECT_EQ(server.seen().size(), 1U);
}

TEST(Fetch, APauseOfAClockThatHasBeenPutBackDoesNotCount) {
  const LoopbackServer server({whole(200, first_forecast(), good_headers)});
  Bench bench(server.url());
  bench.now = at("2035-06-09T04:00:00Z");
  bench.fetch();
  bench.now = at("2025-06-09T04:00:00Z");
  EXPECT_EQ(bench.fetch().what, What::stored);
  EXPECT_EQ(server.seen().size(), 2U);
}

}  // namespace
}  // namespace graftcast
