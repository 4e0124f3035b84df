// Why a graft was lost, for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/act_words.hpp"
#include "words/count_words.hpp"
#include "words/date_words.hpp"
#include "words/lesson_words.hpp"
#include "words/loss_words.hpp"
#include "words/state_words.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

constexpr double noticeable = 0.01;  // a day that took one in a hundred is told of

std::string culprit_line(const CulpritShare& share, const TerminalStyle& style) {
  const std::string fact = printable(culprit_fact_words(share.fact, style.units));
  return tr("{culprit}, {chance}: {fact}.", "culprit"_a = culprit_words(share.culprit),
            "chance"_a = percent_words(share.chance), "fact"_a = fact);
}

/// The first cause, and the next where it weighs anything near as much.
std::string causes_text(const GraftWhy& graft, const TerminalStyle& style) {
  std::string text;
  if (!graft.explained) text += labelled(style, Tone::pressing, trc("label", "so"), unexplained_words(graft));
  constexpr double worth_a_line = 0.1;
  std::string label = graft.explained ? trc("label", "cause") : trc("label", "else");
  for (const CulpritShare& share : graft.shares) {
    if (share.culprit == not_weather && !graft.explained) continue;
    const bool is_first = &share == &graft.shares.front();
    if (!is_first && share.chance < worth_a_line) continue;
    const bool is_told_first = graft.explained && !label.empty();
    text += labelled(style, is_told_first ? Tone::strong : Tone::quiet, label, culprit_line(share, style));
    label.clear();
  }
  return text;
}

std::string signed_share(double share) {
  return fmt::format("{:+.2f}", share);
}

std::string shares_table(const GraftWhy& graft, const TerminalStyle& style) {
  TextTable table({{"", Align::left},
                   {trc("head", "cause"), Align::left},
                   {trc("head", "share"), Align::right},
                   {graft.signs.empty() ? trc("head", "chance") : trc("head", "with signs"), Align::right},
                   {trc("head", "without it"), Align::right},
                   {trc("head", "it alone"), Align::right}});
  const auto percent = [](const std::optional<double>& p) {
    return p ? fmt::format("{:.0f} %", 100 * *p) : "";
  };
  for (const CulpritShare& share : graft.shares) {
    table.add({std::string(label_width - 2, ' '), culprit_words(share.culprit), signed_share(share.share),
               percent(share.chance), percent(share.without), percent(share.alone)});
  }
  return table.text(style);
}

std::string reached_words(const DateBand& band, LocalDay today) {
  return band.median ? trc("date", "on {day}", "day"_a = day_words(*band.median, today))
                     : trc("date", "not by then");
}

std::string clocks_words(const GraftWhy& graft, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  return tr(
      "union {healing:.2f} of the bridge (bridged {bridged}, drinking {drinking}); buds {buds:.2f} of "
      "their way (moved {moved}).",
      "healing"_a = graft.healing, "bridged"_a = reached_words(graft.bridged_on, today),
      "drinking"_a = reached_words(graft.drinking_from, today), "buds"_a = graft.bud_clock,
      "moved"_a = reached_words(graft.buds_moved_on, today));
}

std::string signs_words(const GraftWhy& graft, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::vector<std::string> words;
  for (const SeenSign& sign : graft.signs)
    words.push_back(tr("{sign} on {day}", "sign"_a = event_word(sign.event),
                       "day"_a = day_words(basis.clock->day_of(sign.when), today)));
  return tr("noted: {signs}, which weighs the causes.", "signs"_a = listed(words));
}

std::string saved_words(const SavingAction& saving, const GraftWhy& graft, const ReportBasis& basis) {
  return tr("{act} ({minutes:g} min), by {moment} at the latest: loss then {after} instead of {before}.",
            "act"_a = printable(act_words(saving.act)), "minutes"_a = saving.minutes,
            "moment"_a = moment_words(*basis.clock, saving.by, basis.as_of),
            "after"_a = percent_words(saving.p_after), "before"_a = percent_words(graft.loss));
}

std::string saving_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style) {
  if (!graft.explained) return {};
  const std::string label = graft.lost > 0 ? trc("label", "saved") : trc("label", "helps");
  if (graft.would_have_saved.empty())
    return labelled(style, Tone::quiet, label,
                    tr("No single thing that could be done for it here would have changed much."));
  std::string text =
      labelled(style, Tone::strong, label,
               tr("cheapest: {act}", "act"_a = saved_words(graft.would_have_saved.front(), graft, basis)));
  constexpr std::size_t most_listed = 3;
  for (std::size_t i = 1; i < std::min(most_listed, graft.would_have_saved.size()); ++i)
    text += labelled(style, Tone::quiet, "",
                     tr("also: {act}", "act"_a = saved_words(graft.would_have_saved[i], graft, basis)));
  return text;
}

/// A narrow terminal has no room for the deficits and the buds' clock: JSON has them.
constexpr std::size_t room_for_all = 72;

TextTable days_table(const TerminalStyle& style) {
  const bool is_wide = style.width >= room_for_all;
  std::vector<TextTable::Column> columns{
      {trc("head", "day"), Align::left},
      {trc("head", "air"), Align::right},
      {is_wide ? tr("tissue {unit}", "unit"_a = temperature_unit(style)) : trc("head", "tissue"),
       Align::right}};
  if (is_wide) {
    columns.push_back({trc("head", "VPD"), Align::right});
    columns.push_back({trc("head", "own kPa"), Align::right});
  }
  columns.push_back({trc("head", "water"), Align::right});
  columns.push_back({trc("head", "healing"), Align::right});
  if (is_wide) columns.push_back({trc("head", "buds"), Align::right});
  columns.push_back({trc("head", "lost"), Align::right});
  columns.push_back({"", Align::left});
  return TextTable(std::move(columns));
}

std::vector<std::string> day_cells(const WhyDay& day, LocalDay today, const TerminalStyle& style) {
  std::vector<std::string> cells{day_words(day.day, today), temperature_figure(style, day.air_max_c),
                                 temperature_figure(style, day.tissue_max_c)};
  const auto figure = [&](double value, int decimals) {
    cells.push_back(fmt::format("{:.{}f}", value, decimals));
  };
  if (style.width >= room_for_all) {
    figure(day.vpd_max_kpa, 1);
    figure(day.own_vpd_max_kpa, 1);
  }
  figure(day.water, 2);
  figure(day.healing, 2);
  if (style.width >= room_for_all) figure(day.bud_clock, 2);
  cells.push_back(fmt::format("{:.0f} %", 100 * day.lost));
  std::vector<std::string> remarks = day_flags_words(day.flags);
  for (const EventNote& note : day.notes)
    remarks.push_back(tr("noted {note}", "note"_a = printable(note_words(note))));
  cells.push_back(with_commas(remarks));
  return cells;
}

std::string days_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style, bool all) {
  TextTable table = days_table(style);
  const LocalDay today = basis.clock->day_of(basis.as_of);
  double before = 0;
  bool any = false;
  for (const WhyDay& day : graft.days) {
    const bool hard = std::ranges::any_of(day.flags, [](DayFlag flag) { return flag != DayFlag::mould; });
    const bool told = all || hard || !day.notes.empty() || day.lost - before >= noticeable;
    before = day.lost;
    if (told) table.add(day_cells(day, today, style));
    any = any || told;
  }
  return any ? '\n' + table.text(style) : std::string();
}

std::string lesson_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  std::size_t number = 0;
  for (const LessonStep& step : lesson_steps(graft, *basis.clock, style.units)) {
    text += '\n' + labelled(style, Tone::strong, fmt::format("{}.", ++number),
                            printable(step.title) + ". " + printable(step.text));
    for (const std::string& source : step.sources)
      text += labelled(style, Tone::quiet, trc("label", "source"), printable(source));
  }
  return text;
}

std::string graft_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, trc("label", "graft"),
                              fmt::format("{}: {}", printable(graft.id), identity_words(graft)));
  text += labelled(style, Tone::quiet, "", loss_words(graft, *basis.clock, basis.as_of));
  text += causes_text(graft, style);
  text += labelled(style, Tone::quiet, trc("label", "clocks"), clocks_words(graft, basis));
  if (!graft.signs.empty())
    text += labelled(style, Tone::quiet, trc("label", "signs"), signs_words(graft, basis));
  text += saving_text(graft, basis, style);
  if (!graft.assumed.empty())
    text += labelled(style, Tone::quiet, trc("label", "note"),
                     tr("not given and assumed: {cells}", "cells"_a = listed(graft.assumed)));
  return text;
}

std::string groups_text(const WhyLosses& losses, const TerminalStyle& style) {
  TextTable table({{trc("head", "cause"), Align::left},
                   {trc("head", "lost"), Align::right},
                   {trc("head", "expected"), Align::right},
                   {trc("head", "grafts"), Align::left}});
  for (const LossGroup& group : losses.groups) {
    if (group.ids.empty() && group.expected < 0.05) continue;
    table.add({culprit_words(group.culprit), fmt::format("{}", group.grafts),
               fmt::format("{:.1f}", group.expected), printable(with_commas(group.ids))});
  }
  return table.text(style);
}

std::string change_words(const PracticeChange& change, bool is_first, int lost) {
  const std::string act = printable(act_words(change.act)), grafts = printable(with_commas(change.ids));
  return is_first ? tr("{act}: would have saved {saved:.1f} of the {lost} lost ({grafts}).", "act"_a = act,
                       "saved"_a = change.saved, "lost"_a = lost, "grafts"_a = grafts)
                  : tr("{act}: would have saved another {saved:.1f} of the {lost} lost ({grafts}).",
                       "act"_a = act, "saved"_a = change.adds, "lost"_a = lost, "grafts"_a = grafts);
}

std::string changes_text(const WhyLosses& losses, const TerminalStyle& style) {
  std::string label = trc("label", "change");
  if (losses.changes.empty())
    return labelled(style, Tone::quiet, label, tr("No single practice would have saved much of this."));
  std::string text;
  for (const PracticeChange& change : losses.changes) {
    text += labelled(style, Tone::strong, label, change_words(change, !label.empty(), losses.lost));
    label.clear();
  }
  return text;
}

}  // namespace

std::string why_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style,
                     bool all_days) {
  std::string text = heading(basis, style) + '\n' + graft_text(graft, basis, style) + '\n';
  text += shares_table(graft, style);
  text += days_text(graft, basis, style, all_days);
  text += lesson_text(graft, basis, style);
  return finished(style, ended(text + '\n', basis, style));
}

std::string why_losses_text(const WhyLosses& losses, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  if (losses.grafts.empty()) {
    text +=
        labelled(style, Tone::quiet, trc("label", "none"),
                 tr("No graft made in the season {season} is noted dead. Note losses with 'graftcast note "
                    "ID dead'.",
                    "season"_a = losses.season));
    return finished(style, ended(text + '\n', basis, style));
  }
  text += labelled(style, Tone::strong, trc("label", "season"),
                   tr("{season}: {grafts} noted dead in {rows}.", "season"_a = losses.season,
                      "grafts"_a = grafts_words(static_cast<std::size_t>(losses.lost)),
                      "rows"_a = rows_words(losses.grafts.size())));
  text += changes_text(losses, style) + '\n' + groups_text(losses, style) + '\n';
  for (const GraftWhy& graft : losses.grafts) text += graft_text(graft, basis, style) + '\n';
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
