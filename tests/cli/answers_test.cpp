// Whole commands on the small site.

#include <algorithm>
#include <fstream>
#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "report/text_layout.hpp"
#include "small_site.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::Not;
using testing::Said;
using testing::small_morning;
using testing::SmallSite;
using ::testing::StartsWith;

/// The answer of a command with --json, which must fit the schema called `schema`.
json answer(const SmallSite& site, std::vector<std::string> arguments, const std::string& schema,
            const testing::Surroundings& surroundings = {}) {
  arguments.emplace_back("--json");
  const Said said = site.run(arguments, surroundings);
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.err, IsEmpty());
  const json answer = json::parse(said.out, nullptr, false);
  EXPECT_FALSE(answer.is_discarded()) << said.out;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-" + schema + ".schema.json");
  const json rules = json::parse(stream);
  EXPECT_THAT(testing::SchemaCheck(rules).complaints(answer), IsEmpty());
  return answer;
}

TEST(Morning, RanksTheOpenGraftsWithRisksAndActions) {
  const SmallSite site;
  const json morning = answer(site, {"morning"}, "morning");
  ASSERT_EQ(morning["grafts"].size(), 4U);
  EXPECT_EQ(morning["as_of"], "2025-06-11T04:30:00Z");
  EXPECT_EQ(morning["weather"]["measured_until"], "2025-06-10T22:00:00Z");
  EXPECT_EQ(morning["weather"]["forecast_until"], "2025-06-13T22:00:00Z");
  EXPECT_EQ(morning["members"], 8);
  const std::vector<std::string> order{"now", "soon", "watch", "leave"};
  EXPECT_TRUE(std::ranges::is_sorted(morning["grafts"], {}, [&](const json& graft) {
    return std::ranges::find(order, graft["urgency"].get<std::string>()) - order.begin();
  }));
  for (const json& graft : morning["grafts"]) {
    EXPECT_LE(graft["risk"]["low"], graft["risk"]["high"]);
    EXPECT_FALSE(graft["coming"].empty());
  }
}

TEST(Morning, SaysWhatStandsInBeyondTheForecast) {
  const SmallSite site;
  const json gaps = answer(site, {"morning"}, "morning")["weather"]["gaps"];
  EXPECT_TRUE(std::ranges::any_of(gaps, [](const json& gap) { return gap["filled_by"] == "last-week"; }));
  EXPECT_THAT(site.run({"morning"}).out, HasSubstr("the last known week again"));
}

TEST(Morning, KnowsNothingOfLaterForecastsAndLogs) {
  const SmallSite site;
  const auto at = [&](std::vector<std::string> more) {
    std::vector<std::string> words{"morning", "--at", "2025-06-09T12:00"};
    words.insert(words.end(), more.begin(), more.end());
    return answer(site, words, "morning");
  };
  const json then = at({});
  EXPECT_EQ(then["weather"]["measured_until"], "2025-06-09T10:00:00Z");
  EXPECT_TRUE(then["weather"]["forecast_until"].is_null());
  EXPECT_EQ(then["grafts"].size(), 3U);  // C1 was made that evening.
  EXPECT_EQ(at({"--hindsight"})["weather"]["forecast_until"], "2025-06-13T22:00:00Z");
}

TEST(Morning, GivesTheSameBytesForTheSameSeedOnAnyNumberOfThreads) {
  const SmallSite site;
  const std::string one = site.run({"morning", "--json", "--threads", "1"}).out;
  EXPECT_THAT(one, Not(IsEmpty()));
  EXPECT_EQ(site.run({"morning", "--json", "--threads", "2"}).out, one);
  EXPECT_EQ(site.run({"morning", "--json", "--threads", "2"}).out, one);
  EXPECT_NE(site.run({"morning", "--json", "--seed", "2"}).out, one);
}

TEST(Morning, WritesNothing) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  EXPECT_EQ(site.run({"morning"}).exit_code, 0);
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(Morning, LooksNoFurtherThanTheHorizon) {
  const SmallSite site;
  const json near = answer(site, {"morning", "--horizon", "2"}, "morning");
  for (const json& graft : near["grafts"]) {
    EXPECT_EQ(graft["risk"]["horizon_days"], 2);
    EXPECT_LE(graft["coming"].size(), 3U);  // Two days from six in the morning touch three calendar days.
  }
}

TEST(Morning, ExplainsAListWithoutGrafts) {
  const SmallSite site;
  site.write("grafts.csv", "id,grafted_on,species,method\n");
  site.write("diary.csv", "when,graft,event,value,comment\n");
  const Said said = site.run({"morning"});
  EXPECT_EQ(said.exit_code, 0);
  EXPECT_THAT(said.out, HasSubstr("No graft is open"));
  EXPECT_THAT(answer(site, {"morning"}, "morning")["grafts"], IsEmpty());
}

TEST(Morning, KeepsItsWarningsOffStandardOutput) {
  const SmallSite site;
  site.replace("weather/station.csv", ",77,", ",130,");
  const Said said = site.run({"morning"});
  EXPECT_EQ(said.exit_code, 0);
  EXPECT_THAT(said.err, StartsWith("graftcast: "));
  EXPECT_THAT(said.err, HasSubstr("weather/station.csv"));
  EXPECT_THAT(said.out, Not(HasSubstr("graftcast: ")));
}

TEST(Since, CountsByTheRuleThatIsAskedFor) {
  const SmallSite site;
  const json since = answer(
      site, {"since", "A1", "--method", "sine", "--base", "5", "--upper", "30", "--cutoff", "vertical"},
      "since");
  ASSERT_EQ(since["grafts"].size(), 1U);
  EXPECT_EQ(since["grafts"][0]["method"], "sine");
  EXPECT_EQ(since["grafts"][0]["base_c"], 5);
  EXPECT_EQ(since["grafts"][0]["cutoff"], "vertical");
  EXPECT_GT(since["grafts"][0]["degree_days"], 80);  // Eight days of about 20 degC above 5 degC.
  EXPECT_LT(since["grafts"][0]["degree_days"], 150);
  EXPECT_EQ(answer(site, {"since"}, "since")["grafts"].size(), 4U);
}

TEST(Since, CountsByEveryMethodAndCutOffThatIsNamed) {
  const SmallSite site;
  const json graft = answer(
      site,
      {"since", "A1", "--method", "sine", "--method", "hourly", "--cutoff", "none", "--cutoff", "vertical"},
      "since")["grafts"][0];
  ASSERT_EQ(graft["counts"].size(), 4U);
  EXPECT_EQ(graft["counts"][0]["degree_days"], graft["degree_days"]);
  EXPECT_EQ(graft["counts"][3]["method"], "hourly");
  EXPECT_EQ(graft["counts"][3]["cutoff"], "vertical");
  EXPECT_LE(graft["counts"][3]["degree_days"], graft["counts"][2]["degree_days"]);
}

TEST(Since, ShowsEveryAttemptOnOneStock) {
  const SmallSite site;
  site.write("grafts.csv",
             "id,grafted_on,scion,species,method,stock,replaces,spot\n"
             "A1,2025-06-01,Millrace,apple,cleft,old pear,,bench\n"
             "A2,2025-06-08,Red Pith,apple,cleft,,A1,bench\n"
             "B1,2025-06-08,Red Pith,apple,cleft,pot 7,,bench\n");
  site.write("diary.csv", "when,graft,event,value,comment\n2025-06-07T09:00,A1,dead,,\n");
  const json since = answer(site, {"since", "--stock", "old pear"}, "since");
  ASSERT_EQ(since["stock"]["attempts"].size(), 2U);
  EXPECT_EQ(since["stock"]["attempts"][0]["outcome"], "lost");
  EXPECT_EQ(since["stock"]["attempts"][0]["replaced_by"], "A2");
  EXPECT_EQ(since["stock"]["attempts"][1]["outcome"], "open");
  EXPECT_EQ(since["grafts"].size(), 2U);
  EXPECT_EQ(since["grafts"][0]["verdict"], "re-graft");
  EXPECT_TRUE(since["grafts"][0]["worth"].is_null());
  EXPECT_EQ(since["grafts"][1]["verdict"], "wait");
  EXPECT_THAT(site.run({"since", "--stock", "old pear"}).out, HasSubstr("2 attempts"));
  const Said unknown = site.run({"since", "--stock", "old pera"});
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_THAT(unknown.err, HasSubstr("did you mean old pear"));
  EXPECT_EQ(site.run({"since", "A1", "--stock", "old pear"}).exit_code, 2);
}

TEST(Since, WeighsByTheOwnersCosts) {
  const SmallSite site;
  site.replace("site.json", "\"supplies\"", "\"costs\": {\"graft\": 0.4}, \"supplies\"");
  const json worth = answer(site, {"since", "A1"}, "since")["grafts"][0]["worth"];
  EXPECT_EQ(worth["costs"]["graft"], 0.4);
  EXPECT_TRUE(worth["look"].is_null());  // Not before week three.
  site.replace("site.json", "\"graft\": 0.4", "\"grafts\": 0.4");
  const Said said = site.run({"since", "A1"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("did you mean graft"));
}

TEST(Since, TellsHowLongWoodInStoreKeeps) {
  const SmallSite site;
  site.write("wood.csv",
             "id,scion,species,cut_on,stored,wrap,count,comment\n"
             "W1,Millrace,apple,2025-06-02,none,,4,\n"
             "W2,Red Pith,,2025-06-09,fridge,,2,\n");
  const SmallSite plain;
  site.replace("grafts.csv", "A1,2025-06-03,Millrace", "A1,2025-06-03,W1");
  const json since = json::parse(site.run({"since", "--json"}).out);
  ASSERT_EQ(since["wood"].size(), 2U);
  EXPECT_EQ(since["wood"][0]["limit"], "drying");
  EXPECT_LT(since["wood"][0]["use_by"], "2025-06-11");
  EXPECT_TRUE(since["wood"][1]["use_by"].is_null());  // Its species is not known, and that is said.
  EXPECT_THAT(since["warnings"].dump(), HasSubstr("use_by is null for W2"));
  // A graft of dried wood stands worse than one of fresh.
  const json dried = since["grafts"][0]["days"][0],
             fresh = answer(plain, {"since", "A1"}, "since")["grafts"][0]["days"][0];
  EXPECT_LT(dried["water"], fresh["water"]);
  EXPECT_THAT(site.run({"since"}).out, HasSubstr("no longer worth using since"));
}

TEST(Morning, ListsTheWorkThatIsDueOnALineOfItsOwn) {
  const SmallSite site;
  site.write("grafts.csv",
             "id,grafted_on,scion,species,method,stock,spot,wrap,cover\n"
             "A1,2025-04-10,Millrace,apple,cleft,row A,bench,film,none\n"
             "A2,2025-04-10,Millrace,apple,cleft,row A,bench,film,none\n");
  site.write("diary.csv", "when,graft,event,value,comment\n2025-06-05,A1,taken,,\n");
  const json morning = answer(site, {"morning"}, "morning");
  const auto suckers =
      std::ranges::find_if(morning["also_due"], [](const json& due) { return due["task"] == "rub-suckers"; });
  ASSERT_NE(suckers, morning["also_due"].end()) << morning["also_due"];
  EXPECT_EQ((*suckers)["ids"], json({"A1", "A2"}));
  EXPECT_THAT(site.run({"morning"}).out, HasSubstr("rub off the suckers"));
  site.write("diary.csv",
             "when,graft,event,value,comment\n2025-06-05,A1,taken,,\n2025-06-10,*,suckers-rubbed,,\n");
  EXPECT_THAT(site.run({"morning"}).out, Not(HasSubstr("rub off the suckers")));
}

TEST(When, WaitsForAStockThatWasSeenToBleed) {
  const SmallSite site;
  const std::vector<std::string> ask{"when", "--species", "fig", "--method", "chip", "--days", "2"};
  EXPECT_THAT(site.run(ask).out, Not(HasSubstr("bleeding")));
  site.write("diary.csv", "when,graft,event,value,comment\n2025-06-10T09:00,C1,bleeding,,\n");
  const json answers = answer(site, ask, "when");
  EXPECT_THAT(answers.dump(), HasSubstr("seen bleeding on Tue 10 Jun"));
  EXPECT_THAT(answers.dump(), HasSubstr("\"verdict\":\"wait\""));
}

TEST(Since, OffersTheNearestIdForOneThatIsNotThere) {
  const SmallSite site;
  const Said said = site.run({"since", "A2"});
  EXPECT_EQ(said.exit_code, 2);
  EXPECT_THAT(said.err, HasSubstr("did you mean A1"));
}

TEST(Since, ShowsDaysOnRequest) {
  const SmallSite site;
  EXPECT_THAT(site.run({"since", "A1"}).out, Not(HasSubstr("deg-days")));
  EXPECT_THAT(site.run({"since", "A1", "--days"}).out, HasSubstr("deg-days"));
}

TEST(WeatherShow, GivesDaysAndHours) {
  const SmallSite site;
  const json days = answer(site, {"weather", "show"}, "weather-show");
  EXPECT_EQ(days["days"].size(), 13U);
  EXPECT_EQ(days["days"][0]["hours"], 24);
  EXPECT_EQ(days["days"][0]["sources"]["air_temperature"], "measured");
  EXPECT_EQ(days["days"][12]["sources"]["air_temperature"], "forecast");
  const json hours = answer(
      site, {"weather", "show", "--hourly", "--from", "2025-06-03", "--to", "2025-06-04"}, "weather-show");
  EXPECT_EQ(hours["hours"].size(), 48U);
  EXPECT_EQ(hours["hours"][0]["time"], "2025-06-02T22:00:00Z");
}

TEST(WeatherShow, ShowsWhatIsAskedForOnly) {
  const SmallSite site;
  const Said said = site.run({"weather", "show", "--from", "2025-06-03", "--to", "2025-06-04"});
  EXPECT_THAT(said.out, HasSubstr("2025-06-03"));
  EXPECT_THAT(said.out, HasSubstr("2025-06-04"));
  EXPECT_THAT(said.out, Not(HasSubstr("2025-06-05")));
  EXPECT_EQ(site.run({"weather", "show", "--from", "2025-06-05", "--to", "2025-06-04"}).exit_code, 2);
}

TEST(WeatherShow, SaysHowToBringInALog) {
  const SmallSite site;
  site.write(
      "site.json",
      R"({"format": 1, "name": "x", "latitude": 1, "longitude": 1, "elevation_m": 1, "time_zone": "UTC"})");
  EXPECT_THAT(site.run({"weather", "show", "--width", "200"}).out, HasSubstr("graftcast weather add FILE"));
  EXPECT_THAT(answer(site, {"weather", "show"}, "weather-show")["days"], IsEmpty());
}

TEST(Models, AreListedShownAndChecked) {
  const SmallSite site;
  EXPECT_THAT(site.run({"models"}).out, HasSubstr("whip-and-tongue"));
  EXPECT_THAT(site.run({"models", "show", "avocado"}).out, HasSubstr("callus_optimum_c = "));
  EXPECT_THAT(site.run({"models", "check"}).out, HasSubstr("complete and in range"));
  EXPECT_EQ(answer(site, {"models", "list"}, "models")["methods"].size(), 11U);
  EXPECT_EQ(answer(site, {"models", "show", "avocado"}, "models")["species"].size(), 1U);
  const Said unknown = site.run({"models", "show", "avocadoo"});
  EXPECT_EQ(unknown.exit_code, 2);
  EXPECT_THAT(unknown.err, HasSubstr("did you mean avocado"));
}

TEST(Models, OfTheOwnerAreUsedAndChecked) {
  const SmallSite site;
  site.write("models/own.json",
             R"({"format": 1, "species": [{"name": "quandong", "title": "Quandong", "like": "citrus"}]})");
  EXPECT_THAT(site.run({"models", "list"}).out, HasSubstr("quandong"));
  EXPECT_EQ(site.run({"graft", "--species", "quandong", "--method", "cleft"}).exit_code, 0);
  site.write("models/own.json", R"({"format": 1, "species": [{"name": "quandong", "title": "Quandong"}]})");
  const Said said = site.run({"models", "check"});
  EXPECT_EQ(said.exit_code, 65);
  EXPECT_THAT(said.err, HasSubstr("models/own.json:1:"));
}

TEST(Why, ExplainsALossAndTeachesWhenAsked) {
  const SmallSite site;
  ASSERT_EQ(site.run({"note", "C1", "dead"}).exit_code, 0);
  const json why = answer(site, {"why", "C1"}, "why");
  EXPECT_EQ(why["graft"]["outcome"], "lost");
  double shares = 0;
  for (const json& share : why["shares"])
    if (share["cause"] != "not_weather") shares += share["share"].get<double>();
  EXPECT_NEAR(shares, why["loss"]["p"].get<double>() - why["loss"]["harmless"].get<double>(), 0.006);
  EXPECT_EQ(why["days"].front()["day"], "2025-06-09");
  EXPECT_FALSE(why.contains("lesson"));
  EXPECT_FALSE(answer(site, {"why", "C1", "--teach"}, "why")["lesson"].empty());
  EXPECT_THAT(site.run({"why", "C1", "--teach"}).out, HasSubstr("Shapley 1953"));
}

TEST(Why, OfALivingGraftSaysThatItIsNotLost) {
  const SmallSite site;
  EXPECT_EQ(answer(site, {"why", "A1"}, "why")["graft"]["outcome"], "open");
  const Said said = site.run({"why", "A1"});
  EXPECT_THAT(said.out, HasSubstr("not noted as lost"));
  EXPECT_THAT(said.err, HasSubstr("not noted as lost"));
}

TEST(Why, GroupsAllLosses) {
  const SmallSite site;
  EXPECT_EQ(answer(site, {"why", "--all-lost"}, "why")["lost"], 0);
  ASSERT_EQ(site.run({"note", "A1", "dead", "2"}).exit_code, 0);
  ASSERT_EQ(site.run({"note", "C1", "dead"}).exit_code, 0);
  const json losses = answer(site, {"why", "--all-lost"}, "why");
  EXPECT_EQ(losses["lost"], 4);
  EXPECT_EQ(losses["losses"].size(), 2U);
  EXPECT_LE(losses["changes"].size(), 2U);
}

TEST(Why, IsAskedOfOneGraftOrOfAllLosses) {
  const SmallSite site;
  for (const std::vector<std::string>& words : {std::vector<std::string>{"why"},
                                                {"why", "A1", "--all-lost"},
                                                {"why", "--all-lost", "--teach"},
                                                {"why", "A2"}}) {
    const Said said = site.run(words);
    EXPECT_EQ(said.exit_code, 2);
    EXPECT_THAT(said.out, IsEmpty());
  }
  EXPECT_THAT(site.run({"why", "A2"}).err, HasSubstr("A1"));
}

TEST(Why, GivesTheSameBytesOnAnyNumberOfThreads) {
  const SmallSite site;
  const std::string one = site.run({"why", "B1", "--json", "--threads", "1"}).out;
  EXPECT_EQ(site.run({"why", "B1", "--json", "--threads", "2"}).out, one);
}

}  // namespace
}  // namespace graftcast
