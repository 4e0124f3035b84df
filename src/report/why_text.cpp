// Why a graft was lost, for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"
#include "words/act_words.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

constexpr double noticeable = 0.01;  // a day that took one in a hundred is told of

std::string loss_dates_words(const DateBand& when, LocalDay near) {
  if (!when.median) return {};
  if (when.p10 == when.p90) return fmt::format(", most likely on {}", day_words(*when.median, near));
  return fmt::format(", most likely about {} ({} to {})", day_words(*when.median, near),
                     day_words(*when.p10, near), day_words(*when.p90, near));
}

std::string how_it_stands(const GraftWhy& graft, const ReportBasis& basis) {
  const std::string end = day_words(basis.clock->day_of(graft.until), basis.clock->day_of(basis.as_of));
  if (graft.outcome == "lost" || graft.outcome == "lost-in-part") {
    return fmt::format("{} noted dead{}, the last note on {}, {} after grafting",
                       counted(static_cast<std::size_t>(graft.lost), "graft"),
                       graft.outcome == "lost" ? "" : fmt::format(" of {}", graft.count), end,
                       age_words(graft.age_days));
  }
  return fmt::format("not noted as lost ({}): this is what has threatened it in the {} up to {}",
                     graft.outcome, age_words(graft.age_days), end);
}

std::string loss_words(const GraftWhy& graft, const ReportBasis& basis) {
  return fmt::format("{}. By then the weather alone loses {} of such grafts{}.", how_it_stands(graft, basis),
                     percent_words(graft.loss),
                     loss_dates_words(graft.when, basis.clock->day_of(basis.as_of)));
}

std::string unexplained_words(const GraftWhy& graft) {
  if (graft.lost == 0) {
    return fmt::format(
        "The weather has threatened it little so far: it loses {} of such grafts as it was, and {} with "
        "all that harms made harmless.",
        percent_words(graft.loss), percent_words(graft.loss_harmless));
  }
  return fmt::format(
      "The weather does not explain this: it loses {} of such grafts as it was, and {} with all "
      "that harms made harmless. Look at the fit, the wood, the bandage, pests and disease: {} "
      "in 100 by {} fail in any weather.",
      percent_words(graft.loss), percent_words(graft.loss_harmless),
      fmt::format("{:.0f}", 100 * graft.plain_failure), graft.method);
}

/// The first cause, and the next where it weighs anything near as much.
std::string causes_text(const GraftWhy& graft, const TerminalStyle& style) {
  std::string text;
  if (!graft.explained) text += labelled(style, Tone::pressing, "so", unexplained_words(graft));
  constexpr double worth_a_line = 0.1;
  std::string_view label = graft.explained ? "cause" : "else";
  for (const CauseShare& cause : graft.shares) {
    if (cause.cause == not_weather && !graft.explained) continue;
    if (&cause != &graft.shares.front() && cause.chance < worth_a_line) continue;
    text += labelled(style, graft.explained && label == "cause" ? Tone::strong : Tone::quiet, label,
                     fmt::format("{}, {}: {}.", cause_title(cause.cause), percent_words(cause.chance),
                                 printable(cause.fact)));
    label = "";
  }
  return text;
}

std::string signed_share(double share) {
  return fmt::format("{:+.2f}", share);
}

std::string shares_table(const GraftWhy& graft, const TerminalStyle& style) {
  TextTable table({{"", Align::left},
                   {"cause", Align::left},
                   {"share", Align::right},
                   {graft.signs.empty() ? "chance" : "with signs", Align::right},
                   {"without it", Align::right},
                   {"it alone", Align::right}});
  const auto percent = [](const std::optional<double>& p) {
    return p ? fmt::format("{:.0f} %", 100 * *p) : "";
  };
  for (const CauseShare& cause : graft.shares) {
    table.add({std::string(label_width - 2, ' '), std::string(cause_title(cause.cause)),
               signed_share(cause.share), percent(cause.chance), percent(cause.without),
               percent(cause.alone)});
  }
  return table.text(style);
}

std::string reached_words(const DateBand& band, LocalDay today) {
  return band.median ? "on " + day_words(*band.median, today) : std::string("not by then");
}

std::string clocks_words(const GraftWhy& graft, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  return fmt::format(
      "union {:.2f} of the bridge (bridged {}, drinking {}); buds {:.2f} of their way (moved {}).",
      graft.healing, reached_words(graft.bridged_on, today), reached_words(graft.drinking_from, today),
      graft.bud_clock, reached_words(graft.buds_moved_on, today));
}

std::string signs_words(const GraftWhy& graft, const ReportBasis& basis) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::vector<std::string> words;
  for (const SeenSign& sign : graft.signs)
    words.push_back(
        fmt::format("{} on {}", event_word(sign.event), day_words(basis.clock->day_of(sign.when), today)));
  return "noted: " + listed(words) + ", which weighs the causes.";
}

std::string saved_words(const SavingAction& action, const GraftWhy& graft, const ReportBasis& basis) {
  return fmt::format("{} ({:g} min), by {} at the latest: loss then {} instead of {}.",
                     printable(act_words(action.act)), action.minutes,
                     moment_words(*basis.clock, action.by, basis.as_of), percent_words(action.p_after),
                     percent_words(graft.loss));
}

std::string saving_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style) {
  if (!graft.explained) return {};
  if (graft.would_have_saved.empty()) {
    return labelled(style, Tone::quiet, graft.lost > 0 ? "saved" : "helps",
                    "No single thing that could be done for it here would have changed much.");
  }
  std::string text = labelled(style, Tone::strong, graft.lost > 0 ? "saved" : "helps",
                              "cheapest: " + saved_words(graft.would_have_saved.front(), graft, basis));
  constexpr std::size_t most_listed = 3;
  for (std::size_t i = 1; i < std::min(most_listed, graft.would_have_saved.size()); ++i)
    text += labelled(style, Tone::quiet, "", "also: " + saved_words(graft.would_have_saved[i], graft, basis));
  return text;
}

/// A narrow terminal has no room for the deficits and the buds' clock: JSON has them.
constexpr std::size_t room_for_all = 72;

TextTable days_table(const TerminalStyle& style) {
  const std::string unit(temperature_unit(style));
  std::vector<TextTable::Column> columns{
      {"day", Align::left},
      {"air", Align::right},
      {style.width < room_for_all ? "tissue" : "tissue " + unit, Align::right}};
  if (style.width >= room_for_all) {
    columns.push_back({"VPD", Align::right});
    columns.push_back({"own kPa", Align::right});
  }
  columns.push_back({"water", Align::right});
  columns.push_back({"healing", Align::right});
  if (style.width >= room_for_all) columns.push_back({"buds", Align::right});
  columns.push_back({"lost", Align::right});
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
  for (const std::string& note : day.notes) remarks.push_back("noted " + printable(note));
  cells.push_back(fmt::format("{}", fmt::join(remarks, ", ")));
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

std::string lesson_text(const GraftWhy& graft, const TerminalStyle& style) {
  std::string text;
  for (std::size_t i = 0; i < graft.lesson.size(); ++i) {
    const LessonStep& step = graft.lesson[i];
    text += '\n' + labelled(style, Tone::strong, fmt::format("{}.", i + 1),
                            printable(step.title) + ". " + printable(step.text));
    for (const std::string& source : step.sources)
      text += labelled(style, Tone::quiet, "source", printable(source));
  }
  return text;
}

std::string graft_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, "graft",
                              fmt::format("{}: {}", printable(graft.id), identity_words(graft)));
  text += labelled(style, Tone::quiet, "", loss_words(graft, basis));
  text += causes_text(graft, style);
  text += labelled(style, Tone::quiet, "clocks", clocks_words(graft, basis));
  if (!graft.signs.empty()) text += labelled(style, Tone::quiet, "signs", signs_words(graft, basis));
  text += saving_text(graft, basis, style);
  if (!graft.assumed.empty())
    text += labelled(style, Tone::quiet, "note", "not given and assumed: " + listed(graft.assumed));
  return text;
}

std::string groups_text(const WhyLosses& losses, const TerminalStyle& style) {
  TextTable table(
      {{"cause", Align::left}, {"lost", Align::right}, {"expected", Align::right}, {"grafts", Align::left}});
  for (const LossGroup& group : losses.groups) {
    if (group.ids.empty() && group.expected < 0.05) continue;
    table.add({std::string(cause_title(group.cause)), fmt::format("{}", group.grafts),
               fmt::format("{:.1f}", group.expected),
               printable(fmt::format("{}", fmt::join(group.ids, ", ")))});
  }
  return table.text(style);
}

std::string changes_text(const WhyLosses& losses, const TerminalStyle& style) {
  if (losses.changes.empty())
    return labelled(style, Tone::quiet, "change", "No single practice would have saved much of this.");
  std::string text;
  std::string_view label = "change";
  for (const PracticeChange& change : losses.changes) {
    const bool first = &change == &losses.changes.front();
    text += labelled(style, Tone::strong, label,
                     fmt::format("{}: {} {:.1f} of the {} lost ({}).", printable(act_words(change.act)),
                                 first ? "would have saved" : "would have saved another",
                                 first ? change.saved : change.adds, losses.lost,
                                 printable(fmt::format("{}", fmt::join(change.ids, ", ")))));
    label = "";
  }
  return text;
}

}  // namespace

std::string why_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style,
                     bool all_days) {
  std::string text = heading(basis, style) + '\n' + graft_text(graft, basis, style) + '\n';
  text += shares_table(graft, style);
  text += days_text(graft, basis, style, all_days);
  text += lesson_text(graft, style);
  return finished(style, ended(text + '\n', basis, style));
}

std::string why_losses_text(const WhyLosses& losses, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  if (losses.grafts.empty()) {
    text += labelled(
        style, Tone::quiet, "none",
        fmt::format("No graft made in the season {} is noted dead. Note losses with 'graftcast note ID "
                    "dead'.",
                    losses.season));
    return finished(style, ended(text + '\n', basis, style));
  }
  text += labelled(style, Tone::strong, "season",
                   fmt::format("{}: {} noted dead in {}.", losses.season,
                               counted(static_cast<std::size_t>(losses.lost), "graft"),
                               counted(losses.grafts.size(), "row")));
  text += changes_text(losses, style) + '\n' + groups_text(losses, style) + '\n';
  for (const GraftWhy& graft : losses.grafts) text += graft_text(graft, basis, style) + '\n';
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
