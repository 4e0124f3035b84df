#include "page_figures.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "page_chart.hpp"
#include "page_markup.hpp"
#include "page_table.hpp"
#include "report/figures.hpp"

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
  return day_words(day.day, today).substr(4);
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

std::string_view tick_name(DayFlag flag) {
  if (flag == DayFlag::drying) return "dry";
  return flag == DayFlag::soaked ? "wet" : day_flag_name(flag);
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

std::string figure(std::string_view question, const std::string& answer, const std::string& svg,
                   const std::string& table) {
  return fmt::format("<figure><figcaption><b>{}</b> {}</figcaption>\n{}{}</figure>\n", question,
                     html_sentence(answer), svg, table);
}

const ChartDay* hottest(std::span<const ChartDay> days) {
  const auto found = std::ranges::max_element(days, {}, &ChartDay::tissue_c);
  return found == days.end() ? nullptr : &*found;
}

std::string hottest_words(const ChartedGraft& of, std::string_view when, std::span<const ChartDay> days) {
  const ChartDay* day = hottest(days);
  if (day == nullptr) return {};
  return fmt::format("{}: up to {} in the tissue ({}; air {}). ", when,
                     temperature_words(of.style, day->tissue_c), day_words(day->day, of.today),
                     temperature_figure(of.style, day->air_c));
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
  return fmt::format(" {}: down to {} ({}); cold limit of its stage then {}.",
                     day.ahead ? "Coldest, coming" : "Coldest", temperature_words(of.style, day.coldest_c),
                     day_words(day.day, of.today), temperature_words(of.style, day.cold_limit_c));
}

std::string flagged_words(std::span<const ChartDay> days, DayFlag flag, std::string_view kind) {
  const auto in = [&](std::span<const ChartDay> some) {
    return static_cast<std::size_t>(
        std::ranges::count_if(some, [&](const ChartDay& d) { return has(d.flags, flag); }));
  };
  const std::size_t ahead = first_ahead(days);
  const std::size_t been = in(days.first(ahead)), coming = in(days.subspan(ahead));
  if (been + coming == 0) return {};
  return fmt::format("{} days: {} so far, {} coming. ", kind, been, coming);
}

std::string heat_answer(const ChartedGraft& of) {
  const std::size_t ahead = first_ahead(of.days);
  return hottest_words(of, "So far", of.days.first(ahead)) +
         hottest_words(of, "Coming", of.days.subspan(ahead)) + flagged_words(of.days, DayFlag::heat, "Heat") +
         flagged_words(of.days, DayFlag::cold, "Cold") +
         fmt::format("Limit of its stage: {}.",
                     temperature_words(of.style, of.days[ahead > 0 ? ahead - 1 : 0].limit_c)) +
         coldest_words(of);
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
  std::vector<std::string_view> heads{"tissue", "air", "limit"};
  if (with_cold) heads.insert(heads.end(), {"coldest", "cold limit"});
  heads.emplace_back("hard day");
  const auto figure_of = [&](double value_c) { return temperature_figure(of.style, value_c); };
  return day_table(fmt::format("Heat at {}, {}", of.graft.id, temperature_unit(of.style)), heads, of.days,
                   of.today, [&](const ChartDay& day) {
                     std::vector cells{figure_of(day.tissue_c), figure_of(day.air_c), figure_of(day.limit_c)};
                     if (with_cold)
                       cells.insert(cells.end(), {figure_of(day.coldest_c), figure_of(day.cold_limit_c)});
                     cells.push_back(flag_words(day, heat_flags));
                     return cells;
                   });
}

/// The coldest hour of each day and the limit that it must not reach.
void draw_cold(DayChart& chart, const ChartedGraft& of) {
  chart.steps(temperature_course(of, &ChartDay::cold_limit_c), "cold limit");
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
  std::string words;
  if (ahead > 0) words = fmt::format("Now {} % of full. ", water_percent(of.days[ahead - 1].water));
  if (ahead < of.days.size()) {
    const ChartDay& low = driest(of.days.subspan(ahead));
    words += fmt::format("Coming: down to {} % on {} ({} to {}). ", water_percent(low.water),
                         day_words(low.day, of.today), water_percent(low.water_low),
                         water_percent(low.water_high));
  }
  return words + flagged_words(of.days, DayFlag::drying, "Drying") +
         fmt::format("At {} % half are lost.", water_percent(of.levels.lost_water));
}

/// Below the level at which half are lost there is room for its words.
double lowest_shown_water(const ChartedGraft& of) {
  double low = of.levels.lost_water;
  for (const ChartDay& day : of.days) low = std::min(low, day.water_low);
  return std::max(0.0, low - 0.25 * (1 - low));
}

std::string date_of(const std::optional<LocalDay>& day, LocalDay today) {
  return day ? day_words(*day, today) : std::string("later");
}

std::string healing_answer(const ChartedGraft& of) {
  std::string words =
      fmt::format("{:.2f} of the callus bridge: {}. ", of.graft.healing, stage_name(of.graft.stage));
  if (of.graft.stage < Stage::bridged)
    words += fmt::format("Bridged: {}. ", date_of(of.graft.bridged_on.median, of.today));
  if (of.graft.stage < Stage::drinking)
    words += fmt::format("Drinking: {}.", date_of(of.graft.drinking_from.median, of.today));
  return words;
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
  chart.steps(temperature_course(of, &ChartDay::limit_c), "heat limit");
  chart.course(temperature_course(of, &ChartDay::air_c), "a");
  chart.course(temperature_course(of, &ChartDay::tissue_c), "t");
  double x = chart.key(chart_left, "t", fmt::format("tissue {}", temperature_unit(of.style)));
  x = chart.key(x, "a", "air");
  if (with_cold) chart.key(x, "o", "tissue, coldest hour");
  finish(chart, of, heat_flags);
  const std::string answer = heat_answer(of);
  return figure("How hot?", answer, chart.svg("Hottest hour of each day. " + answer),
                heat_table(of, with_cold));
}

std::string water_figure(const ChartedGraft& of) {
  const double low = lowest_shown_water(of);
  DayChart chart(of.days.size(), first_ahead(of.days), low, 1.03, water_height);
  begin(chart, of);
  for (const double value : round_values(low, 1)) chart.grid(value, fmt::format("{:.0f}", 100 * value));
  chart.band(course_of(of, &ChartDay::water_low), course_of(of, &ChartDay::water_high), "b");
  chart.level(of.levels.lost_water, "half are lost", true);
  chart.course(course_of(of, &ChartDay::water), "w");
  chart.key(chart_left, "w", "water in the scion, % of full; band: 8 in 10");
  finish(chart, of, drying_flags);
  constexpr std::array<std::string_view, 3> heads{"water", "8 in 10", "hard day"};
  const std::string answer = water_answer(of);
  const std::string table = day_table(
      fmt::format("Water in {}, % of full", of.graft.id), heads, of.days, of.today, [](const ChartDay& day) {
        return std::vector{water_percent(day.water),
                           water_percent(day.water_low) + "\u2013" + water_percent(day.water_high),
                           flag_words(day, drying_flags)};
      });
  return figure("How dry?", answer, chart.svg("Water in the scion. " + answer), table);
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
  level(stages.bridged_from, "bridged " + date_of(of.graft.bridged_on.median, of.today));
  level(stages.drinking_from, "drinking " + date_of(of.graft.drinking_from.median, of.today));
  level(stages.firm_from, "firm");
  chart.course(course_of(of, &ChartDay::healing), "h");
  chart.key(chart_left, "h", "healing, 1 = callus bridge; band: 8 in 10");
  finish(chart, of, other_flags);
  constexpr std::array<std::string_view, 4> heads{"healing", "8 in 10", "stage", "hard day"};
  const std::string answer = healing_answer(of);
  const std::string table =
      day_table(fmt::format("Healing of {}", of.graft.id), heads, of.days, of.today, [](const ChartDay& day) {
        return std::vector{fmt::format("{:.2f}", day.healing),
                           fmt::format("{:.2f}\u2013{:.2f}", day.healing_low, day.healing_high),
                           std::string(stage_name(day.stage)), flag_words(day, other_flags)};
      });
  return figure("How far?", answer, chart.svg("Healing of the union. " + answer), table);
}

}  // namespace graftcast
