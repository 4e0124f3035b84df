// Whether this is a week to graft, for a terminal.

#include <algorithm>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/when_words.hpp"

namespace graftcast {

namespace {

std::string take_words(const WhenDay& day, const TerminalStyle& style) {
  return trc("a percentage and its range", "{take} ({range})", "take"_a = percent_words(day.take),
             "range"_a = percent_range_words(style, day.low, day.high));
}

TextTable mornings_table(bool has_covered) {
  std::vector<TextTable::Column> columns{{trc("head", "morning of"), Align::left},
                                         {trc("head", "take"), Align::right}};
  if (has_covered) columns.push_back({trc("head", "covered"), Align::right});
  columns.insert(columns.end(), {{trc("head", "bridge d"), Align::right},
                                 {trc("head", "worst day"), Align::left},
                                 {trc("head", "limit"), Align::left},
                                 {trc("head", "known from"), Align::left}});
  return TextTable(std::move(columns));
}

std::string days_of(const WhenAnswer& answer, const ReportBasis& basis, const TerminalStyle& style) {
  TextTable table = mornings_table(answer.covered.has_value());
  const LocalDay today = basis.clock->day_of(basis.as_of);
  for (std::size_t k = 0; k < answer.usual.days.size(); ++k) {
    const WhenDay& day = answer.usual.days[k];
    std::vector<std::string> cells{day_words(day.day, today), take_words(day, style)};
    if (answer.covered) cells.push_back(take_words(answer.covered->days[k], style));
    cells.push_back(bridge_days_words(day));
    cells.push_back(day.worst_day ? day_words(*day.worst_day, today) : std::string{});
    cells.push_back(limit_words(day.limiting));
    cells.push_back(source_words(day.source));
    table.add(std::move(cells));
  }
  return table.text(style);
}

/// The verdict in capitals, then why.
std::string loud_verdict_words(const WhenAnswer& answer) {
  const std::string reason = when_ground_words(answer.ground);
  switch (answer.verdict()) {
    case WhenVerdict::graft:
      return tr("GRAFT: {reason}.", "reason"_a = reason);
    case WhenVerdict::graft_with_cover:
      return tr("GRAFT WITH COVER: {reason}.", "reason"_a = reason);
    default:
      return tr("WAIT: {reason}.", "reason"_a = reason);
  }
}

std::string answer_block(const WhenAnswer& answer, const ReportBasis& basis, const TerminalStyle& style) {
  const Tone tone = answer.verdict() == WhenVerdict::wait ? Tone::pressing : Tone::strong;
  std::string text =
      labelled(style, Tone::strong, trc("label: if it is made so", "if"), way_words(answer.usual) + '.');
  if (answer.covered)
    text += labelled(style, Tone::quiet, "", tr("Covered: {way}.", "way"_a = way_words(*answer.covered)));
  std::string verdict = loud_verdict_words(answer);
  if (const std::string bark = bark_words(answer.usual, basis.clock->day_of(basis.as_of)); !bark.empty())
    verdict += ' ' + bark;
  text += labelled(style, tone, trc("label: then the verdict is", "then"), verdict);
  return text + '\n' + days_of(answer, basis, style) + '\n';
}

}  // namespace

std::string when_text(const WhenReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  for (const WhenAnswer& answer : report.answers) text += answer_block(answer, basis, style);
  text += labelled(style, Tone::quiet, trc("label", "take"),
                   tr("is the chance that it lives until it has its own water, plain failure of the method "
                      "included, with the range of eight in ten members."));
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
