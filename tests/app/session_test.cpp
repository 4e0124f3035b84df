// A session tells what a fresh one tells, and works out no more than what has changed.

#include "graftcast/session.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include <nlohmann/json.hpp>

#include "report/json_report.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {
namespace {

constexpr Instant morning_of_the_sample =
    std::chrono::sys_days{std::chrono::June / 9 / 2025} + std::chrono::hours(4) + std::chrono::minutes(30);
constexpr AskSettings few{.members = 16, .threads = 2};

/// A copy of the sample site that can be written to.
class SampleCopy {
 public:
  SampleCopy() {
    std::filesystem::copy(GRAFTCAST_SOURCE_DIR "/sample_weather/site", path(),
                          std::filesystem::copy_options::recursive);
  }
  std::filesystem::path path() const { return folder_.path() / "site"; }
  void note(const std::string& line) const {
    std::ofstream(path() / "diary.csv", std::ios::app) << line << '\n';
  }

 private:
  TemporaryFolder folder_;
};

std::string told(const MorningReport& report) {
  ReportBasis basis;
  basis.command = "morning";
  return morning_json(report, basis).dump();
}

MorningReport fresh(const SampleCopy& site, Instant as_of) {
  return Session(site.path(), few).morning({.as_of = as_of});
}

TEST(Session, TellsTheListWithItsPlan) {
  const SampleCopy site;
  Session session(site.path(), few);
  const MorningReport report = session.morning({.as_of = morning_of_the_sample});
  EXPECT_GT(report.grafts.size(), 10U);
  EXPECT_FALSE(report.plan.assigned.empty());
  EXPECT_GE(session.worked_out(), report.grafts.size());
}

TEST(Session, AskedAgainWorksOutNothingAndTellsTheSame) {
  const SampleCopy site;
  Session session(site.path(), few);
  const std::string first = told(session.morning({.as_of = morning_of_the_sample}));
  EXPECT_EQ(told(session.morning({.as_of = morning_of_the_sample})), first);
  EXPECT_EQ(session.worked_out(), 0U);
}

TEST(Session, WorksOutTheGraftOfANoteAloneAndTellsWhatAFreshOneTells) {
  const SampleCopy site;
  Session session(site.path(), few);
  const std::string before = told(session.morning({.as_of = morning_of_the_sample}));
  site.note("2025-06-09T06:20,C2,bag-on,,");
  const Instant later = morning_of_the_sample + std::chrono::minutes(5);
  const std::string after = told(session.morning({.as_of = later}));
  EXPECT_EQ(session.worked_out(), 1U);
  EXPECT_NE(after, before);
  EXPECT_EQ(after, told(fresh(site, later)));
}

TEST(Session, WorksOutAllWhenTheHourTheWeatherOrTheSiteChanges) {
  const SampleCopy site;
  Session session(site.path(), few);
  session.morning({.as_of = morning_of_the_sample});
  const std::size_t rows = session.worked_out();
  session.morning({.as_of = morning_of_the_sample + std::chrono::hours(1)});
  EXPECT_EQ(session.worked_out(), rows);
  std::ofstream(site.path() / "weather" / "another.txt") << "new\n";
  session.morning({.as_of = morning_of_the_sample + std::chrono::hours(1)});
  EXPECT_EQ(session.worked_out(), rows);
}

TEST(Session, HasNothingToTellBeforeTheFirstGraft) {
  const SampleCopy site;
  Session session(site.path(), few);
  EXPECT_TRUE(
      session.morning({.as_of = std::chrono::sys_days{std::chrono::January / 1 / 2020}}).grafts.empty());
  EXPECT_FALSE(session.morning({.as_of = morning_of_the_sample}).grafts.empty());
}

TEST(Session, OfNoSiteSaysHowToStartOne) {
  const TemporaryFolder empty;
  Session session(empty.path(), few);
  EXPECT_THROW(session.morning(), OpenError);
}

}  // namespace
}  // namespace graftcast::testing
