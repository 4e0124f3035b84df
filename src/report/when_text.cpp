// Whether this is a week to graft, for a terminal.

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"
#include "when_words.hpp"

namespace graftcast {

std::string way_words(const WhenCandidate& candidate) {
  std::string words = fmt::format("{} {}", candidate.graft.species, candidate.graft.method);
  if (!candidate.graft.wrap.empty()) words += fmt::format(", wrap {}", candidate.graft.wrap);
  words += candidate.graft.cover == "none" ? std::string(", no cover")
                                           : fmt::format(", {}", candidate.graft.cover);
  if (candidate.graft.shade > 0) words += fmt::format(", {:.0f} % shade", 100 * candidate.graft.shade);
  if (!candidate.graft.spot.empty()) words += fmt::format(", {}", candidate.graft.spot);
  return printable(words);
}

std::string bark_words(const WhenCandidate& usual, LocalDay today) {
  if (!usual.needs_slip) return {};
  if (!usual.bark_slips_now)
    return "Whether the bark slips is not known, for the log does not reach back to midwinter: try a flap.";
  if (*usual.bark_slips_now) return "The bark slips.";
  if (!usual.bark_slips_from) return "The bark does not slip within the run.";
  return fmt::format("The bark slips from {} on.", day_words(*usual.bark_slips_from, today));
}

namespace {

std::string take_words(const WhenDay& day, const TerminalStyle& style) {
  return fmt::format("{} ({})", percent_words(day.take), percent_range_words(style, day.low, day.high));
}

std::string days_of(const WhenAnswer& answer, const ReportBasis& basis, const TerminalStyle& style) {
  std::vector<TextTable::Column> columns{{"morning of", Align::left}, {"take", Align::right}};
  if (answer.covered) columns.push_back({"covered", Align::right});
  columns.insert(columns.end(), {{"bridge d", Align::right},
                                 {"worst day", Align::left},
                                 {"limit", Align::left},
                                 {"known from", Align::left}});
  TextTable table(std::move(columns));
  const LocalDay today = basis.clock->day_of(basis.as_of);
  for (std::size_t k = 0; k < answer.usual.days.size(); ++k) {
    const WhenDay& day = answer.usual.days[k];
    std::vector<std::string> cells{day_words(day.day, today), take_words(day, style)};
    if (answer.covered) cells.push_back(take_words(answer.covered->days[k], style));
    cells.push_back(day.bridge_days ? fmt::format("{:.0f}", *day.bridge_days) : std::string("later"));
    cells.push_back(day.worst_day ? day_words(*day.worst_day, today) : std::string{});
    cells.push_back(day.limiting);
    // The long word would not fit beside the rest.
    cells.push_back(day.source == "monthly-climate" ? "climate" : day.source);
    table.add(std::move(cells));
  }
  return table.text(style);
}

std::string in_capitals(std::string words) {
  std::ranges::transform(words, words.begin(),
                         [](unsigned char c) { return static_cast<char>(std::toupper(c)); });
  return words;
}

std::string answer_block(const WhenAnswer& answer, const ReportBasis& basis, const TerminalStyle& style) {
  const Tone tone = answer.verdict == "wait" ? Tone::pressing : Tone::strong;
  std::string text = labelled(style, Tone::strong, "if", way_words(answer.usual) + '.');
  if (answer.covered)
    text += labelled(style, Tone::quiet, "", fmt::format("Covered: {}.", way_words(*answer.covered)));
  std::string verdict = in_capitals(answer.verdict) + ": " + printable(answer.reason) + '.';
  if (const std::string bark = bark_words(answer.usual, basis.clock->day_of(basis.as_of)); !bark.empty())
    verdict += ' ' + bark;
  text += labelled(style, tone, "then", verdict);
  return text + '\n' + days_of(answer, basis, style) + '\n';
}

}  // namespace

std::string when_text(const WhenReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  for (const WhenAnswer& answer : report.answers) text += answer_block(answer, basis, style);
  text += labelled(style, Tone::quiet, "take",
                   "is the chance that it lives until it has its own water, plain failure of the method "
                   "included, with the "
                   "range of eight in ten members.");
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
