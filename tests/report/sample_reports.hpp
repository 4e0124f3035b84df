#pragma once
// Answers made up for the tests of how they are shown. All names are invented.

#include "advice/why.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"
#include "report/report_basis.hpp"

namespace graftcast::testing {

using namespace std::chrono_literals;

inline LocalDay day_of_june(unsigned day) {
  return LocalDay(std::chrono::year(2025) / std::chrono::June / std::chrono::day(day));
}

inline Instant june(unsigned day, int hour, int minute = 0) {
  return Instant(std::chrono::sys_days(std::chrono::year(2025) / std::chrono::June / std::chrono::day(day))) +
         std::chrono::hours(hour) + std::chrono::minutes(minute);
}

inline ReportBasis sample_basis(std::string command = "morning") {
  ReportBasis basis;
  basis.command = std::move(command);
  basis.as_of = june(9, 4, 30);
  basis.site = "Invented nursery";
  basis.clock = Clock("Europe/Madrid");
  basis.weather.measured_until = june(9, 4);
  basis.weather.forecast_until = june(12, 4);
  basis.weather.sources = {"weather/station.csv"};
  basis.weather.gaps = {{june(12, 4), june(30, 4), {}, {}, StandIn::last_week}};
  basis.weather.assumed = {Variable::wind_speed, Variable::pressure};
  basis.cautions = {"Mind the knife."};
  return basis;
}

inline GraftMorning sample_graft(std::string id, Urgency urgency) {
  GraftMorning graft;
  graft.id = std::move(id);
  graft.scion = "Blue Lattice";
  graft.stock = "pot 7";
  graft.species = "citrus";
  graft.method = "chip";
  graft.spot = "south-bench";
  graft.count = 6;
  graft.grafted_on = day_of_june(4);
  graft.age_days = 4.9;
  graft.stage = Stage::fresh;
  graft.healing = 0.12;
  graft.degree_days = 61.4;
  graft.tissue_max_c_7d = 46.2;
  graft.air_max_c_7d = 39.1;
  graft.vpd_max_kpa_7d = 5.4;
  graft.coming = {{day_of_june(9), {}, 31, 29, 0.01},
                  {day_of_june(10), {DayFlag::heat, DayFlag::drying}, 46.2, 39.1, 0.14}};
  graft.risk = {0.59, 0.43, 0.77, 0.02};
  graft.risk_until_drinking = 0.71;
  graft.cause = Cause::drying;
  graft.urgency = urgency;
  if (urgency == Urgency::leave) return graft;
  graft.act_by = june(9, 18);
  const Act shade{.kind = ActKind::shade, .shade_share = 0.5};
  graft.acts = {{shade, 0.12, 2.8, {{"shade-cloth", 1}}, 5, {}},
                {{.kind = ActKind::clear_bag}, 0.93, -2, {{"clear-bag", 1}}, 2, Exclusion::cooks}};
  graft.advice = {shade, false, {}};
  graft.reasons = {HeatAhead{46.2, 39.1, day_of_june(10), "none"}, CellsAssumed{{"wrap"}}};
  return graft;
}

/// Two that need something, one to watch, two to leave alone.
inline MorningReport sample_morning() {
  MorningReport report;
  report.grafts = {sample_graft("N1", Urgency::now), sample_graft("S1", Urgency::soon),
                   sample_graft("W1", Urgency::watch), sample_graft("L1", Urgency::leave),
                   sample_graft("L2", Urgency::leave)};
  return report;
}

inline SinceReport sample_since() {
  GraftSince graft;
  graft.id = "N1";
  graft.scion = "Blue Lattice";
  graft.species = "citrus";
  graft.method = "chip";
  graft.spot = "south-bench";
  graft.count = 6;
  graft.grafted_on = day_of_june(4);
  graft.age_days = 4.9;
  graft.degree_days = 61.4;
  graft.rule = {DegreeDayMethod::sine, Cutoff::horizontal, 12.5, 30};
  graft.healing = 0.12;
  graft.bridged_on = {day_of_june(24), day_of_june(20), day_of_june(30)};
  graft.drinking_from = {day_of_june(30), day_of_june(25), std::nullopt};
  graft.slit_wrap_from = {};
  graft.alive = 0.93;
  graft.still_to_take = 0.71;
  graft.ground = LookIsOverdue{WayToLook::under_wrap};
  graft.days = {{day_of_june(8), false, 9.1, 61.4, 0.12, 0.1, 0.15, 0.9, 0.8, 0.95, 33, 30, {}},
                {day_of_june(9), true, 10.2, 71.6, 0.2, 0.15, 0.25, 0.85, 0.7, 0.9, 46, 39, {DayFlag::heat}}};
  graft.counts = {{graft.rule, graft.degree_days}};
  graft.aftercare = {
      {.id = "N1", .work = CareWork::stake, .due = {day_of_june(20), day_of_june(18), day_of_june(25)}},
      {.id = "N1", .work = CareWork::slit_wrap, .done = day_of_june(8)}};
  SinceReport report;
  report.grafts = {graft};
  return report;
}

inline WhyLesson sample_lesson() {
  WhyLesson lesson;
  lesson.members = 64;
  lesson.hottest_cover = "clear-bag";
  lesson.ways = {0.1, 0.8, 0, 0.02};
  lesson.tried = {{Factor::heat, 0.04, 0.05}, {Factor::cover_sun, 0.02, 0.03}};
  lesson.fair_shares = {{Factor::heat, 0.42}, {Factor::cover_sun, 0.41}};
  lesson.loss = 0.81;
  lesson.loss_harmless = 0.01;
  lesson.sign_chances = {{{Factor::heat, {0.6, "", "an invented source", 'C'}},
                          {not_weather, {0.05, "", "an invented source", 'C'}}}};
  for (int i = 0; i <= static_cast<int>(LessonNumber::take_in_good_weather); ++i)
    lesson.numbers.push_back({static_cast<LessonNumber>(i), {0.25 * i, "K", "an invented source", 'C'}});
  return lesson;
}

inline GraftWhy sample_why() {
  GraftWhy graft;
  graft.id = "N1";
  graft.scion = "Blue Lattice";
  graft.stock = "pot 7";
  graft.species = "citrus";
  graft.method = "chip";
  graft.spot = "south-bench";
  graft.count = 6;
  graft.lost = 4;
  graft.grafted_on = day_of_june(1);
  graft.outcome = RowOutcome::lost_in_part;
  graft.until = june(8, 16);
  graft.age_days = 7.2;
  graft.loss = 0.81;
  graft.when = {day_of_june(6), day_of_june(5), day_of_june(7)};
  graft.loss_harmless = 0.01;
  graft.plain_failure = 0.1;
  graft.explained = true;
  graft.shares = {
      {Factor::cover_sun, 0.41, 0.52, 0.02, 0.03, SunHeatedCover{day_of_june(6), "clear-bag", 47.1, 33}},
      {Factor::heat, 0.42, 0.47, 0.04, 0.05, HotTissue{day_of_june(6), "clear-bag", 47.1, 33}},
      {Factor::wind, -0.03, 0, 0.84, 0.01, StrongWind{day_of_june(5), 3.1}},
      {not_weather, 0.11, 0.01, {}, {}, PlainFailure{0.1, "chip"}}};
  graft.signs = {{Event::blackened, "Suddenly dark brown or black", june(7, 8)}};
  graft.healing = 0.2;
  graft.bud_clock = 0.4;
  graft.days = {
      {day_of_june(5), 31, 18, 3.1, 2.2, 44, 17, 1.1, 0.9, 0.95, 0.1, 0.2, 0, 0.2, {DayFlag::heat}, {}},
      {day_of_june(6),
       33,
       19,
       3.9,
       3.1,
       47.1,
       18,
       1.3,
       0.8,
       0.9,
       0.15,
       0.3,
       0,
       0.7,
       {DayFlag::heat, DayFlag::mould},
       {{Event::shade, "0.5"}}}};
  graft.would_have_saved = {{Act{.kind = ActKind::paper_over_bag, .is_bagged = true},
                             june(1, 10),
                             june(5, 5),
                             0.04,
                             1,
                             {{"paper", 1}}}};
  graft.lesson = sample_lesson();
  graft.assumed = {"wrap"};
  return graft;
}

/// The same beside one that the weather does not explain.
inline WhyLosses sample_losses() {
  GraftWhy plain = sample_why();
  plain.id = "P1";
  plain.explained = false;
  plain.loss = 0.03;
  plain.when = {};
  plain.shares = {{not_weather, 0.11, 1, {}, {}, PlainFailure{0.1, "chip"}}};
  plain.would_have_saved = {};
  WhyLosses losses;
  losses.season = "2024/25";
  losses.lost = 8;
  losses.grafts = {sample_why(), plain};
  losses.groups = {
      {Factor::cover_sun, 4, 2.1, {"N1"}}, {not_weather, 4, 4.0, {"P1"}}, {Factor::heat, 0, 1.9, {}}};
  losses.changes = {{Act{.kind = ActKind::paper_over_bag, .is_bagged = true}, 3.1, 3.1, {"N1"}},
                    {Act{.kind = ActKind::water}, 1.0, 0.4, {"P1"}}};
  return losses;
}

}  // namespace graftcast::testing
