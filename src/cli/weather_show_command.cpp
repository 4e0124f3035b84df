// `weather show`: what is known of the weather, by which source, with which gaps.

#include <algorithm>
#include <memory>
#include <optional>

#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "values.hpp"
#include "weather/weather_days.hpp"

namespace graftcast::cli {

namespace {

constexpr std::chrono::days usual_stretch{14};
/// Base of the degree-days where the site gives none: customary for fruit trees of temperate climates.
constexpr double usual_base_c = 10;
constexpr double usual_upper_c = 30;

struct ShowOptions {
  bool hourly = false, all = false, quality = false, skill = false;
  std::optional<LocalDay> from, to;
};

struct Stretch {
  LocalDay from, to;  ///< Both are within it.
};

Stretch stretch_of(const ShowOptions& options, const OpenSite& open, const HourlyWeather& weather) {
  const LocalDay first = open.clock.day_of(weather.start);
  const LocalDay last = open.clock.day_of(weather.end() - std::chrono::seconds(1));
  const LocalDay today = open.clock.day_of(open.as_of);
  const LocalDay usual = options.all || options.to ? first : std::min(today, last) - usual_stretch;
  const Stretch stretch{options.from.value_or(usual), options.to.value_or(last)};
  if (stretch.from > stretch.to)
    throw UsageError(tr("--from is later than --to, or than all weather known"), "");
  return stretch;
}

DegreeDayRule rule_of(const DegreeDaySettings& settings) {
  return {settings.method.value_or(DegreeDayMethod::hourly), settings.cutoff.value_or(Cutoff::horizontal),
          settings.base_c.value_or(usual_base_c), settings.upper_c.value_or(usual_upper_c)};
}

std::vector<WeatherDay> days_in(const Stretch& stretch, std::vector<WeatherDay> days) {
  std::erase_if(days, [&](const WeatherDay& day) { return day.day < stretch.from || day.day > stretch.to; });
  return days;
}

std::size_t index_of(const HourlyWeather& weather, Instant instant) {
  const auto hours = std::chrono::floor<std::chrono::hours>(instant - Instant(weather.start)).count();
  return static_cast<std::size_t>(std::clamp<long>(hours, 0, static_cast<long>(weather.size())));
}

std::string rule_words(const DegreeDayRule& rule) {
  return tr(
      "degree-days by {method} above {base:g} degC, cut-off {cutoff} at {upper:g} "
      "degC",
      "method"_a = degree_day_method_word(rule.method), "base"_a = rule.base_c,
      "cutoff"_a = cutoff_word(rule.cutoff), "upper"_a = rule.upper_c);
}

Answer print_days(const Stretch& stretch, const SiteWeather& weather, ReportBasis basis, const OpenSite& open,
                  const GlobalOptions& global) {
  const DegreeDayRule rule = rule_of(open.site.degree_days);
  const auto days = days_in(stretch, weather_days(weather, open.site.location, open.clock, rule));
  if (global.json) basis.warnings.push_back(rule_words(rule));
  return answered(
      global, basis, [&] { return weather_days_json(days, basis); },
      [&] { return weather_days_text(days, basis, style_of(global)); });
}

Answer print_hours(const Stretch& stretch, const SiteWeather& weather, const ReportBasis& basis,
                   const OpenSite& open, const GlobalOptions& global) {
  const std::size_t from = index_of(weather.hourly, open.clock.begin_of(stretch.from));
  const std::size_t to = index_of(weather.hourly, open.clock.begin_of(stretch.to + std::chrono::days(1)));
  return answered(
      global, basis, [&] { return weather_hours_json(weather.hourly, from, to, basis); },
      [&] { return weather_hours_text(weather.hourly, from, to, basis, style_of(global)); });
}

/// Errors are the same in whatever stretch is shown.
void check_skill_alone(const ShowOptions& options) {
  if (options.skill && (options.hourly || options.all || options.from || options.to))
    throw UsageError(tr("--skill stands alone: it compares all kept forecasts of the last ninety days"), "");
}

Answer print_skill(const SiteWeather& weather, const ReportBasis& basis, const OpenSite& open,
                   const GlobalOptions& global) {
  const auto skills = kept_skill(open.folder, open.site.location, open.clock, open.site.weather, weather,
                                 {open.as_of, global.hindsight});
  return answered(
      global, basis, [&] { return weather_skill_json(skills, basis); },
      [&] { return weather_skill_text(skills, basis, style_of(global)); });
}

Answer run(const ShowOptions& options, const GlobalOptions& global) {
  check_skill_alone(options);
  const OpenSite open = open_site(global);
  const Progress progress(tr("reading the weather"));
  const SiteWeather weather = weather_of(open);
  ReportBasis basis = basis_of("weather show", open, global);
  basis.weather = weather_basis(weather);
  basis.warnings = weather_warnings(weather);
  append(basis.warnings, format_remarks(weather));
  if (options.quality)
    return answered(
        global, basis, [&] { return weather_quality_json(weather, basis); },
        [&] { return weather_quality_text(weather, basis, style_of(global)); });
  if (options.skill) return print_skill(weather, basis, open, global);
  if (weather.hourly.size() == 0)
    return answered(
        global, basis,
        [&] { return options.hourly ? weather_hours_json({}, 0, 0, basis) : weather_days_json({}, basis); },
        [&] { return weather_days_text({}, basis, style_of(global)); });
  const Stretch stretch = stretch_of(options, open, weather.hourly);
  return options.hourly ? print_hours(stretch, weather, basis, open, global)
                        : print_days(stretch, weather, basis, open, global);
}

}  // namespace

CommandSpec weather_show_command() {
  const auto options = std::make_shared<ShowOptions>();
  const std::string group = tr("Of this command");
  return {
      "weather show",
      tr("what is known of the weather, from which source, with which gaps"),
      tr("First what is covered and what is not, then a line a day: temperature from lowest to highest, "
         "mean humidity, "
         "vapour pressure deficit (mean and greatest), wind at 2 m, sunshine, rain, reference "
         "evapotranspiration of "
         "short grass, and where the temperature came from. A dot is a number that is not known."),
      {{"graftcast weather show --at 2025-06-09T06:30",
        tr("the fortnight before that morning and the forecast after it")},
       {"graftcast weather show --quality --at 2025-06-09T06:30",
        tr("what is odd about the measured values")}},
      {{"--quality", "", "", tr("what the checks on the measured values found"),
        tr("Limits, spikes, stuck sensors, sunshine at night, dew points above the air, days without "
           "radiation, "
           "radiation out of step with the sun: each with its count and examples. What cannot be is not "
           "used; "
           "what is "
           "only odd is told and used."),
        group, into(options->quality)},
       {"--hourly", "", "", tr("hours instead of days"), "", group, into(options->hourly)},
       {"--from", "", "DAY", tr("first day (default: a fortnight ago)"), "", group,
        [options](const std::string& text) { options->from = day_of("--from", text); }},
       {"--to", "", "DAY", tr("last day (default: the last known)"), "", group,
        [options](const std::string& text) { options->to = day_of("--to", text); }},
       {"--all", "", "", tr("from the first day known"), "", group, into(options->all)},
       {"--skill", "", "", tr("how far past forecasts were off, by day of lead"),
        tr("The last forecast fetched each day of the last ninety is compared with what the logs measured "
           "later. From "
           "thirty on the ensemble spreads by these errors in place of usual ones."),
        group, into(options->skill)}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
