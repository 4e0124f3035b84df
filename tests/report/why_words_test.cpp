// Every fact of `why`, `when` and `spots` has its sentence, in the reader's units.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/sample_reports.hpp"
#include "words/learn_words.hpp"
#include "words/lesson_words.hpp"
#include "words/spot_words.hpp"
#include "words/when_words.hpp"
#include "words/why_words.hpp"

namespace graftcast {
namespace {

using testing::day_of_june;
using ::testing::HasSubstr;
using ::testing::Not;

std::string metric(const CulpritFact& fact) {
  return culprit_fact_words(fact, UnitSystem::metric);
}

TEST(CulpritFactWords, TellTheDayInTheReadersUnits) {
  const CulpritFact fact = SunHeatedCover{day_of_june(6), "clear-bag", 47.1, 33};
  EXPECT_EQ(metric(fact),
            "in its clear bag the tissue got to 47.1 degC on Fri 6 Jun, 14 K hotter than the air");
  EXPECT_EQ(culprit_fact_words(fact, UnitSystem::us),
            "in its clear bag the tissue got to 117 degF on Fri 6 Jun, 25 degF hotter than the air");
  EXPECT_EQ(metric(HotTissue{day_of_june(6), "none", 47.1, 33}),
            "tissue up to 47.1 degC in the open on Fri 6 Jun, air 33.0 degC");
  EXPECT_EQ(metric(ColdTissue{day_of_june(6), -3, -2}),
            "tissue down to -3.0 degC on Fri 6 Jun, air -2.0 degC");
}

TEST(CulpritFactWords, NameAllThatWasLacking) {
  LackOfCover lack;
  EXPECT_EQ(metric(lack), "wrap or cover came off before the vessels joined");
  lack = {"none", "film", false, false, "none", "clear-bag"};
  EXPECT_EQ(metric(lack), "wrap none where film is usual; cover none where clear-bag is usual");
  EXPECT_EQ(metric(LackOfCover{{}, {}, true, true, {}, {}}), "the cut tip open; the chip's edges open");
}

TEST(CulpritFactWords, SayWhatIsAssumed) {
  const ShortOfWater noted{2, 9, day_of_june(6), 0.4, false}, assumed{2, 9, day_of_june(6), 0.4, true};
  EXPECT_EQ(metric(noted),
            "the stock was short of water on 2 of 9 days; on Fri 6 Jun it gave 40 % of what was asked");
  EXPECT_THAT(metric(assumed), HasSubstr("(weekly watering assumed)"));
}

TEST(CulpritFactWords, AreEmptyOnlyWhereThereIsNoFact) {
  EXPECT_EQ(metric({}), "");
  EXPECT_EQ(metric(BudsAhead{day_of_june(6), {}}), "buds moved on Fri 6 Jun, vessels joined not by then");
  EXPECT_EQ(metric(PoorMatch{0.4, false}), "40 % of the cambium met");
  EXPECT_EQ(metric(PoorMatch{{}, true}), "the cambium met on one side only");
  EXPECT_EQ(metric(SlowCallus{0.4, 12, 9, 25}),
            "40 % of the callus bridge in 12 days; 9 days make it at 25.0 degC");
}

TEST(LessonSteps, AddUpTheSharesAndNameTheirSources) {
  const auto steps = lesson_steps(testing::sample_why(), Clock("Europe/Madrid"), UnitSystem::metric);
  ASSERT_EQ(steps.size(), 10U);
  EXPECT_THAT(steps[0].text, HasSubstr("64 members"));
  EXPECT_THAT(steps[5].text,
              HasSubstr("with it alone: heat 4 and 5 %; sun on the cover 2 and 3 %. As it was"));
  EXPECT_THAT(steps[6].text, HasSubstr("whole: heat +0.42, sun on the cover +0.41, together +0.80."));
  EXPECT_THAT(steps[7].text, HasSubstr("Noted blackened on Sat 7 Jun (Suddenly dark brown or black)"));
  EXPECT_EQ(steps[7].sources.at(1), "not the weather: an invented source (grade C)");
  GraftWhy without = testing::sample_why();
  without.lesson.reset();
  EXPECT_TRUE(lesson_steps(without, Clock("Europe/Madrid"), UnitSystem::metric).empty());
}

TEST(WhenGroundWords, GiveThePercentagesOfTheVerdict) {
  EXPECT_EQ(when_ground_words(TakesUnderCover{0.81, 0.4}),
            "81 % take this week with paper over a bag and shade, 40 % without");
  EXPECT_THAT(when_ground_words(StockBleeds{day_of_june(6)}), HasSubstr("seen bleeding on Fri 6 Jun"));
  EXPECT_EQ(verdict_of(StockBleeds{}), WhenVerdict::wait);
  EXPECT_EQ(verdict_of(TakesUnderCover{}), WhenVerdict::graft_with_cover);
}

TEST(ShareDoubtWords, GiveTheHoursThatAreMissing) {
  SpotFit fit;
  fit.sunny_hours = 12;
  fit.least_sunny_hours = 30;
  EXPECT_EQ(share_doubt_words(ShareDoubt::few_sunny_hours, fit),
            "only 12 hours have sun in the open, 30 are needed");
}

TEST(ShiftsWords, GiveFactorsWithTheirRange) {
  const LearnedShifts shifts{{0.1, -0.2, 0}, {0.05, 0.05, 0.1}, 1};
  const std::string words = shifts_words("citrus", shifts);
  EXPECT_THAT(words, HasSubstr("citrus, 1 outcome: heals 11 % faster (2 % faster to 20 % faster)"));
  EXPECT_THAT(words, HasSubstr("dries 18 % slower"));
  EXPECT_THAT(words, Not(HasSubstr("  ")));
  EXPECT_EQ(base_words(-2, UnitSystem::us), "3.6 degF lower");
}

}  // namespace
}  // namespace graftcast
