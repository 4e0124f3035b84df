#include "since_care_text.hpp"

#include <algorithm>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/care_words.hpp"
#include "words/count_words.hpp"
#include "words/degree_day_words.hpp"
#include "words/verdict_words.hpp"

namespace graftcast {

namespace {

std::string season_left_words(const WaitOrRegraft& worth, LocalDay today) {
  if (worth.season_left_days > 0)
    return tr("the season lasts until {day}, {days} more", "day"_a = day_words(worth.window_closes, today),
              "days"_a = days_words(static_cast<std::size_t>(worth.season_left_days)));
  return tr("the next season opens on {day}", "day"_a = day_words(worth.window_opens, today));
}

std::string new_graft_words(const WaitOrRegraft& worth) {
  return worth.new_days ? tr("a new graft drinks after {days:.0f} days", "days"_a = *worth.new_days)
                        : tr("most new grafts would not drink within two months");
}

std::string values_words(const WaitOrRegraft& worth) {
  if (!worth.value_look)
    return tr("Waiting is worth {wait:.2f} of a graft that takes, grafting again now {regraft:.2f}",
              "wait"_a = worth.value_wait, "regraft"_a = worth.value_regraft);
  return tr(
      "Waiting is worth {wait:.2f} of a graft that takes, a look {look:.2f}, grafting again now "
      "{regraft:.2f}",
      "wait"_a = worth.value_wait, "look"_a = *worth.value_look, "regraft"_a = worth.value_regraft);
}

/// `Tue 1 Jul (25 Jun to 9 Jul)`, or the one day alone.
std::string due_words(const DateBand& due, LocalDay today) {
  if (!due.median) return tr("not before {day}", "day"_a = day_words(*due.p10, today));
  const std::string day = day_words(*due.median, today);
  if (*due.median < today) return tr("since {day}", "day"_a = day);
  if (due.p10 == due.p90 || !due.p10) return day;
  const std::string from = day_words(*due.p10, today);
  if (!due.p90) return tr("{day} ({from} or later)", "day"_a = day, "from"_a = from);
  return tr("{day} ({from} to {to})", "day"_a = day, "from"_a = from, "to"_a = day_words(*due.p90, today));
}

std::string limit_words(WoodLimit limit) {
  switch (limit) {
    case WoodLimit::rot:
      return tr("its foot rots and its buds run");
    case WoodLimit::stores:
      return tr("it has breathed away its stores");
    case WoodLimit::drying:
      return tr("it is too dry to callus well");
  }
  return {};
}

std::string use_words(const WoodInStore& wood, LocalDay today) {
  if (!wood.use_by || !wood.limit) return tr("how long it keeps is not known without its species");
  const std::string day = day_words(*wood.use_by, today), limit = limit_words(*wood.limit);
  return *wood.use_by < today
             ? tr("no longer worth using since {day}: {limit}", "day"_a = day, "limit"_a = limit)
             : tr("use it by {day}; then {limit}", "day"_a = day, "limit"_a = limit);
}

std::string wood_words(const WoodInStore& wood, LocalDay today) {
  const std::string name = printable(
      wood.scion.empty() ? wood.id : tr("{id} ({scion})", "id"_a = wood.id, "scion"_a = wood.scion));
  const std::string cut = day_words(wood.cut_on, today), use = use_words(wood, today);
  if (!wood.count) return tr("{wood}, cut {day}: {use}.", "wood"_a = name, "day"_a = cut, "use"_a = use);
  return tr("{wood}, {n} left, cut {day}: {use}.", "wood"_a = name, "n"_a = *wood.count, "day"_a = cut,
            "use"_a = use);
}

std::string outcome_words(const Attempt& attempt) {
  if (attempt.taken + attempt.dead + attempt.open + attempt.removed == 1)
    return attempt_outcome_words(attempt.outcome);
  if (attempt.removed > 0)
    return tr("{taken} taken, {lost} lost, {open} open, {removed} taken away", "taken"_a = attempt.taken,
              "lost"_a = attempt.dead, "open"_a = attempt.open, "removed"_a = attempt.removed);
  return tr("{taken} taken, {lost} lost, {open} open", "taken"_a = attempt.taken, "lost"_a = attempt.dead,
            "open"_a = attempt.open);
}

std::string attempts_words(std::size_t count) {
  return trn("{n} attempt", "{n} attempts", static_cast<long>(count), "n"_a = count);
}

std::vector<TextTable::Column> attempt_heads() {
  return {{trc("head", "id"), Align::left},     {trc("head", "made"), Align::left},
          {trc("head", "scion"), Align::left},  {trc("head", "method"), Align::left},
          {trc("head", "where"), Align::left},  {trc("head", "replaces"), Align::left},
          {trc("head", "outcome"), Align::left}};
}

}  // namespace

std::string worth_words(const GraftSince& graft, LocalDay today) {
  if (!graft.worth) return {};
  const std::vector<std::string> clauses{values_words(*graft.worth), season_left_words(*graft.worth, today),
                                         new_graft_words(*graft.worth)};
  return with_semicolons(clauses) + '.';
}

std::string care_lines(const GraftSince& graft, LocalDay today, const TerminalStyle& style) {
  std::string text;
  for (const CareTask& task : graft.aftercare) {
    if (!task.is_open()) continue;
    text += labelled(style, Tone::quiet, text.empty() ? trc("label", "then") : std::string{},
                     tr("{due}: {work}; {why}.", "due"_a = due_words(task.due, today),
                        "work"_a = care_words(task), "why"_a = care_reason_words(task)));
  }
  return text;
}

std::string count_lines(const GraftSince& graft, const TerminalStyle& style) {
  std::string text;
  for (std::size_t i = 1; i < graft.counts.size(); ++i)
    text += labelled(
        style, Tone::quiet, "",
        tr("{degree_days} ({rule}).", "degree_days"_a = degree_days_words(graft.counts[i].degree_days, style),
           "rule"_a = rule_words(graft.counts[i].rule, style)));
  return text;
}

std::string stock_block(const StockHistory& stock, LocalDay today, const TerminalStyle& style) {
  TextTable table(attempt_heads());
  for (const Attempt& attempt : stock.attempts)
    table.add({printable(attempt.id), day_words(attempt.grafted_on, today),
               printable(attempt.scion.empty() ? attempt.species : attempt.scion), printable(attempt.method),
               printable(attempt.position), printable(attempt.replaces), outcome_words(attempt)});
  return labelled(style, Tone::strong, trc("label", "stock"),
                  tr("{stock}: {attempts}.", "stock"_a = printable(stock.name),
                     "attempts"_a = attempts_words(stock.attempts.size()))) +
         table.text(style);
}

std::string wood_block(const std::vector<WoodInStore>& wood, LocalDay today, const TerminalStyle& style) {
  std::string text;
  for (const WoodInStore& row : wood)
    text += labelled(style, Tone::quiet, text.empty() ? trc("label", "wood") : std::string{},
                     wood_words(row, today));
  return text;
}

}  // namespace graftcast
