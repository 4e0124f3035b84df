// How far past forecasts were off, as a table for a terminal.

#include <array>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/count_words.hpp"

namespace graftcast {

namespace {

constexpr double f_per_k = 1.8;
constexpr double mph_in_m_s = 1 / 0.44704;
constexpr double inches_in_mm = 1 / 25.4;

/// A column of the table.
struct SkillColumn {
  Variable variable;
  double us_scale;
  int decimals;
};

constexpr std::array skill_columns{
    SkillColumn{Variable::air_temperature, f_per_k, 1}, SkillColumn{Variable::relative_humidity, 1, 0},
    SkillColumn{Variable::wind_speed, mph_in_m_s, 1}, SkillColumn{Variable::shortwave, 1, 0},
    SkillColumn{Variable::precipitation, inches_in_mm, 2}};

std::string head_of(Variable variable, UnitSystem units) {
  const bool us = units == UnitSystem::us;
  switch (variable) {
    case Variable::air_temperature:
      return us ? trc("unit", "F") : trc("unit", "K");
    case Variable::relative_humidity:
      return trc("unit", "RH%");
    case Variable::wind_speed:
      return us ? trc("unit", "mph") : trc("unit", "m/s");
    case Variable::shortwave:
      return trc("unit", "W/m2");
    default:
      return us ? trc("unit", "in/h") : trc("unit", "mm/h");
  }
}

const LeadError* error_of(const ForecastSkill& skill, Variable variable, int day) {
  for (const LeadError& error : skill.errors.at(static_cast<std::size_t>(variable)))
    if (error.day == day) return &error;
  return nullptr;
}

std::string error_figures(const LeadError* error, const SkillColumn& column, const TerminalStyle& style) {
  if (error == nullptr) return ".";
  const double scale = style.units == UnitSystem::us ? column.us_scale : 1;
  const auto rounded = [&](double value) { return fmt::format("{:+.{}f}", value * scale, column.decimals); };
  return fmt::format("{} {:.{}f}", rounded(error->bias), error->rmse * scale, column.decimals);
}

std::string skill_table(const ForecastSkill& skill, const TerminalStyle& style) {
  std::vector<TextTable::Column> headings{{trc("head", "day"), Align::right},
                                          {trc("head", "forecasts"), Align::right}};
  for (const SkillColumn& column : skill_columns)
    headings.push_back({head_of(column.variable, style.units), Align::right});
  TextTable table(headings);
  for (const LeadSpread& lead : skill.spreads) {
    std::vector<std::string> cells{fmt::format("{}", lead.day), fmt::format("{}", lead.forecasts)};
    for (const SkillColumn& column : skill_columns)
      cells.push_back(error_figures(error_of(skill, column.variable, lead.day), column, style));
    table.add(cells);
  }
  return table.text(style);
}

std::string skill_words(const ForecastSkill& skill, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  const std::string compared =
      tr("{source}: {forecasts} compared, made {first} to {last}; by day of lead the mean error (forecast "
         "minus measured) and the root mean square of the hours.",
         "source"_a = printable(skill.source), "forecasts"_a = forecasts_words(skill.forecasts),
         "first"_a = day_words(basis.clock->day_of(*skill.first_made), today),
         "last"_a = day_words(basis.clock->day_of(*skill.last_made), today));
  const std::string spread = own_forecasts(skill.spreads) > 0
                                 ? tr("The ensemble spreads by these errors.")
                                 : tr("The ensemble spreads by them from {forecasts} on.",
                                      "forecasts"_a = forecasts_words(least_own_forecasts));
  return compared + ' ' + spread;
}

std::string no_skill_words() {
  return tr(
      "No past forecast of a service can be compared with a log yet. 'graftcast weather fetch' keeps each "
      "one; the log of the days after it does the rest.");
}

}  // namespace

std::string weather_skill_text(std::span<const ForecastSkill> skills, const ReportBasis& basis,
                               const TerminalStyle& style) {
  if (skills.empty())
    return finished(style, labelled(style, Tone::quiet, trc("label", "none"), no_skill_words()));
  std::string text;
  for (const ForecastSkill& skill : skills)
    text += labelled(style, Tone::strong, trc("label", "errors"), skill_words(skill, basis)) + '\n' +
            skill_table(skill, style) + '\n';
  return finished(style, ended(std::move(text), basis, style));
}

}  // namespace graftcast
