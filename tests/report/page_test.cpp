// The page: safe text, charts, structure.

#include "report/page.hpp"

#include <cmath>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "html_check.hpp"
#include "page_chart.hpp"
#include "page_days.hpp"
#include "page_hours.hpp"
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
  levels.cold_limit_c = {-1, -1.5, -2, -2.5, -4};
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
    day.tissue_min_c = 12;
    day.healing = day.healing_low = day.healing_high = 0.02 * i;
    day.water = day.water_low = day.water_high = 1 - 0.002 * i;
    if (i % 5 == 4) day.flags = {DayFlag::heat, DayFlag::drying};
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

TEST(HtmlMarked, PutsElementsAroundPartsAndMarkupNowhereElse) {
  const std::string sentence =
      marked(Part::name, "<A&1>") + " is <b> " + marked(Part::strong, "Short:") + " 5 %";
  EXPECT_EQ(html_marked(sentence), "<bdi>&lt;A&amp;1&gt;</bdi> is &lt;b&gt; <b>Short:</b> 5\u00a0%");
  EXPECT_EQ(html_marked("\x02nnever ended"), "<bdi>never ended</bdi>");
  EXPECT_EQ(html_marked(marked(Part::name, "\x02n\x03x")), "<bdi>\uFFFDn\uFFFDx</bdi>");
  EXPECT_EQ(html_marked("\x02"), "");
}

TEST(HtmlText, OfASentenceHasTheSignOfDegrees) {
  EXPECT_EQ(html_sentence("up to 46.2 degC in the sun, 9 degF"),
            "up to 46.2\u00a0\u00b0C in the sun, 9\u00a0\u00b0F");
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

/// What the page's script makes of packed numbers, by the table in page_hours.hpp.
std::vector<int> unpacked(std::string_view text) {
  constexpr std::string_view left_out = "&'<>";
  std::string signs;
  for (char c = '#'; c <= '~'; ++c)
    if (left_out.find(c) == std::string_view::npos) signs += c;
  const auto number = [&](std::size_t at) { return static_cast<int>(signs.find(text.at(at))); };
  std::vector<int> numbers;
  int last = 0;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const int sign = number(i);
    int times = 1;
    if (sign <= 60) last += sign - 30;
    if (sign > 60 && sign < 87) times = sign - 59;
    if (sign == 87) {
      last += 61 * number(i + 1) + number(i + 2) - 1860;
      i += 2;
    }
    numbers.insert(numbers.end(), static_cast<std::size_t>(times), last);
  }
  return numbers;
}

TEST(PackedNumbers, AreReadBackAsTheyWere) {
  EXPECT_EQ(packed_numbers({}), "");
  unsigned state = 11;
  const auto draw = [&](int below) {
    state = state * 1664525U + 1013904223U;
    return static_cast<int>((state >> 8U) % static_cast<unsigned>(below));
  };
  for (int round = 0; round < 300; ++round) {
    std::vector<int> numbers;
    int last = draw(200) - 100;
    for (int i = draw(400); i > 0; --i) {
      if (draw(3) == 0) last += draw(5) == 0 ? draw(1000) - 500 : draw(9) - 4;
      numbers.insert(numbers.end(), static_cast<std::size_t>(draw(60) == 0 ? 80 : 1), last);
    }
    const std::string text = packed_numbers(numbers);
    EXPECT_EQ(unpacked(text), numbers);
    EXPECT_EQ(html_text(text), text);  // It may stand in an attribute as it is.
  }
}

TEST(PackedNumbers, TakeLittleRoomWhereNothingChanges) {
  EXPECT_LE(packed_numbers(std::vector<int>(2400, 100)).size(), 100U);
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
  EXPECT_TRUE(has(days.front().flags, DayFlag::heat));
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
    graft.stock = long_name;
    graft.spot = hostile;
    graft.advice.act = {.kind = ActKind::move, .to = std::string(hostile)};
    graft.reasons = {CellsAssumed{{std::string(hostile)}}};
  }
  const Act move{.kind = ActKind::move, .to = std::string(hostile)};
  content.morning.plan.assigned = {
      {"N1", move, 1, 0.5, 0.1, 1, {}, 1, DearerAct{move, 0.05, {std::string(hostile)}}}};
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
  EXPECT_LT(html.find("Shade it (50\u00a0% cloth), by today 20:00."), soon);
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
  EXPECT_THAT(html, HasSubstr("At 79\u00a0% half are lost."));
  EXPECT_THAT(html, HasSubstr("up to 40\u00a0\u00b0C in the tissue"));
  EXPECT_THAT(page_html(sample_content(), testing::sample_basis("page"), {.units = UnitSystem::us}),
              HasSubstr("up to 104\u00a0\u00b0F in the tissue"));
}

TEST(Page, ShowsTheColdLimitWhereColdComesNear) {
  PageContent content = sample_content();
  EXPECT_THAT(sample_page(content), Not(HasSubstr("cold limit")));
  for (SinceDay& day : content.since.grafts.front().days) day.tissue_min_c = 1.4;
  const std::string html = sample_page(content);
  EXPECT_THAT(html, HasSubstr(">cold limit</text>"));
  EXPECT_THAT(html, HasSubstr("Coldest: down to 1\u00a0\u00b0C"));
  EXPECT_THAT(html, HasSubstr("<th scope=\"col\">coldest<th scope=\"col\">cold limit"));
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
}

TEST(Page, HasABoxToTickForEachThingDueOnStockAndShoot) {
  PageContent content = sample_content();
  EXPECT_THAT(sample_page(content), Not(HasSubstr("id=\"due\"")));
  content.morning.also_due = {
      {{.work = CareWork::rub_suckers, .every_days = 14}, {"N1", "<b>"}, testing::day_of_june(7)}};
  const std::string html = sample_page(content);
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(html, HasSubstr("aria-label=\"rub-suckers done\""));
  EXPECT_THAT(html, HasSubstr("<bdi>N1</bdi> and <bdi>&lt;b&gt;</bdi> (since Sat 7 Jun)"));
  EXPECT_THAT(html, HasSubstr("Rub off the suckers below the union."));
}

TEST(Page, SaysHeatForPeopleAboveTheListAndOnce) {
  PageContent content = sample_content();
  content.heat = {"Heat for people tomorrow."};
  ReportBasis basis = testing::sample_basis("page");
  basis.cautions = {"Heat for people tomorrow.", "Mind the knife."};
  const std::string html = page_html(content, basis, {});
  EXPECT_LT(html.find("Heat for people tomorrow."), html.find("<ol class=\"list\">"));
  EXPECT_EQ(html.find("Heat for people tomorrow."), html.rfind("Heat for people tomorrow."));
  EXPECT_THAT(html, HasSubstr("<li>Mind the knife."));
}

TEST(Page, ShowsTheWeeksAheadForNewGrafts) {
  PageContent content = sample_content();
  EXPECT_THAT(sample_page(content), Not(HasSubstr("id=\"weeks\"")));
  WhenCandidate way;
  way.graft = {"citrus", "chip", "film", "none", "", 0, {}};
  for (unsigned i = 0; i < 14; ++i)
    way.days.push_back({testing::day_of_june(9 + i),
                        0.6 + 0.02 * i,
                        0.5,
                        0.9,
                        21.0,
                        i < 3 ? std::optional(Cause::heat) : std::nullopt,
                        {},
                        i < 8 ? StandIn::none : StandIn::last_week});
  way.best = 13;
  content.weeks = WhenReport{{{way, {}, BetterLater{0.6, 0.86, testing::day_of_june(22)}}}, {}};
  const std::string html = sample_page(content);
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(
      html,
      HasSubstr("<b>Wait:</b> 60\u00a0% take this week at best, 86\u00a0% from 2025-06-22 on. Best: Sun "
                "22 Jun, 86\u00a0%."));
  EXPECT_THAT(html, HasSubstr("<tr><th>Mon 9 Jun<td>60<td>50\u201390<td>21<td>heat<td>forecast"));
}

TEST(Page, ExplainsLossesWhereAsked) {
  PageContent content = sample_content();
  EXPECT_THAT(sample_page(content), Not(HasSubstr("id=\"lost\"")));
  content.losses =
      WhyLosses{"2024/25", 4, {testing::sample_why()}, {}, {{Act{.kind = ActKind::shade}, 2.4, 2.4, {"N1"}}}};
  const std::string html = sample_page(content);
  EXPECT_THAT(HtmlCheck(html).complaints(), IsEmpty());
  EXPECT_THAT(html, HasSubstr("4 of 6 lost by Sun 8 Jun. First of all sun on the cover"));
  EXPECT_THAT(html, HasSubstr("shade it (0\u00a0% cloth): would have saved 2.4 of them"));
}

/// Ninety days and those of the charts ahead, by the hour: up and down every day, no hour like the one
/// before.
SinceHours restless_hours(std::size_t graft) {
  SinceHours hours;
  hours.start = std::chrono::floor<std::chrono::hours>(testing::june(9, 4)) - std::chrono::days(89);
  for (std::size_t i = 0; i < 24 * (90 + page_chart_days); ++i) {
    const double turn = std::sin(static_cast<double>(i % 24 + graft) / 24 * 6.3);
    hours.air_c.push_back(20 + 9 * turn);
    hours.tissue_c.push_back(24 + 14 * turn + 0.01 * static_cast<double>(graft));
    hours.water.push_back(0.9 - 0.0001 * static_cast<double>(i) + 0.03 * turn);
    hours.water_low.push_back(hours.water.back() - 0.05 - 0.02 * turn);
    hours.water_high.push_back(hours.water.back() + 0.05 + 0.02 * turn);
    hours.healing.push_back(0.0009 * static_cast<double>(i));
  }
  return hours;
}

TEST(Page, StaysBelowFortyThousandBytesAGraft) {
  PageContent few = sample_content(90);
  for (GraftSince& graft : few.since.grafts) graft.hours = restless_hours(0);
  PageContent many = few;
  for (int i = 0; i < 20; ++i) {
    many.morning.grafts.push_back(testing::sample_graft("M" + std::to_string(i), Urgency::now));
    many.since.grafts.push_back(course_of_days("M" + std::to_string(i), 90));
    many.since.grafts.back().hours = restless_hours(static_cast<std::size_t>(i) + 1);
    many.levels["M" + std::to_string(i)] = sample_levels();
  }
  EXPECT_LT(sample_page(many).size() - sample_page(few).size(), 20U * 40000U);
}

}  // namespace
}  // namespace graftcast
