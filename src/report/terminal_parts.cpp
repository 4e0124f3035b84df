#include "terminal_parts.hpp"

#include <algorithm>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"

namespace graftcast {

namespace {

/// Those that matter to people: pressure follows from the elevation well enough.
std::vector<std::string> derived_variables(const ReportBasis& basis) {
  std::vector<std::string> words;
  for (std::string name : basis.weather.assumed) {
    std::ranges::replace(name, '_', ' ');
    if (name != "pressure") words.push_back(std::move(name));
  }
  return words;
}

/// Nothing for errors as anywhere: that is the usual case, and the README says it.
std::string spread_words(const SpreadBasis& spread) {
  switch (spread.by) {
    case SpreadBasis::By::own_errors:
      return fmt::format("The spread is by the errors of {} of this site's past forecasts.", spread.count);
    case SpreadBasis::By::courses:
      return fmt::format("The spread is by the {} courses of an ensemble forecast, as far as it reaches.",
                         spread.count);
    default:
      return {};
  }
}

}  // namespace

std::string heading(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, "air", freshness(basis));
  if (const std::vector<std::string> derived = derived_variables(basis); !derived.empty())
    text += labelled(style, Tone::quiet, "",
                     fmt::format("Not all in the logs, so derived: {}.", listed(derived)));
  if (const std::string spread = spread_words(basis.weather.spread); !spread.empty())
    text += labelled(style, Tone::quiet, "", spread);
  return text;
}

std::string ended(std::string text, const ReportBasis& basis, const TerminalStyle& style) {
  std::string end;
  for (const std::string& caution : basis.cautions)
    end += labelled(style, Tone::quiet, end.empty() ? "mind" : "", caution);
  for (const std::string& credit : basis.weather.credits)
    end += labelled(style, Tone::quiet, "data", printable(credit));
  if (!end.empty() && !text.empty() && !text.ends_with("\n\n")) text += '\n';
  while (end.empty() && text.ends_with("\n\n")) text.pop_back();
  return text + end;
}

std::string done_text(std::string_view done, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  for (const std::string& line : wrapped(printable(done), std::max(style.width, least_width)))
    text += line + '\n';
  return finished(style, ended(text, basis, style));
}

std::string age_words(double age_days) {
  if (age_days < 2) return fmt::format("{} h", static_cast<int>(age_days * 24));
  return fmt::format("{} days", static_cast<int>(age_days));
}

std::string identity_words(std::string_view scion, std::string_view stock, std::string_view species,
                           std::string_view method, int count, std::string_view spot) {
  std::string words = scion.empty() ? std::string{} : printable(scion);
  if (!stock.empty()) words += fmt::format("{}on {}", words.empty() ? "" : " ", printable(stock));
  words += fmt::format("{}{} {}", words.empty() ? "" : ", ", printable(species), printable(method));
  if (count != 1) words += fmt::format(", {}", counted(static_cast<std::size_t>(count), "graft"));
  if (!spot.empty()) words += fmt::format(", {}", printable(spot));
  return words;
}

}  // namespace graftcast
