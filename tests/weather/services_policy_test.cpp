// When a service may be asked again, and what exactly is asked.

#include <gmock/gmock.h>

#include "services/fetch_state.hpp"
#include "services/gzip.hpp"
#include "services/service_requests.hpp"
#include "services_cases.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::complaint_of;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::terrace;

const Instant now = at("2025-06-09T06:00:00Z");

HttpOutcome answered(long status, std::vector<std::pair<std::string, std::string>> headers = {}) {
  return {{status, std::move(headers), "body"}, FetchFault::none, ""};
}

std::chrono::seconds pause_after(const HttpOutcome& outcome, int failures = 0, double jitter = 0.5,
                                 Service service = Service::met_norway) {
  FetchState state;
  state.failures = failures;
  return after_outcome(state, service, outcome, now, jitter).not_before.value() - now;
}

TEST(FetchPolicy, NothingBeforeExpiresByTheServersOwnClock) {
  // The server's clock is a day behind ours: the half hour between its two times counts.
  EXPECT_EQ(pause_after(answered(200, {{"date", "Sun, 08 Jun 2025 06:00:00 GMT"},
                                       {"expires", "Sun, 08 Jun 2025 06:31:00 GMT"}})),
            std::chrono::minutes(31));
  EXPECT_EQ(pause_after(answered(200, {{"expires", "Mon, 09 Jun 2025 07:00:00 GMT"}})),
            std::chrono::minutes(60));
  EXPECT_EQ(pause_after(answered(304, {{"expires", "Mon, 09 Jun 2025 07:00:00 GMT"}})),
            std::chrono::minutes(60));
  EXPECT_EQ(pause_after(answered(200)), std::chrono::minutes(30));
  EXPECT_EQ(pause_after(answered(200, {{"expires", "0"}})), std::chrono::minutes(30));
}

TEST(FetchPolicy, MaxAgeCountsWhereThereIsNoExpiresAndEachServiceHasItsLeastPause) {
  const HttpOutcome brief = answered(200, {{"cache-control", "public, max-age=98, s-maxage=3600"}});
  EXPECT_EQ(pause_after(brief), std::chrono::seconds(98));
  EXPECT_EQ(pause_after(brief, 0, 0.5, Service::nws), std::chrono::minutes(30));
  EXPECT_EQ(pause_after(brief, 0, 0.5, Service::open_meteo), std::chrono::hours(1));
  EXPECT_EQ(pause_after(brief, 0, 0.5, Service::open_meteo_archive), std::chrono::hours(24));
  EXPECT_EQ(pause_after(answered(200, {{"cache-control", "max-age=7200"}}), 0, 0.5, Service::nws),
            std::chrono::hours(2));
}

TEST(FetchPolicy, AGoodAnswerClearsTroubleAndKeepsLastModifiedWordForWord) {
  FetchState state;
  state.failures = 3;
  state.trouble = "before";
  const FetchState after = after_outcome(
      state, Service::nws, answered(200, {{"last-modified", "Fri, 01 Jan 2100 00:00:00 GMT"}}), now, 0);
  EXPECT_EQ(after.failures, 0);
  EXPECT_EQ(after.trouble, "");
  EXPECT_EQ(after.answered_at, now);
  EXPECT_EQ(after.last_modified, "Fri, 01 Jan 2100 00:00:00 GMT");
  EXPECT_EQ(after_outcome(after, Service::nws, answered(304), now, 0).last_modified, after.last_modified);
}

TEST(FetchPolicy, ARefusalIsFinal) {
  for (const long status : {401L, 403L}) {
    const FetchState state = after_outcome({}, Service::met_norway, answered(status), now, 0.5);
    EXPECT_TRUE(state.banned);
    EXPECT_THAT(state.trouble, HasSubstr(std::to_string(status)));
  }
}

TEST(FetchPolicy, WhatIsSettledWaitsADay) {
  for (const long status : {400L, 404L, 410L, 422L})
    EXPECT_EQ(pause_after(answered(status)), std::chrono::hours(24)) << status;
}

TEST(FetchPolicy, ThrottlingWaitsLongAndAtLeastAsLongAsAsked) {
  EXPECT_EQ(pause_after(answered(429), 0, 0), std::chrono::hours(1));
  EXPECT_EQ(pause_after(answered(429), 2, 0), std::chrono::hours(4));
  EXPECT_EQ(pause_after(answered(429), 20, 0), std::chrono::hours(24));
  EXPECT_EQ(pause_after(answered(429, {{"retry-after", "10"}}), 0, 0), std::chrono::hours(1));
  EXPECT_EQ(pause_after(answered(429, {{"retry-after", "172800"}}), 0, 0), std::chrono::hours(48));
  EXPECT_EQ(pause_after(answered(429, {{"retry-after", "Mon, 09 Jun 2025 09:00:00 GMT"}}), 0, 0),
            std::chrono::hours(3));
}

TEST(FetchPolicy, PassingTroubleDoublesWithJitterUpToACap) {
  for (const long status : {408L, 499L, 500L, 502L, 503L, 504L})
    EXPECT_EQ(pause_after(answered(status)), std::chrono::minutes(5)) << status;
  EXPECT_EQ(pause_after({{}, FetchFault::timed_out, "late"}), std::chrono::minutes(5));
  EXPECT_EQ(pause_after(answered(500), 1), std::chrono::minutes(10));
  EXPECT_EQ(pause_after(answered(500), 1000), std::chrono::hours(6));
  EXPECT_EQ(pause_after(answered(500), 0, 0), std::chrono::seconds(225));
  EXPECT_LT(pause_after(answered(500), 0, 0.999), std::chrono::seconds(375));
}

TEST(FetchPolicy, PausesNeverShrinkWhileTroubleLasts) {
  for (const long status : {429L, 500L}) {
    for (int failures = 0; failures < 40; ++failures)
      EXPECT_LE(pause_after(answered(status), failures), pause_after(answered(status), failures + 1))
          << failures;
  }
}

TEST(FetchState, ComesBackAsItWas) {
  FetchState state{"met-norway x",
                   "a@example.org",
                   "https://x",
                   "Mon, 09 Jun 2025 07:00:00 GMT",
                   now,
                   now + std::chrono::hours(1),
                   std::nullopt,
                   3,
                   true,
                   "status 500: \"\n\xFF"};
  const FetchState back = parse_state(state_text(state), "state.json");
  EXPECT_EQ(back.subject, state.subject);
  EXPECT_EQ(back.contact, state.contact);
  EXPECT_EQ(back.url, state.url);
  EXPECT_EQ(back.last_modified, state.last_modified);
  EXPECT_EQ(back.not_before, state.not_before);
  EXPECT_EQ(back.asked_at, state.asked_at);
  EXPECT_EQ(back.answered_at, std::nullopt);
  EXPECT_EQ(back.failures, 3);
  EXPECT_TRUE(back.banned);
}

TEST(FetchState, DamagedItIsRefused) {
  for (const char* const text : {"", "[]", "{\"failures\": -1}", "{\"failures\": \"x\"}", "{\"banned\": 1}",
                                 "{\"asked_at\": \"soon\"}", "{\"url\": 3}"})
    EXPECT_FALSE(complaint_of([&] { parse_state(text, "state.json"); }).empty()) << text;
}

TEST(StoredAnswer, ComesBackWithItsHeaders) {
  const StoredAnswer stored{"https://example.org/x?a=1",
                            now,
                            {200, {{"expires", "Mon"}, {"empty", ""}, {"via", "a: b"}}, "line\n\nmore\n"}};
  const StoredAnswer back = parse_stored(stored_bytes(stored), "x");
  EXPECT_EQ(back.url, stored.url);
  EXPECT_EQ(back.received_at, now);
  EXPECT_EQ(back.answer.status, 200);
  EXPECT_EQ(back.answer.headers, stored.answer.headers);
  EXPECT_EQ(back.answer.body, stored.answer.body);
}

TEST(StoredAnswer, CutOrForeignItIsRefused) {
  const std::string bytes = stored_bytes({"https://example.org", now, {200, {}, std::string(5000, 'x')}});
  for (std::size_t length = 0; length < bytes.size(); ++length)
    EXPECT_THROW(parse_stored(bytes.substr(0, length), "x"), DataError) << length;
  EXPECT_THROW(parse_stored(gzip_compressed("hello"), "x"), DataError);
  EXPECT_THROW(gzip_expanded(gzip_compressed(std::string(10'000'000, '0')), 1'000'000, "x"), DataError);
}

SourceSettings source_of(const std::string& service, const std::string& base = "") {
  SourceSettings source;
  source.service = service;
  source.contact = "grower@example.org";
  source.base_url = base;
  return source;
}

TEST(Requests, HaveAtMostFourDecimalsAndNoZerosBehind) {
  const Location exact{41.123456, -7.5, 259.6};
  EXPECT_EQ(request_url(Service::met_norway, source_of("met-norway"), exact, now),
            "https://api.met.no/weatherapi/locationforecast/2.0/complete?lat=41.1235&lon=-7.5&altitude=260");
  EXPECT_EQ(request_url(Service::nws, source_of("nws"), {38.0, -121.50004, 0}, now),
            "https://api.weather.gov/points/38,-121.5");
  EXPECT_EQ(short_number(-0.00001, 4), "0");
  EXPECT_EQ(short_number(100, 0), "100");
}

TEST(Requests, OpenMeteoIsAskedForUnitsAndTimesThatNeedNoGuess) {
  const std::string url = request_url(Service::open_meteo, source_of("open-meteo"), terrace, now);
  EXPECT_THAT(url, HasSubstr("wind_speed_unit=ms&timeformat=unixtime&timezone=GMT"));
  EXPECT_THAT(request_url(Service::open_meteo_ensemble, source_of("open-meteo-ensemble"), terrace, now),
              HasSubstr("&models="));
  EXPECT_THAT(request_url(Service::open_meteo_archive, source_of("open-meteo-archive"), terrace, now),
              HasSubstr("&start_date=2023-01-01&end_date=2025-06-03"));
}

TEST(Requests, GoToTheBaseAddressThatIsSet) {
  EXPECT_THAT(
      request_url(Service::met_norway, source_of("met-norway", "http://127.0.0.1:8080/"), terrace, now),
      ::testing::StartsWith("http://127.0.0.1:8080/weatherapi/"));
  EXPECT_THAT(complaint_of([] { request_url(Service::url, source_of("url"), terrace, now); }),
              HasSubstr("base_url"));
}

TEST(Requests, TheGridCellIsReadAsNumberOrTextAndNothingElse) {
  const std::string points = testing::service_fixture("nws_points.json");
  EXPECT_EQ(gridpoint_url(source_of("nws"), points, "points"),
            "https://api.weather.gov/gridpoints/XYZ/41,67");
  const auto refusal = [&](std::string_view from, std::string_view to) {
    return complaint_of(
        [&] { gridpoint_url(source_of("nws"), testing::replaced(points, from, to), "points"); });
  };
  EXPECT_EQ(gridpoint_url(source_of("nws"), testing::replaced(points, "\"gridX\": 41", "\"gridX\": \"41\""),
                          "points"),
            "https://api.weather.gov/gridpoints/XYZ/41,67");
  EXPECT_THAT(refusal("\"gridX\": 41", "\"gridX\": \"../41\""), HasSubstr("grid cell"));
  EXPECT_THAT(refusal("\"gridX\": 41", "\"gridX\": null"), HasSubstr("grid cell"));
}

TEST(Requests, SayWhoAsks) {
  EXPECT_EQ(user_agent("graftcast/0.1.0", source_of("met-norway")), "graftcast/0.1.0 (grower@example.org)");
  for (const char* const contact : {"", "   ", "me", "a@b\r\nX: y", "gr\u00f6wer@example.org"}) {
    SourceSettings source = source_of("met-norway");
    source.contact = contact;
    EXPECT_THAT(complaint_of([&] { user_agent("graftcast/0.1.0", source); }),
                HasSubstr("no way to reach you"))
        << contact;
  }
}

TEST(FetchPolicy, NoPauseLastsLongerThanAWeekWhateverAServiceTells) {
  for (const char* const far : {"Fri, 31 Dec 9999 23:59:59 GMT", "Mon, 01 Jun 2026 00:00:00 GMT"}) {
    EXPECT_EQ(pause_after(answered(200, {{"expires", far}})), std::chrono::days(7)) << far;
    EXPECT_EQ(pause_after(answered(429, {{"retry-after", far}})), std::chrono::days(7)) << far;
  }
  EXPECT_EQ(pause_after(answered(200, {{"cache-control", "max-age=99999999"}})), std::chrono::days(7));
}

}  // namespace
}  // namespace graftcast
