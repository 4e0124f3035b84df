// What the results teach, for a terminal.

#include <cmath>

#include <fmt/format.h>

#include "advice/learn.hpp"
#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"

namespace graftcast {

namespace {

std::string counts_words(const LearnReport& report) {
  return fmt::format("{} known in {}, {} still open (no guess is made of those).",
                     counted(static_cast<std::size_t>(report.outcomes), "outcome"),
                     counted(static_cast<std::size_t>(report.batches), "row"),
                     counted(static_cast<std::size_t>(report.open), "graft"));
}

/// `14 % faster (3 % slower to 34 % faster)`: the factor with its 90 % range.
std::string factor_words(double mean, double sd, std::string_view more, std::string_view less) {
  const auto one = [&](double ln) {
    const double percent = 100 * std::abs(std::expm1(ln));
    return fmt::format("{:.0f} % {}", percent, ln >= 0 ? more : less);
  };
  return fmt::format("{} ({} to {})", one(mean), one(mean - 1.645 * sd), one(mean + 1.645 * sd));
}

std::string shifts_line(const std::string& name, const LearnedShifts& shifts) {
  return fmt::format("{}, {}: heals {}; dries {}; plain failure odds {}.", printable(name),
                     counted(static_cast<std::size_t>(shifts.outcomes), "outcome"),
                     factor_words(shifts.mean.pace, shifts.sd.pace, "faster", "slower"),
                     factor_words(shifts.mean.drying, shifts.sd.drying, "faster", "slower"),
                     factor_words(shifts.mean.failure, shifts.sd.failure, "higher", "lower"));
}

std::string shifts_block(const LearnReport& report, const TerminalStyle& style) {
  std::string text;
  for (const auto* group : {&report.learned.species, &report.learned.methods})
    for (const auto& [name, shifts] : *group)
      text += labelled(style, Tone::quiet, text.empty() ? "shift" : "", shifts_line(name, shifts));
  return text;
}

std::string scores_table(const LearnReport& report, const TerminalStyle& style) {
  TextTable table({{"score on rows held back (less is better)", Align::left},
                   {"Brier", Align::right},
                   {"log", Align::right}});
  const auto row = [&](const char* name, const TakeScore& score) {
    table.add({name, fmt::format("{:.4f}", score.brier), fmt::format("{:.3f}", score.log)});
  };
  row("with what is learned from the others", report.held_back);
  row("by the published numbers", report.uncalibrated);
  row("by the take rate of the others", report.plain_rate);
  return table.text(style);
}

std::string reliability_table(const LearnReport& report, const TerminalStyle& style) {
  TextTable table({{"forecast to take", Align::left},
                   {"grafts", Align::right},
                   {"forecast", Align::right},
                   {"took", Align::right}});
  for (const ReliabilityBin& bin : report.reliability)
    table.add({fmt::format("{:.0f}-{:.0f} %", 100 * bin.from, 100 * bin.to), fmt::format("{}", bin.count),
               percent_words(bin.forecast), percent_words(bin.observed)});
  return table.text(style);
}

std::string groups_table(const LearnReport& report, const TerminalStyle& style) {
  std::string text;
  std::string by;
  std::optional<TextTable> table;
  const auto finish = [&] {
    if (table) text += '\n' + table->text(style);
  };
  for (const TakeGroup& group : report.groups) {
    if (group.by != by) {
      finish();
      by = group.by;
      table.emplace(std::vector<TextTable::Column>{{by, Align::left},
                                                   {"took", Align::right},
                                                   {"of", Align::right},
                                                   {"rate", Align::right},
                                                   {"range", Align::right},
                                                   {"expected", Align::right},
                                                   {"", Align::left}});
    }
    table->add({group.name.empty() ? std::string("(not given)") : printable(group.name),
                fmt::format("{}", group.taken), fmt::format("{}", group.taken + group.lost),
                percent_words(group.rate),
                percent_range_words(style, group.interval.low, group.interval.high),
                percent_words(group.expected), group.verdict});
  }
  finish();
  if (!text.empty())
    text +=
        '\n' + labelled(style, Tone::quiet, "note",
                        "The range is where the true rate lies, nineteen times in twenty. Expected is what "
                        "the published numbers make of the weather these grafts had.");
  return text;
}

std::string bases_table(const LearnReport& report, const TerminalStyle& style) {
  if (report.bases.empty()) return {};
  TextTable table(
      {{"buds' degree-days from a base", Align::left}, {"Brier", Align::right}, {"log", Align::right}});
  for (const BaseScore& base : report.bases) {
    const double shift = style.units == UnitSystem::us ? base.base_shift_k * 1.8 : base.base_shift_k;
    table.add({base.base_shift_k == 0 ? std::string("as published")
                                      : fmt::format("{:.1f} {} {}", std::abs(shift),
                                                    style.units == UnitSystem::us ? "degF" : "K",
                                                    shift > 0 ? "higher" : "lower"),
               fmt::format("{:.4f}", base.score.brier), fmt::format("{:.3f}", base.score.log)});
  }
  return '\n' + table.text(style);
}

}  // namespace

std::string learn_text(const LearnReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  text += labelled(style, Tone::strong, "known", counts_words(report));
  text += labelled(style, report.changed ? Tone::strong : Tone::quiet, "so", report.verdict + '.');
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
