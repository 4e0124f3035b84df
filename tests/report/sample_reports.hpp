#pragma once
// Answers made up for the tests of how they are shown. All names are invented.

#include "graftcast/morning.hpp"
#include "graftcast/report_basis.hpp"
#include "graftcast/since.hpp"

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
  basis.weather.gaps = {{june(12, 4), june(30, 4), {}, "last-week"}};
  basis.weather.assumed = {"wind_speed", "pressure"};
  basis.cautions = {"Mind the knife."};
  return basis;
}

inline GraftMorning sample_graft(std::string id, Urgency urgency) {
  GraftMorning graft;
  graft.id = std::move(id);
  graft.scion = "Blue Lattice";
  graft.rootstock = "pot 7";
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
                  {day_of_june(10), {"heat", "drying"}, 46.2, 39.1, 0.14}};
  graft.risk = {0.59, 0.43, 0.77, 0.02};
  graft.risk_until_drinking = 0.71;
  graft.cause = "drying";
  graft.urgency = urgency;
  if (urgency == Urgency::leave) return graft;
  graft.act_by = june(9, 18);
  graft.actions = {
      {"shade", "shade it (50 % cloth)", 0.12, 2.8, {{"shade-cloth", 1}}, 5, ""},
      {"clear-bag", "put a clear bag over it", 0.93, -2, {{"clear-bag", 1}}, 2, "it would cook"}};
  graft.advice = {"shade", "shade it (50 % cloth)", false, {}};
  graft.reasons = {"tissue up to 46.2 degC in the open on Tue 10 Jun", "not given and assumed: wrap"};
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
  graft.method_word = "sine";
  graft.cutoff_word = "horizontal";
  graft.healing = 0.12;
  graft.bridged_on = {day_of_june(24), day_of_june(20), day_of_june(30)};
  graft.drinking_from = {day_of_june(30), day_of_june(25), std::nullopt};
  graft.slit_wrap_from = {};
  graft.alive = 0.93;
  graft.still_to_take = 0.71;
  graft.verdict = "check";
  graft.verdict_text = "look under the bark";
  graft.days = {{day_of_june(8), false, 9.1, 61.4, 0.12, 0.1, 0.15, 0.9, 0.8, 0.95, 33, 30, {}},
                {day_of_june(9), true, 10.2, 71.6, 0.2, 0.15, 0.25, 0.85, 0.7, 0.9, 46, 39, {"heat"}}};
  graft.counts = {{graft.rule, graft.degree_days}};
  graft.aftercare = {
      {"N1", "stake", "tie it in", {day_of_june(20), day_of_june(18), day_of_june(25)}, "wind", {}},
      {"N1", "slit-wrap", "slit it", {}, "it holds", day_of_june(8)}};
  SinceReport report;
  report.grafts = {graft};
  return report;
}

}  // namespace graftcast::testing
