#include "page_figures.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "page_chart.hpp"
#include "page_markup.hpp"
#include "page_table.hpp"
#include "page_words.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

constexpr double heat_height = 110, water_height = 84, healing_height = 96;
constexpr std::array<DayFlag, 2> heat_flags{DayFlag::heat, DayFlag::cold};
constexpr std::array<DayFlag, 1> drying_flags{DayFlag::drying};
constexpr std::array<DayFlag, 3> other_flags{DayFlag::wind, DayFlag::mould, DayFlag::soaked};

std::string short_day(const ChartDay& day) {
  const std::chrono::year_month_day date(day.day);
  return fmt::format("{}", unsigned(date.day()));
}

std::string axis_day(const ChartDay& day, LocalDay today) {
  return date_words(day.day, today);
}

template <typename Words>
std::vector<std::string> of_days(std::span<const ChartDay> days, const Words& words) {
  std::vector<std::string> labels;
  for (const ChartDay& day : days) labels.push_back(words(day));
  return labels;
}

Course course_of(const ChartedGraft& of, double ChartDay::*value) {
  return [&of, value](std::size_t day) { return of.days[day].*value; };
}

Course temperature_course(const ChartedGraft& of, double ChartDay::*value_c) {
  return [&of, value_c](std::size_t day) { return page_temperature(of.style, of.days[day].*value_c); };
}

std::string tick_name(DayFlag flag) {
  if (flag == DayFlag::drying) return trc("hard day, short", "dry");
  return flag == DayFlag::soaked ? trc("hard day, short", "wet") : day_flag_words(flag);
}

/// The ground: what lies ahead, and up to where a forecast tells of it.
void begin(DayChart& chart, const ChartedGraft& of) {
  chart.shade_ahead();
  if (!of.forecast_until) return;
  const auto beyond =
      std::ranges::find_if(of.days, [&](const ChartDay& day) { return day.day > *of.forecast_until; });
  chart.upright(static_cast<std::size_t>(beyond - of.days.begin()));
}

/// The axis of days, then a row of ticks for each of `flags` that some day has.
void finish(DayChart& chart, const ChartedGraft& of, std::span<const DayFlag> flags) {
  chart.day_axis(of_days(of.days, [&](const ChartDay& day) { return axis_day(day, of.today); }));
  const auto labels = of_days(of.days, short_day);
  for (const DayFlag flag : flags) {
    std::vector<bool> marked;
    for (const ChartDay& day : of.days) marked.push_back(has(day.flags, flag));
    if (std::ranges::find(marked, true) != marked.end()) chart.ticks(tick_name(flag), marked, labels);
  }
}

std::string figure(const std::string& question, const std::string& answer, const std::string& svg,
                   const std::string& table) {
  return fmt::format("<figure><figcaption><b>{}</b> {}</figcaption>\n{}{}</figure>\n",
                     html_sentence(question), html_sentence(answer), svg, table);
}

const ChartDay* hottest(std::span<const ChartDay> days) {
  const auto found = std::ranges::max_element(days, {}, &ChartDay::tissue_c);
  return found == days.end() ? nullptr : &*found;
}

std::string hottest_words(const ChartedGraft& of, std::span<const ChartDay> days) {
  const ChartDay* day = hottest(days);
  if (day == nullptr) return {};
  const std::string tissue = temperature_words(of.style, day->tissue_c);
  const std::string date = day_words(day->day, of.today);
  const std::string air = temperature_figure(of.style, day->air_c);
  return day->ahead ? tr("Coming: up to {tissue} in the tissue ({day}; air {air}).", "tissue"_a = tissue,
                         "day"_a = date, "air"_a = air)
                    : tr("So far: up to {tissue} in the tissue ({day}; air {air}).", "tissue"_a = tissue,
                         "day"_a = date, "air"_a = air);
}

/// Cold is drawn where it comes near: elsewhere its limit would only flatten the heat.
bool is_cold_near(const ChartedGraft& of) {
  constexpr double near_k = 6;
  return std::ranges::any_of(of.days,
                             [](const ChartDay& day) { return day.coldest_c < day.cold_limit_c + near_k; });
}

/// Empty where cold is far.
std::string coldest_words(const ChartedGraft& of) {
  if (!is_cold_near(of)) return {};
  const ChartDay& day = *std::ranges::min_element(of.days, {}, &ChartDay::coldest_c);
  const std::string coldest = temperature_words(of.style, day.coldest_c);
  const std::string date = day_words(day.day, of.today);
  const std::string limit = temperature_words(of.style, day.cold_limit_c);
  return day.ahead ? tr("Coldest, coming: down to {tissue} ({day}); cold limit of its stage then {limit}.",
                        "tissue"_a = coldest, "day"_a = date, "limit"_a = limit)
                   : tr("Coldest: down to {tissue} ({day}); cold limit of its stage then {limit}.",
                        "tissue"_a = coldest, "day"_a = date, "limit"_a = limit);
}

/// Empty where no day has the flag.
std::string flagged_words(std::span<const ChartDay> days, DayFlag flag) {
  const auto in = [&](std::span<const ChartDay> some) {
    return std::ranges::count_if(some, [&](const ChartDay& d) { return has(d.flags, flag); });
  };
  const std::size_t ahead = first_ahead(days);
  const auto been = in(days.first(ahead)), coming = in(days.subspan(ahead));
  if (been + coming == 0) return {};
  if (flag == DayFlag::heat)
    return tr("Heat days: {been} so far, {coming} coming.", "been"_a = been, "coming"_a = coming);
  if (flag == DayFlag::cold)
    return tr("Cold days: {been} so far, {coming} coming.", "been"_a = been, "coming"_a = coming);
  return tr("Drying days: {been} so far, {coming} coming.", "been"_a = been, "coming"_a = coming);
}

/// Those of `sentences` that say something.
std::string together(std::initializer_list<std::string> sentences) {
  std::string text;
  for (const std::string& sentence : sentences)
    if (!sentence.empty()) text += (text.empty() ? "" : " ") + sentence;
  return text;
}

std::string heat_answer(const ChartedGraft& of) {
  const std::size_t ahead = first_ahead(of.days);
  const std::string limit = temperature_words(of.style, of.days[ahead > 0 ? ahead - 1 : 0].limit_c);
  return together({hottest_words(of, of.days.first(ahead)), hottest_words(of, of.days.subspan(ahead)),
                   flagged_words(of.days, DayFlag::heat), flagged_words(of.days, DayFlag::cold),
                   tr("Limit of its stage: {limit}.", "limit"_a = limit), coldest_words(of)});
}

struct Extent {
  double low = 1e9, high = -1e9;
  void take(double value) {
    low = std::min(low, value);
    high = std::max(high, value);
  }
};

Extent heat_extent(const ChartedGraft& of, bool with_cold) {
  Extent extent;
  for (const ChartDay& day : of.days) {
    for (const double value_c : {day.tissue_c, day.air_c, day.limit_c})
      extent.take(page_temperature(of.style, value_c));
    if (!with_cold) continue;
    for (const double value_c : {day.coldest_c, day.cold_limit_c})
      extent.take(page_temperature(of.style, value_c));
  }
  return {extent.low - 2, extent.high + 2};
}

std::string heat_table(const ChartedGraft& of, bool with_cold) {
  std::vector<std::string> heads{trc("head", "tissue"), trc("head", "air"), limit_head()};
  if (with_cold) heads.insert(heads.end(), {trc("head", "coldest"), trc("head", "cold limit")});
  heads.push_back(hard_day_head());
  const auto figure_of = [&](double value_c) { return temperature_figure(of.style, value_c); };
  const std::string name =
      tr("Heat at {id}, {unit}", "id"_a = of.graft.id, "unit"_a = temperature_unit(of.style));
  return day_table(name, heads, of.days, of.today, [&](const ChartDay& day) {
    std::vector cells{figure_of(day.tissue_c), figure_of(day.air_c), figure_of(day.limit_c)};
    if (with_cold) cells.insert(cells.end(), {figure_of(day.coldest_c), figure_of(day.cold_limit_c)});
    cells.push_back(flag_words(day, heat_flags));
    return cells;
  });
}

/// The coldest hour of each day and the limit that it must not reach.
void draw_cold(DayChart& chart, const ChartedGraft& of) {
  chart.steps(temperature_course(of, &ChartDay::cold_limit_c), tr("cold limit"));
  chart.course(temperature_course(of, &ChartDay::coldest_c), "o");
}

std::string water_percent(double share) {
  return fmt::format("{:.0f}", 100 * share);
}

const ChartDay& driest(std::span<const ChartDay> days) {
  return *std::ranges::min_element(days, {}, &ChartDay::water);
}

std::string water_answer(const ChartedGraft& of) {
  const std::size_t ahead = first_ahead(of.days);
  std::string now, coming;
  if (ahead > 0) now = tr("Now {water} % of full.", "water"_a = water_percent(of.days[ahead - 1].water));
  if (ahead < of.days.size()) {
    const ChartDay& low = driest(of.days.subspan(ahead));
    coming = tr("Coming: down to {water} % on {day} ({low} to {high}).", "water"_a = water_percent(low.water),
                "day"_a = day_words(low.day, of.today), "low"_a = water_percent(low.water_low),
                "high"_a = water_percent(low.water_high));
  }
  return together({now, coming, flagged_words(of.days, DayFlag::drying),
                   tr("At {water} % half are lost.", "water"_a = water_percent(of.levels.lost_water))});
}

/// Below the level at which half are lost there is room for its words.
double lowest_shown_water(const ChartedGraft& of) {
  double low = of.levels.lost_water;
  for (const ChartDay& day : of.days) low = std::min(low, day.water_low);
  return std::max(0.0, low - 0.25 * (1 - low));
}

std::string date_of(const std::optional<LocalDay>& day, LocalDay today) {
  return day ? day_words(*day, today) : trc("date", "later");
}

std::string healing_answer(const ChartedGraft& of) {
  const std::string healing = tr("{healing:.2f} of the callus bridge: {stage}.",
                                 "healing"_a = of.graft.healing, "stage"_a = stage_words(of.graft.stage));
  std::string bridged, drinking;
  if (of.graft.stage < Stage::bridged)
    bridged = tr("Bridged: {day}.", "day"_a = date_of(of.graft.bridged_on.median, of.today));
  if (of.graft.stage < Stage::drinking)
    drinking = tr("Drinking: {day}.", "day"_a = date_of(of.graft.drinking_from.median, of.today));
  return together({healing, bridged, drinking});
}

double highest_healing(const ChartedGraft& of) {
  double highest = of.levels.stages.bridged_from;
  for (const ChartDay& day : of.days) highest = std::max(highest, day.healing_high);
  return std::min(1.25 * highest, 1.15 * of.levels.stages.firm_from);
}

}  // namespace

double page_temperature(const TerminalStyle& style, double temperature_c) {
  return style.units == UnitSystem::us ? temperature_c * 9.0 / 5.0 + 32.0 : temperature_c;
}

std::string heat_figure(const ChartedGraft& of) {
  const bool with_cold = is_cold_near(of);
  const Extent extent = heat_extent(of, with_cold);
  DayChart chart(of.days.size(), first_ahead(of.days), extent.low, extent.high, heat_height);
  begin(chart, of);
  for (const double value : round_values(extent.low, extent.high))
    chart.grid(value, fmt::format("{:.0f}", value + 0.0));
  if (with_cold) draw_cold(chart, of);
  chart.steps(temperature_course(of, &ChartDay::limit_c), tr("heat limit"));
  chart.course(temperature_course(of, &ChartDay::air_c), "a");
  chart.course(temperature_course(of, &ChartDay::tissue_c), "t");
  double x = chart.key(chart_left, "t", tr("tissue {unit}", "unit"_a = temperature_unit(of.style)));
  x = chart.key(x, "a", trc("key of a chart", "air"));
  if (with_cold) chart.key(x, "o", tr("tissue, coldest hour"));
  finish(chart, of, heat_flags);
  const std::string answer = heat_answer(of);
  return figure(tr("How hot?"), answer, chart.svg(tr("Hottest hour of each day.") + ' ' + answer),
                heat_table(of, with_cold));
}

std::string water_figure(const ChartedGraft& of) {
  const double low = lowest_shown_water(of);
  DayChart chart(of.days.size(), first_ahead(of.days), low, 1.03, water_height);
  begin(chart, of);
  for (const double value : round_values(low, 1)) chart.grid(value, fmt::format("{:.0f}", 100 * value));
  chart.band(course_of(of, &ChartDay::water_low), course_of(of, &ChartDay::water_high), "b");
  chart.level(of.levels.lost_water, tr("half are lost"), true);
  chart.course(course_of(of, &ChartDay::water), "w");
  chart.key(chart_left, "w", tr("water in the scion, % of full; band: 8 in 10"));
  finish(chart, of, drying_flags);
  const std::array<std::string, 3> heads{trc("head", "water"), trc("head", "8 in 10"), hard_day_head()};
  const std::string answer = water_answer(of);
  const std::string table =
      day_table(tr("Water in {id}, % of full", "id"_a = of.graft.id), heads, of.days, of.today,
                [](const ChartDay& day) {
                  return std::vector{water_percent(day.water),
                                     water_percent(day.water_low) + "\u2013" + water_percent(day.water_high),
                                     flag_words(day, drying_flags)};
                });
  return figure(tr("How dry?"), answer, chart.svg(tr("Water in the scion.") + ' ' + answer), table);
}

std::string healing_figure(const ChartedGraft& of) {
  const double high = highest_healing(of);
  const StageLimits& stages = of.levels.stages;
  DayChart chart(of.days.size(), first_ahead(of.days), 0, high, healing_height);
  begin(chart, of);
  chart.grid(0, "0");
  chart.grid(1, "1");
  chart.band(course_of(of, &ChartDay::healing_low), course_of(of, &ChartDay::healing_high), "b i");
  const auto level = [&](double from, const std::string& words) {
    if (from < high) chart.level(from, words, false);
  };
  level(stages.bridged_from, tr("bridged {day}", "day"_a = date_of(of.graft.bridged_on.median, of.today)));
  level(stages.drinking_from,
        tr("drinking {day}", "day"_a = date_of(of.graft.drinking_from.median, of.today)));
  level(stages.firm_from, stage_words(Stage::firm));
  chart.course(course_of(of, &ChartDay::healing), "h");
  chart.key(chart_left, "h", tr("healing, 1 = callus bridge; band: 8 in 10"));
  finish(chart, of, other_flags);
  const std::array<std::string, 4> heads{trc("head", "healing"), trc("head", "8 in 10"), stage_head(),
                                         hard_day_head()};
  const std::string answer = healing_answer(of);
  const std::string table = day_table(
      tr("Healing of {id}", "id"_a = of.graft.id), heads, of.days, of.today, [](const ChartDay& day) {
        return std::vector{fmt::format("{:.2f}", day.healing),
                           fmt::format("{:.2f}\u2013{:.2f}", day.healing_low, day.healing_high),
                           stage_words(day.stage), flag_words(day, other_flags)};
      });
  return figure(tr("How far?"), answer, chart.svg(tr("Healing of the union.") + ' ' + answer), table);
}

}  // namespace graftcast
