#include "terminal_parts.hpp"

#include <algorithm>

#include "graftcast/figures.hpp"
#include "graftcast/terminal_report.hpp"

namespace graftcast {

std::string heading(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, "air", freshness(basis));
  if (!basis.weather.assumed.empty())
    text += labelled(style, Tone::quiet, "",
                     fmt::format("Not in the logs, so derived: {}.", fmt::join(basis.weather.assumed, ", ")));
  return text;
}

std::string ending(const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  for (const std::string& caution : basis.cautions)
    text += labelled(style, Tone::quiet, text.empty() ? "mind" : "", caution);
  if (!text.empty()) text.insert(0, "\n");
  for (const std::string& credit : basis.weather.credits)
    text += labelled(style, Tone::quiet, "data", printable(credit));
  return text;
}

std::string done_text(std::string_view done, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  for (const std::string& line : wrapped(printable(done), std::max(style.width, least_width)))
    text += line + '\n';
  return finished(style, text + ending(basis, style));
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
