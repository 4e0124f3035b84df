#include "since_care_text.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"

namespace graftcast {

namespace {

std::string season_left_words(const WaitOrRegraft& worth, LocalDay today) {
  const std::string needs = worth.new_days
                                ? fmt::format("a new graft drinks after {:.0f} days", *worth.new_days)
                                : std::string("most new grafts would not drink within two months");
  if (worth.season_left_days > 0)
    return fmt::format("the season lasts until {}, {} more; {}", day_words(worth.window_closes, today),
                       counted(static_cast<std::size_t>(worth.season_left_days), "day"), needs);
  return fmt::format("the next season opens on {}; {}", day_words(worth.window_opens, today), needs);
}

/// `Tue 1 Jul (25 Jun to 9 Jul)`, or the one day alone.
std::string due_words(const DateBand& due, LocalDay today) {
  if (!due.median) return fmt::format("not before {}", day_words(*due.p10, today));
  std::string words = day_words(*due.median, today);
  if (due.p10 == due.p90) return *due.median < today ? "since " + words : words;
  if (*due.median < today) return "since " + words;
  const std::string until =
      due.p90 ? fmt::format("to {}", day_words(*due.p90, today)) : std::string("or later");
  return due.p10 ? fmt::format("{} ({} {})", words, day_words(*due.p10, today), until) : words;
}

std::string limit_words(const WoodInStore& wood) {
  if (wood.limit == WoodLimit::rot) return "its foot rots and its buds run";
  return wood.limit == WoodLimit::stores ? "it has breathed away its stores" : "it is too dry to callus well";
}

}  // namespace

std::string rule_words(const DegreeDayRule& rule, const TerminalStyle& style) {
  std::string words = fmt::format("{} above {} {}", degree_day_method_word(rule.method),
                                  temperature_figure(style, rule.base_c, 1), temperature_unit(style));
  if (rule.cutoff != Cutoff::none)
    words += fmt::format(", {} cut-off at {} {}", cutoff_word(rule.cutoff),
                         temperature_figure(style, rule.upper_c, 1), temperature_unit(style));
  return words;
}

/// A difference of temperature summed over days: in degF days it is 9/5 of what it is in degC days.
std::string degree_days_words(double degree_days, const TerminalStyle& style) {
  const bool us = style.units == UnitSystem::us;
  return fmt::format("{:.0f} {} days", us ? degree_days * 9.0 / 5.0 : degree_days, temperature_unit(style));
}

std::string worth_words(const GraftSince& graft, LocalDay today) {
  if (!graft.worth) return {};
  const WaitOrRegraft& worth = *graft.worth;
  const std::string look =
      worth.value_look ? fmt::format(", a look {:.2f}", *worth.value_look) : std::string();
  return fmt::format("Waiting is worth {:.2f} of a graft that takes{}, grafting again now {:.2f}; {}.",
                     worth.value_wait, look, worth.value_regraft, season_left_words(worth, today));
}

std::string care_lines(const GraftSince& graft, LocalDay today, const TerminalStyle& style) {
  std::string text;
  for (const CareTask& task : graft.aftercare) {
    if (!task.is_open()) continue;
    text += labelled(
        style, Tone::quiet, text.empty() ? "then" : "",
        fmt::format("{}: {}; {}.", due_words(task.due, today), printable(task.text), printable(task.why)));
  }
  return text;
}

std::string count_lines(const GraftSince& graft, const TerminalStyle& style) {
  std::string text;
  for (std::size_t i = 1; i < graft.counts.size(); ++i)
    text += labelled(style, Tone::quiet, "",
                     fmt::format("{} ({}).", degree_days_words(graft.counts[i].degree_days, style),
                                 rule_words(graft.counts[i].rule, style)));
  return text;
}

std::string stock_block(const StockHistory& stock, LocalDay today, const TerminalStyle& style) {
  std::string text =
      labelled(style, Tone::strong, "stock",
               fmt::format("{}: {}.", printable(stock.name), counted(stock.attempts.size(), "attempt")));
  TextTable table({{"id", Align::left},
                   {"made", Align::left},
                   {"scion", Align::left},
                   {"method", Align::left},
                   {"where", Align::left},
                   {"replaces", Align::left},
                   {"outcome", Align::left}});
  for (const Attempt& attempt : stock.attempts) {
    const int grafts = attempt.taken + attempt.dead + attempt.open + attempt.removed;
    const std::string removed =
        attempt.removed > 0 ? fmt::format(", {} taken away", attempt.removed) : std::string{};
    const std::string outcome = grafts == 1 ? attempt.outcome
                                            : fmt::format("{} taken, {} lost, {} open{}", attempt.taken,
                                                          attempt.dead, attempt.open, removed);
    table.add({printable(attempt.id), day_words(attempt.grafted_on, today),
               printable(attempt.scion.empty() ? attempt.species : attempt.scion), printable(attempt.method),
               printable(attempt.position), printable(attempt.replaces), outcome});
  }
  return text + table.text(style);
}

std::string wood_block(const std::vector<WoodInStore>& wood, LocalDay today, const TerminalStyle& style) {
  std::string text;
  for (const WoodInStore& row : wood) {
    const std::string name = row.scion.empty() ? row.id : fmt::format("{} ({})", row.id, row.scion);
    const std::string left = row.count ? fmt::format(", {} left", *row.count) : std::string();
    const std::string use =
        !row.use_by ? std::string("how long it keeps is not known without its species")
        : *row.use_by < today
            ? fmt::format("no longer worth using since {}: {}", day_words(*row.use_by, today),
                          limit_words(row))
            : fmt::format("use it by {}; then {}", day_words(*row.use_by, today), limit_words(row));
    text +=
        labelled(style, Tone::quiet, text.empty() ? "wood" : "",
                 fmt::format("{}{}, cut {}: {}.", printable(name), left, day_words(row.cut_on, today), use));
  }
  return text;
}

}  // namespace graftcast
