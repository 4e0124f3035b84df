#include "terminal_parts.hpp"

#include <algorithm>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "words/count_words.hpp"
#include "words/graft_words.hpp"
#include "words/weather_words.hpp"

namespace graftcast {

namespace {

/// Those that matter to people: pressure follows from the elevation well enough.
std::vector<std::string> derived_variables(const ReportBasis& basis) {
  std::vector<std::string> words;
  for (const Variable variable : basis.weather.assumed)
    if (variable != Variable::pressure) words.push_back(variable_words(variable));
  return words;
}

/// Nothing for errors as anywhere: that is the usual case, and the README says it.
std::string spread_words(const SpreadBasis& spread) {
  switch (spread.by) {
    case SpreadBasis::By::own_errors:
      return trn("The spread is by the errors of {n} of this site's past forecasts.",
                 "The spread is by the errors of {n} of this site's past forecasts.",
                 static_cast<long>(spread.count), "n"_a = spread.count);
    case SpreadBasis::By::courses:
      return trn("The spread is by the {n} course of an ensemble forecast, as far as it reaches.",
                 "The spread is by the {n} courses of an ensemble forecast, as far as it reaches.",
                 static_cast<long>(spread.count), "n"_a = spread.count);
    default:
      return {};
  }
}

}  // namespace

std::string heading(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, trc("label", "air"), freshness(basis));
  if (const std::vector<std::string> derived = derived_variables(basis); !derived.empty())
    text += labelled(style, Tone::quiet, "",
                     tr("Not all in the logs, so derived: {variables}.", "variables"_a = listed(derived)));
  if (const std::string spread = spread_words(basis.weather.spread); !spread.empty())
    text += labelled(style, Tone::quiet, "", spread);
  return text;
}

std::string ended(std::string text, const ReportBasis& basis, const TerminalStyle& style) {
  std::string end;
  for (const std::string& caution : basis.cautions)
    end += labelled(style, Tone::quiet, end.empty() ? trc("label", "mind") : "", caution);
  for (const std::string& credit : basis.weather.credits)
    end += labelled(style, Tone::quiet, trc("label", "data"), printable(credit));
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
  if (age_days < 2) return tr("{n} h", "n"_a = static_cast<int>(age_days * 24));
  return days_words(static_cast<std::size_t>(age_days));
}

std::string identity_words(std::string_view scion, std::string_view stock, std::string_view species,
                           std::string_view method, int count, std::string_view spot) {
  std::vector<std::string> parts;
  if (!scion.empty() || !stock.empty())
    parts.push_back(scion_on_stock_words(printable(scion), printable(stock)));
  parts.push_back(kind_words(printable(species), printable(method)));
  if (count != 1) parts.push_back(grafts_words(static_cast<std::size_t>(count)));
  if (!spot.empty()) parts.push_back(printable(spot));
  return with_commas(parts);
}

std::string identity_words(const GraftCard& graft) {
  return identity_words(graft.scion, graft.stock, graft.species, graft.method, graft.count, graft.spot);
}

}  // namespace graftcast
