#include "words/degree_day_words.hpp"

#include "report/figures.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

std::string method_words(DegreeDayMethod method) {
  switch (method) {
    case DegreeDayMethod::average:
      return trc("way of counting", "average");
    case DegreeDayMethod::average_floored:
      return trc("way of counting", "average-floored");
    case DegreeDayMethod::triangle:
      return trc("way of counting", "triangle");
    case DegreeDayMethod::double_triangle:
      return trc("way of counting", "double-triangle");
    case DegreeDayMethod::sine:
      return trc("way of counting", "sine");
    case DegreeDayMethod::double_sine:
      return trc("way of counting", "double-sine");
    case DegreeDayMethod::hourly:
      return trc("way of counting", "hourly");
  }
  return {};
}

/// Of a cut-off at `limit`, a temperature in words.
std::string cutoff_at_words(Cutoff cutoff, const std::string& limit) {
  switch (cutoff) {
    case Cutoff::none:
      return {};
    case Cutoff::horizontal:
      return tr("horizontal cut-off at {limit}", "limit"_a = limit);
    case Cutoff::intermediate:
      return tr("intermediate cut-off at {limit}", "limit"_a = limit);
    case Cutoff::vertical:
      return tr("vertical cut-off at {limit}", "limit"_a = limit);
  }
  return {};
}

std::string threshold_words(double celsius, const TerminalStyle& style) {
  return trc("temperature", "{figure} {unit}", "figure"_a = temperature_figure(style, celsius, 1),
             "unit"_a = temperature_unit(style));
}

}  // namespace

std::string rule_words(const DegreeDayRule& rule, const TerminalStyle& style) {
  const std::string warmth = tr("{way} above {limit}", "way"_a = method_words(rule.method),
                                "limit"_a = threshold_words(rule.base_c, style));
  if (rule.cutoff == Cutoff::none) return warmth;
  return with_commas(std::vector{warmth, cutoff_at_words(rule.cutoff, threshold_words(rule.upper_c, style))});
}

std::string degree_days_words(double degree_days, const TerminalStyle& style) {
  // A difference of temperature summed over days: in degF days it is 9/5 of what it is in degC days.
  const double sum = style.units == UnitSystem::us ? degree_days * 9.0 / 5.0 : degree_days;
  return tr("{sum:.0f} {unit} days", "sum"_a = sum, "unit"_a = temperature_unit(style));
}

}  // namespace graftcast
