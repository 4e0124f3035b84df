// The page: safe text, charts, structure.

#include "graftcast/page.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "html_check.hpp"
#include "page_chart.hpp"
#include "page_days.hpp"
#include "page_markup.hpp"
#include "sample_reports.hpp"

namespace graftcast {
namespace {

using ::testing::Each;
using ::testing::HasSubstr;
using testing::HtmlCheck;
using ::testing::IsEmpty;
using ::testing::Not;

constexpr std::string_view hostile =
    "<script>alert(\"x\")</script> O'Neil & \"Söhne\" \u202Eright to left\u202C --> ]]> {{x}}";

PageLevels sample_levels() {
  PageLevels levels;
  levels.lost_water = 0.79;
  levels.heat_limit_c = {34, 36, 38, 42, 45};
  return levels;
}

/// `past` days of a graft behind the ninth of June, a hot dry one every fifth day, and a hundred ahead.
GraftSince course_of_days(std::string id, int past) {
  GraftSince graft = testing::sample_since().grafts.front();
  graft.id = std::move(id);
  graft.days.clear();
  for (int i = 0; i < past + 100; ++i) {
    SinceDay day;
    day.day = testing::day_of_june(9) - std::chrono::days(past - 1 - i);
    day.ahead = i >= past;
    day.tissue_max_c = 28 + i % 5 * 3;
    day.air_max_c = 25 + i % 5;
    day.healing = day.healing_low = day.healing_high = 0.02 * i;
    day.water = day.water_low = day.water_high = 1 - 0.002 * i;
    if (i % 5 == 4) day.flags = {"heat", "drying"};
    graft.days.push_back(std::move(day));
  }
  return graft;
}

PageContent sample_content(int past = 20) {
  PageContent content;
  content.morning = testing::sample_morning();
  for (const GraftMorning& graft : content.morning.grafts) {
    content.since.grafts.push_back(course_of_days(graft.id, past));
    content.levels[graft.id] = sample_levels();
  }
  return content;
}

std::string sample_page(const PageContent& content) {
  return page_html(content, testing::sample_basis("page"), {});
}

TEST(HtmlText, IsTextWithinAnElementAndWithinQuotes) {
  EXPECT_EQ(html_text("<b a=\"1\" c='2'>&amp;"), "&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;amp;");
  EXPECT_EQ(html_text("Birne Köstliche 梨"), "Birne Köstliche 梨");
  EXPECT_EQ(html_text("a\nb\tc\x01"), "a\uFFFDb\uFFFDc\uFFFD");
  EXPECT_EQ(html_text("\xC3("), "\uFFFD");
}

TEST(HtmlText, HoldsNoMarkupWhateverTheBytes) {
  std::string text;
  unsigned state = 7;
  for (int i = 0; i < 20000; ++i) {
    state = state * 1664525U + 1013904223U;
    text += static_cast<char>(32 + state % 95);
  }
  EXPECT_THAT(html_text(text), Each(Not(::testing::AnyOf('<', '>', '"', '\''))));
}

TEST(HtmlText, OfASentenceHasTheSignOfDegrees) {
  EXPECT_EQ(html_sentence("up to 46.2 degC in the sun, 9 degF"), "up to 46.2 \u00b0C in the sun, 9 \u00b0F");
  EXPECT_EQ(html_sentence("to this degCrée"), "to this degCrée");
}

// The hash of no bytes, FIPS 180-4 (recalled: e3b0c442... ), in base64 computed with coreutils.
TEST(PolicyHash, IsTheHashInBase64) {
  EXPECT_EQ(policy_hash("e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855"),
            "'sha256-47DEQpj8HBSa+/TImW+5JCeuQeRkm5NMpJWZG3hSuFU='");
  EXPECT_THROW(policy_hash("e3b0"), RangeError);
  EXPECT_THROW(policy_hash(std::string(64, 'x')), RangeError);
}

TEST(RoundValues, AreAFewWithinTheRange) {
  for (const auto& [low, high] :
       {std::pair{18.3, 51.2}, {0.0, 1.03}, {0.55, 1.0}, {-8.0, 112.0}, {3.0, 4.5}}) {
    const std::vector<double> values = round_values(low, high);
    EXPECT_GE(values.size(), 2U) << low << ' ' << high;
    EXPECT_LE(values.size(), 6U) << low << ' ' << high;
    EXPECT_GE(values.front(), low - 1e-9);
    EXPECT_LE(values.back(), high + 1e-9);
  }
}

TEST(DayChart, PutsHigherValuesHigherAndLaterDaysFurtherRight) {
  const DayChart chart(30, 20, 10, 50, 100);
  EXPECT_GT(chart.y(20), chart.y(40));
  EXPECT_LT(chart.x(3), chart.x(4));
  EXPECT_GE(chart.x(0), chart_left);
  EXPECT_LE(chart.x(29), chart_right);
  EXPECT_EQ(chart.y(1000), chart.y(50));  // Never out of the frame.
}

TEST(DayChart, DashesWhatIsComingOnly) {
  const auto drawn = [](std::size_t ahead) {
    DayChart chart(10, ahead, 0, 1, 50);
    chart.course([](std::size_t) { return 0.5; }, "t");
    return chart.svg("x");
  };
  EXPECT_THAT(drawn(10), Not(HasSubstr("\"t f\"")));
  EXPECT_THAT(drawn(6), ::testing::AllOf(HasSubstr("\"t f\""), HasSubstr("\"t\"")));
  EXPECT_THAT(drawn(0), ::testing::AllOf(HasSubstr("\"t f\""), Not(HasSubstr("\"t\""))));
}

TEST(DayChart, TicksEachMarkedDay) {
  DayChart chart(8, 5, 0, 1, 50);
  const std::vector<std::string> labels{"1", "2", "3", "4", "5", "6", "7", "8"};
  chart.ticks("heat", {true, false, true, false, false, false, true, false}, labels);
  const std::string svg = chart.svg("x");
  std::size_t ticks = 0;
  for (std::size_t at = svg.find("v9"); at != std::string::npos; at = svg.find("v9", at + 1)) ++ticks;
  EXPECT_EQ(ticks, 3U);
  for (const char* label : {">1<", ">3<", ">7<"}) EXPECT_THAT(svg, HasSubstr(label));
  EXPECT_THAT(svg, Not(HasSubstr(">2<")));
}

TEST(ChartDays, EndAFewDaysAheadAndAreNoMoreThanAChartCanShow) {
  for (const int past : {1, 20, 90, 150, 700}) {
    const std::vector<ChartDay> days =
        chart_days(course_of_days("X", past), sample_levels(), testing::day_of_june(9));
    EXPECT_LE(days.size(), most_chart_days) << past;
    EXPECT_EQ(days.back().day, testing::day_of_june(9) + std::chrono::days(page_chart_days));
    int all = 0;
    for (const ChartDay& day : days) all += day.days;
    EXPECT_EQ(all, past + page_chart_days) << past;
  }
}

TEST(ChartDays, KeepTheWorstOfTheDaysTheyJoin) {
  const std::vector<ChartDay> days =
      chart_days(course_of_days("X", 700), sample_levels(), testing::day_of_june(9));
  ASSERT_GT(days.front().days, 4);
  EXPECT_DOUBLE_EQ(days.front().tissue_c, 40);
  EXPECT_TRUE(days.front().has("heat"));
  EXPECT_DOUBLE_EQ(days.front().healing, 0.02 * (days.front().days - 1));
}

TEST(Page, NestsAndLeadsNowhereElse) {
  const std::string html = sample_page(sample_content());
  const HtmlCheck check(html);
  EXPECT_THAT(check.complaints(), IsEmpty());
  EXPECT_EQ(check.count("article"), 5U);
  EXPECT_EQ(check.count("svg"), 15U);
  EXPECT_EQ(check.count("table"), 15U);
  EXPECT_EQ(check.count("script"), 1U);
  EXPECT_THAT(html, Not(HasSubstr("http://")));
  EXPECT_THAT(html, Not(HasSubstr("https:")));
  EXPECT_THAT(html, Not(HasSubstr("url(")));
  EXPECT_THAT(html, HasSubstr("default-src 'none'"));
  EXPECT_THAT(html, HasSubstr("<html lang=\"en\">"));
}

TEST(Page, OfNoGraftAndOfNoWeatherSaysSo) {
  const std::string html = sample_page({});
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(html, HasSubstr("No graft is open"));
}

TEST(Page, ShowsHostileNamesAsText) {
  const std::string long_name(500, 'w');
  PageContent content = sample_content();
  for (GraftMorning& graft : content.morning.grafts) {
    graft.scion = hostile;
    graft.rootstock = long_name;
    graft.spot = hostile;
    graft.advice.text = hostile;
    graft.reasons = {std::string(hostile)};
  }
  content.morning.plan.assigned = {
      {"N1", "shade", std::string(hostile), 1, 0.5, 0.1, 1, {}, 1, std::string(hostile)}};
  content.morning.plan.unserved = {std::string(hostile)};
  ReportBasis basis = testing::sample_basis("page");
  basis.site = hostile;
  basis.warnings = basis.cautions = basis.weather.credits = {std::string(hostile)};
  const std::string html = page_html(content, basis, {});
  const HtmlCheck check(html);
  EXPECT_THAT(check.complaints(), IsEmpty());
  EXPECT_EQ(check.count("script"), 1U);
  EXPECT_THAT(html, HasSubstr("<bdi class=\"nm\">&lt;script&gt;"));
  EXPECT_THAT(html, HasSubstr(long_name));
}

TEST(Page, ListsWhatIsUrgentFirstWithABoxToTick) {
  const std::string html = sample_page(sample_content());
  const std::size_t now = html.find("<li class=\"now\">"), soon = html.find("<li class=\"soon\">"),
                    watch = html.find("<li class=\"watch\">");
  ASSERT_NE(watch, std::string::npos);
  EXPECT_LT(now, soon);
  EXPECT_LT(soon, watch);
  EXPECT_LT(html.find("Shade it (50 % cloth), by today 20:00."), soon);
  EXPECT_EQ(html.find("<li class=\"leave\">"), std::string::npos);
  EXPECT_THAT(html, HasSubstr("class=\"tick\" id=\"t0\" aria-label=\"N1 done\""));
}

TEST(Page, HasNotesThatCanBeReadWithoutItsScript) {
  const std::string html = sample_page(sample_content());
  for (const char* note : {"N1 green", "S1 dead", "L2 watered", "* watered"}) {
    EXPECT_THAT(html, HasSubstr("<span>" + std::string(note) + "</span>")) << note;
    EXPECT_THAT(html, HasSubstr("value=\"" + std::string(note) + "\"")) << note;
  }
  EXPECT_THAT(html, HasSubstr("data-zone=\"Europe/Madrid\""));
}

TEST(Page, TellsTheLevelAtWhichHalfAreLostAndTheHottestDay) {
  const std::string html = sample_page(sample_content());
  EXPECT_THAT(html, HasSubstr("At 79 % half are lost."));
  EXPECT_THAT(html, HasSubstr("up to 40 \u00b0C in the tissue"));
  EXPECT_THAT(page_html(sample_content(), testing::sample_basis("page"), {.units = UnitSystem::us}),
              HasSubstr("up to 104 \u00b0F in the tissue"));
}

TEST(Page, ExplainsLossesWhereAsked) {
  PageContent content = sample_content();
  EXPECT_THAT(sample_page(content), Not(HasSubstr("id=\"lost\"")));
  content.losses =
      WhyLosses{"2024/25", 4, {testing::sample_why()}, {}, {{"shade", "shade them", 2.4, 2.4, {"N1"}}}};
  const std::string html = sample_page(content);
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(html, HasSubstr("4 of 6 lost by Sun 8 Jun. First of all sun on the cover"));
  EXPECT_THAT(html, HasSubstr("shade them: would have saved 2.4 of them"));
}

TEST(Page, StaysBelowFortyThousandBytesAGraft) {
  const PageContent few = sample_content(90);
  PageContent many = few;
  for (int i = 0; i < 20; ++i) {
    many.morning.grafts.push_back(testing::sample_graft("M" + std::to_string(i), Urgency::now));
    many.since.grafts.push_back(course_of_days("M" + std::to_string(i), 90));
    many.levels["M" + std::to_string(i)] = sample_levels();
  }
  EXPECT_LT(sample_page(many).size() - sample_page(few).size(), 20U * 40000U);
}

}  // namespace
}  // namespace graftcast
