// What the results teach, for a terminal.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/count_words.hpp"
#include "words/learn_words.hpp"

namespace graftcast {

namespace {

std::string counts_words(const LearnReport& report) {
  return tr("{outcomes} known in {rows}, {grafts} still open (no guess is made of those).",
            "outcomes"_a = outcomes_words(static_cast<std::size_t>(report.outcomes)),
            "rows"_a = rows_words(static_cast<std::size_t>(report.batches)),
            "grafts"_a = grafts_words(static_cast<std::size_t>(report.open)));
}

std::string shifts_block(const LearnReport& report, const TerminalStyle& style) {
  std::string text;
  for (const auto* group : {&report.learned.species, &report.learned.methods})
    for (const auto& [name, shifts] : *group)
      text +=
          labelled(style, Tone::quiet, text.empty() ? trc("label", "shift") : "", shifts_words(name, shifts));
  return text;
}

std::string brier_head() {
  return trc("head", "Brier");
}
std::string log_head() {
  return trc("head", "log");
}

std::string scores_table(const LearnReport& report, const TerminalStyle& style) {
  TextTable table({{tr("score on rows held back (less is better)"), Align::left},
                   {brier_head(), Align::right},
                   {log_head(), Align::right}});
  const auto row = [&](const std::string& name, const TakeScore& score) {
    table.add({name, fmt::format("{:.4f}", score.brier), fmt::format("{:.3f}", score.log)});
  };
  row(tr("with what is learned from the others"), report.held_back);
  row(tr("by the published numbers"), report.uncalibrated);
  row(tr("by the take rate of the others"), report.plain_rate);
  return table.text(style);
}

std::string reliability_table(const LearnReport& report, const TerminalStyle& style) {
  TextTable table({{trc("head", "forecast to take"), Align::left},
                   {trc("head", "grafts"), Align::right},
                   {trc("head", "forecast"), Align::right},
                   {trc("head", "took"), Align::right}});
  for (const ReliabilityBin& bin : report.reliability)
    table.add({fmt::format("{:.0f}-{:.0f} %", 100 * bin.from, 100 * bin.to), fmt::format("{}", bin.count),
               percent_words(bin.forecast), percent_words(bin.observed)});
  return table.text(style);
}

TextTable rates_table(GroupBy by) {
  return TextTable({{group_by_words(by), Align::left},
                    {trc("head", "took"), Align::right},
                    {trc("head: took ... of", "of"), Align::right},
                    {trc("head", "rate"), Align::right},
                    {trc("head", "range"), Align::right},
                    {trc("head", "expected"), Align::right},
                    {"", Align::left}});
}

std::string groups_table(const LearnReport& report, const TerminalStyle& style) {
  std::string text;
  std::optional<GroupBy> by;
  std::optional<TextTable> table;
  const auto finish = [&] {
    if (table) text += '\n' + table->text(style);
  };
  for (const TakeGroup& group : report.groups) {
    if (group.by != by) {
      finish();
      by = group.by;
      table = rates_table(group.by);
    }
    table->add({group.name.empty() ? tr("(not given)") : printable(group.name),
                fmt::format("{}", group.taken), fmt::format("{}", group.taken + group.lost),
                percent_words(group.rate),
                percent_range_words(style, group.interval.low, group.interval.high),
                percent_words(group.expected), rate_verdict_words(group.verdict)});
  }
  finish();
  if (!text.empty())
    text += '\n' +
            labelled(style, Tone::quiet, trc("label", "note"),
                     tr("The range is where the true rate lies, nineteen times in twenty. Expected is what "
                        "the published numbers make of the weather these grafts had."));
  return text;
}

std::string bases_table(const LearnReport& report, const TerminalStyle& style) {
  if (report.bases.empty()) return {};
  TextTable table({{tr("buds' degree-days from a base"), Align::left},
                   {brier_head(), Align::right},
                   {log_head(), Align::right}});
  for (const BaseScore& base : report.bases) {
    table.add({base_words(base.base_shift_k, style.units), fmt::format("{:.4f}", base.score.brier),
               fmt::format("{:.3f}", base.score.log)});
  }
  return '\n' + table.text(style);
}

}  // namespace

std::string learn_text(const LearnReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  text += labelled(style, Tone::strong, trc("label", "known"), counts_words(report));
  text += labelled(style, report.changed() ? Tone::strong : Tone::quiet, trc("label", "so"),
                   tr("{verdict}.", "verdict"_a = learn_verdict_words(report)));
  text += groups_table(report, style);
  if (report.batches > 0 && report.outcomes >= report.least_outcomes) {
    text += '\n' + shifts_block(report, style);
    text += '\n' + scores_table(report, style);
    text += '\n' + reliability_table(report, style);
    text += bases_table(report, style);
  }
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
