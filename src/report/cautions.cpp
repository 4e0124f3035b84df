#include "report/cautions.hpp"

#include <algorithm>
#include <cmath>

#include "graftcast/heat_index.hpp"
#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

constexpr int first_waking_hour = 5;
constexpr int last_waking_hour = 20;

std::string not_in_the_risk() {
  return tr(
      "Risk is of loss to weather alone: incompatibility, disease, insects, bleeding and the hand are not in "
      "it.");
}

std::string words_of(const std::string& caution) {
  return std::string(translated(caution));
}

void add(std::vector<std::string>& cautions, std::string caution) {
  if (!caution.empty() && std::ranges::find(cautions, caution) == cautions.end())
    cautions.push_back(std::move(caution));
}

double heat_index_at(const HourlyWeather& weather, std::size_t hour) {
  return heat_index_c(weather[Variable::air_temperature].value[hour],
                      std::clamp(weather[Variable::relative_humidity].value[hour], 0.0, 100.0));
}

/// What a clock on the wall shows: in the days when clocks change that is not the time since midnight.
bool people_are_up(const Clock& clock, Instant instant) {
  const auto reading = instant.time_since_epoch() + clock.offset_at(instant);
  const auto of_day = reading - std::chrono::floor<std::chrono::days>(reading);
  const auto hour = std::chrono::floor<std::chrono::hours>(of_day).count();
  return hour >= first_waking_hour && hour <= last_waking_hour;
}

HotDay heat_of(const Season& season, const DaySpan& span, std::size_t begin) {
  HotDay hot{.day = span.day, .heat_index_c = -100, .hours_below = {}};
  for (std::size_t hour = begin; hour < span.end; ++hour) {
    const double index_c = heat_index_at(season.outlook.weather, hour);
    hot.heat_index_c = std::max(hot.heat_index_c, index_c);
    const Instant from = season.hour(hour);
    if (heat_caution(index_c) == HeatCaution::none && people_are_up(season.clock, from))
      hot.hours_below.push_back(from);
  }
  return hot;
}

/// The hours below caution as clock times: one stretch in the morning, one in the evening.
std::string better_hours(const std::vector<Instant>& hours_below, const Clock& clock) {
  constexpr std::chrono::hours one_hour{1};
  std::vector<std::string> stretches;
  for (std::size_t i = 0; i < hours_below.size();) {
    std::size_t last = i;
    while (last + 1 < hours_below.size() && hours_below[last + 1] == hours_below[last] + one_hour) ++last;
    stretches.push_back(trc("hours of a day", "{from} to {to}", "from"_a = hour_words(clock, hours_below[i]),
                            "to"_a = hour_words(clock, hours_below[last] + one_hour)));
    i = last + 1;
  }
  return stretches.empty() ? tr("no hour of that day is below caution")
                           : tr("better: {hours}", "hours"_a = listed(stretches));
}

std::string heat_words(const std::vector<HotDay>& hot, const Season& season, const TerminalStyle& style) {
  const HotDay& worst = *std::ranges::max_element(hot, {}, &HotDay::heat_index_c);
  const LocalDay today = season.clock.day_of(season.settings.as_of);
  return trn("Heat for people on {n} coming day, worst on {day}: {heat}.",
             "Heat for people on {n} coming days, worst on {day}: {heat}.", static_cast<long>(hot.size()),
             "n"_a = hot.size(), "day"_a = day_words(worst.day, today),
             "heat"_a = hot_day_words(worst, season.clock, style));
}

/// Acts whose time falls into hours of caution, with the greatest heat index among them.
std::string acts_in_heat(const MorningReport& report, const Season& season, const TerminalStyle& style) {
  std::vector<std::string> ids;
  double greatest_c = 0;
  for (const GraftMorning& graft : report.grafts) {
    if (!graft.act_by || graft.advice.act.is_none()) continue;
    const double index_c = heat_index_c_at(season, *graft.act_by).value_or(0);
    if (heat_caution(index_c) == HeatCaution::none) continue;
    ids.push_back(printable(graft.id));
    greatest_c = std::max(greatest_c, index_c);
  }
  if (ids.empty()) return {};
  return tr(
      "The time given for {grafts} is in that heat (heat index up to {index}): do it in a better hour "
      "before.",
      "grafts"_a = listed(ids), "index"_a = temperature_words(style, greatest_c));
}

bool is_cutting(DueKind kind) {
  return kind == DueKind::slit_wrap || kind == DueKind::check;
}

bool advises(const MorningReport& report, ActKind kind) {
  return std::ranges::any_of(report.grafts,
                             [&](const GraftMorning& graft) { return graft.advice.act.kind == kind; });
}

bool is_sappy(const std::string& species) {
  return species == "fig" || species == "mango" || species == "walnut";
}

void add_quarantine(std::vector<std::string>& cautions, const std::string& species, const Models& models) {
  const auto entry = models.species.find(species);
  const std::string own = entry == models.species.end() ? std::string{} : entry->second.quarantine;
  add(cautions, words_of(own.empty() ? models.cautions.quarantine : own));
}

}  // namespace

std::vector<HotDay> hot_days(const Season& season, int days) {
  std::vector<HotDay> hot;
  const LocalDay today = season.clock.day_of(season.settings.as_of);
  for (const DaySpan& span : season.days) {
    const std::size_t begin = std::max(span.begin, season.now());
    if (begin >= span.end || span.day >= today + std::chrono::days(days)) continue;
    HotDay day = heat_of(season, span, begin);
    if (heat_caution(day.heat_index_c) != HeatCaution::none) hot.push_back(std::move(day));
  }
  return hot;
}

std::string hot_day_words(const HotDay& hot, const Clock& clock, const TerminalStyle& style) {
  return tr("heat index {index} in the shade ({caution}); {hours}",
            "index"_a = temperature_words(style, hot.heat_index_c),
            "caution"_a = translated(heat_caution_word(heat_caution(hot.heat_index_c))),
            "hours"_a = better_hours(hot.hours_below, clock));
}

std::optional<double> heat_index_c_at(const Season& season, Instant when) {
  if (when < season.hour(0) || when >= season.hour(season.hours())) return std::nullopt;
  const auto hour = std::chrono::floor<std::chrono::hours>(when) - season.hour(0);
  return heat_index_at(season.outlook.weather, static_cast<std::size_t>(hour.count()));
}

std::vector<std::string> heat_cautions(const Season& season, int days, const TerminalStyle& style) {
  const std::vector<HotDay> hot = hot_days(season, days);
  if (hot.empty()) return {};
  std::vector<std::string> cautions{heat_words(hot, season, style)};
  add(cautions, words_of(season.models.cautions.heat_illness));
  return cautions;
}

std::vector<std::string> morning_cautions(const MorningReport& report, const Season& season,
                                          const TerminalStyle& style) {
  std::vector<std::string> cautions = heat_cautions(season, season.settings.horizon_days, style);
  add(cautions, acts_in_heat(report, season, style));
  if (advises(report, ActKind::whitewash)) add(cautions, words_of(season.models.cautions.products));
  if (std::ranges::any_of(report.grafts, is_sappy, &GraftMorning::species))
    add(cautions, words_of(season.models.cautions.sap));
  if (!report.grafts.empty()) add(cautions, not_in_the_risk());
  add(cautions, words_of(season.models.cautions.model));
  add(cautions, words_of(season.models.cautions.local_rules));
  return cautions;
}

std::vector<std::string> due_cautions(const DueWork& work, const Season& season, const TerminalStyle& style) {
  std::vector<std::string> cautions;
  const LocalDay day = work.from ? season.clock.day_of(*work.from) : *work.day;
  const std::vector<HotDay> hot = hot_days(season, season.settings.horizon_days);
  const auto found = std::ranges::find(hot, day, &HotDay::day);
  if (found != hot.end()) {
    std::string words =
        tr("Heat for people that day: {heat}.", "heat"_a = hot_day_words(*found, season.clock, style));
    if (const auto index_c = work.from ? heat_index_c_at(season, *work.from) : std::nullopt) {
      words += ' ' + tr("At this hour: {index} ({caution}).", "index"_a = temperature_words(style, *index_c),
                        "caution"_a = translated(heat_caution_word(heat_caution(*index_c))));
    }
    add(cautions, std::move(words));
  }
  if (!is_cutting(work.kind)) return cautions;
  add(cautions, words_of(season.models.cautions.knives));
  add(cautions, words_of(season.models.cautions.hygiene));
  return cautions;
}

std::vector<std::string> calendar_cautions(const std::vector<DueWork>& works, const Season& season,
                                           const TerminalStyle& style) {
  std::vector<std::string> cautions = heat_cautions(season, season.settings.horizon_days, style);
  if (std::ranges::any_of(works, is_cutting, &DueWork::kind)) {
    add(cautions, words_of(season.models.cautions.knives));
    add(cautions, words_of(season.models.cautions.hygiene));
  }
  if (!works.empty()) add(cautions, not_in_the_risk());
  add(cautions, words_of(season.models.cautions.model));
  add(cautions, words_of(season.models.cautions.local_rules));
  return cautions;
}

std::vector<std::string> since_cautions(const SinceReport& report, const Models& models) {
  std::vector<std::string> cautions;
  for (const GraftSince& graft : report.grafts) {
    if (graft.verdict() == Verdict::wait) continue;
    add(cautions, words_of(models.cautions.knives));
    add(cautions, words_of(models.cautions.hygiene));
    if (graft.verdict() == Verdict::regraft) add_quarantine(cautions, graft.species, models);
  }
  add(cautions, words_of(models.cautions.model));
  add(cautions, words_of(models.cautions.local_rules));
  return cautions;
}

std::vector<std::string> why_cautions(const std::vector<GraftWhy>& grafts, const Models& models) {
  std::vector<std::string> cautions;
  for (const GraftWhy& graft : grafts) {
    const bool maybe_disease = std::ranges::any_of(graft.signs, [](const SeenSign& sign) {
      return sign.event == Event::blackened || sign.event == Event::mould;
    });
    if (!maybe_disease) continue;
    add(cautions, words_of(models.cautions.disease));
    add(cautions, words_of(models.cautions.hygiene));
  }
  if (!grafts.empty()) add(cautions, not_in_the_risk());
  add(cautions, words_of(models.cautions.model));
  add(cautions, words_of(models.cautions.local_rules));
  return cautions;
}

std::vector<std::string> grafting_cautions(const std::vector<std::string>& species, const Models& models) {
  std::vector<std::string> cautions;
  add(cautions, words_of(models.cautions.knives));
  add(cautions, words_of(models.cautions.hygiene));
  for (const std::string& name : species) add_quarantine(cautions, name, models);
  if (std::ranges::any_of(species, is_sappy)) add(cautions, words_of(models.cautions.sap));
  add(cautions, words_of(models.cautions.local_rules));
  return cautions;
}

}  // namespace graftcast
