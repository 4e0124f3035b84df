// The morning's list for a terminal.

#include <algorithm>
#include <span>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"

namespace graftcast {

namespace {

bool needs_block(const GraftMorning& graft) {
  return graft.urgency == Urgency::now || graft.urgency == Urgency::soon;
}

Tone tone_of(Urgency urgency) {
  if (urgency == Urgency::now) return Tone::urgent;
  return urgency == Urgency::soon ? Tone::pressing : Tone::attentive;
}

std::string risk_words(const GraftMorning& graft, const TerminalStyle& style) {
  return fmt::format("{} ({})", percent_words(graft.risk.p),
                     percent_range_words(style, graft.risk.low, graft.risk.high));
}

/// The action that the advice names, when it is one that was worked out.
const ActionOutcome* advised(const GraftMorning& graft) {
  const auto found = std::ranges::find(graft.actions, graft.advice.action, &ActionOutcome::action);
  return found == graft.actions.end() || graft.advice.action.empty() ? nullptr : &*found;
}

std::string undo_words(const GraftMorning& graft, const ReportBasis& basis) {
  if (!graft.advice.temporary) return {};
  if (!graft.advice.undo_from)
    return fmt::format("; needed for all of these {}",
                       counted(static_cast<std::size_t>(graft.horizon_days), "day"));
  return fmt::format("; undo it from {}", moment_words(*basis.clock, *graft.advice.undo_from, basis.as_of));
}

std::string do_words(const GraftMorning& graft, const ReportBasis& basis) {
  std::string words =
      printable(graft.advice.text.empty() ? "nothing that may be done helps" : graft.advice.text);
  if (graft.act_by) words += fmt::format(", by {}", moment_words(*basis.clock, *graft.act_by, basis.as_of));
  if (const ActionOutcome* action = advised(graft))
    words += fmt::format("; the risk is then {}", percent_words(action->p_after));
  words += undo_words(graft, basis);
  return words + '.';
}

std::string standing(const GraftMorning& graft, const TerminalStyle& style) {
  return fmt::format("{} old, {}; {} risk of loss to weather in {}.", age_words(graft.age_days),
                     stage_name(graft.stage), risk_words(graft, style),
                     counted(static_cast<std::size_t>(graft.horizon_days), "day")) +
         (graft.alive < 0.9 ? fmt::format(" It lives with a chance of {}.", percent_words(graft.alive)) : "");
}

/// A bar a day of the hottest tissue in the days ahead.
std::string week_words(const GraftMorning& graft, const ReportBasis& basis, const TerminalStyle& style) {
  std::vector<double> hottest;
  for (const ComingDay& day : graft.coming) hottest.push_back(day.tissue_max_c);
  const auto [low, high] = std::ranges::minmax_element(hottest);
  return fmt::format("{} hottest tissue each day from {}: {}{}{} {}", sparkline(hottest),
                     day_words(graft.coming.front().day, basis.clock->day_of(basis.as_of)),
                     temperature_figure(style, *low), range_dash(style), temperature_figure(style, *high),
                     temperature_unit(style));
}

/// Reasons after the first: what is peculiar to this graft, and what had to be assumed of it.
std::string note_words(const GraftMorning& graft) {
  const auto more = std::span(graft.reasons).subspan(std::min<std::size_t>(1, graft.reasons.size()));
  return printable(fmt::format("{}", fmt::join(more, "; ")));
}

std::string block(const GraftMorning& graft, const ReportBasis& basis, const TerminalStyle& style) {
  const Tone tone = tone_of(graft.urgency);
  std::string text = labelled(style, tone, graft.urgency == Urgency::now ? "NOW" : "SOON",
                              fmt::format("{}: {}", printable(graft.id), identity_words(graft)));
  text += labelled(style, tone, "", standing(graft, style));
  text += labelled(style, Tone::strong, "  do", do_words(graft, basis));
  if (!graft.reasons.empty()) text += labelled(style, Tone::quiet, "  why", printable(graft.reasons.front()));
  if (style.utf8 && graft.coming.size() > 1)
    text += labelled(style, Tone::quiet, "  week", week_words(graft, basis, style));
  if (const std::string note = note_words(graft); !note.empty())
    text += labelled(style, Tone::quiet, "  note", note);
  return text + '\n';
}

std::string watch_line(const GraftMorning& graft, const TerminalStyle& style) {
  std::string words = fmt::format("{}: {} old, {}, {}", printable(graft.id), age_words(graft.age_days),
                                  stage_name(graft.stage), risk_words(graft, style));
  if (!graft.cause.empty()) words += fmt::format(", {}", graft.cause);
  if (graft.advice.action == "look")
    return labelled(style, Tone::attentive, "watch",
                    clipped(fmt::format("{}: {} old; most likely lost ({} alive): {}; {}",
                                        printable(graft.id), age_words(graft.age_days),
                                        percent_words(graft.alive), graft.advice.text, identity_words(graft)),
                            std::max(style.width, least_width) - label_width, cut_mark(style)));
  if (graft.advice.action == "stake") words += fmt::format(", wind: {}", graft.advice.text);
  words += fmt::format("; {}", identity_words(graft));
  return labelled(style, Tone::attentive, "watch",
                  clipped(words, std::max(style.width, least_width) - label_width, cut_mark(style)));
}

std::string site_line(const MorningReport& report, const ReportBasis& basis) {
  std::size_t pieces = 0;
  for (const GraftMorning& graft : report.grafts) pieces += static_cast<std::size_t>(graft.count);
  return fmt::format("{}, {}: {} open in {}.", printable(basis.site),
                     moment_words(*basis.clock, basis.as_of, basis.as_of), counted(pieces, "graft"),
                     counted(report.grafts.size(), "row"));
}

std::string leave_words(const MorningReport& report) {
  const auto left =
      static_cast<std::size_t>(std::ranges::count(report.grafts, Urgency::leave, &GraftMorning::urgency));
  if (left == 0) return {};
  return fmt::format("{} alone: nothing to do there.", counted(left, "row"));
}

std::string counted_supplies(const std::map<std::string, int>& supplies) {
  std::vector<std::string> parts;
  for (const auto& [name, count] : supplies)
    if (count > 0) parts.push_back(fmt::format("{} {}", count, printable(name)));
  return listed(parts);
}

std::string planned_words(const PlannedAction& planned, const MorningReport& report) {
  const auto graft = std::ranges::find(report.grafts, planned.id, &GraftMorning::id);
  const int of = graft == report.grafts.end() ? planned.count : graft->count;
  const std::string share = of == 1               ? ""
                            : of == planned.count ? fmt::format(" (all {})", of)
                                                  : fmt::format(" ({} of {})", planned.count, of);
  return fmt::format("{}{}: {}; {}.", printable(planned.id), share, printable(planned.text),
                     printable(planned.why));
}

/// What one more of a supply would save, for those that are worth buying.
std::string marginal_words(const MorningPlan& plan) {
  std::vector<std::string> parts;
  for (const auto& [name, worth] : plan.marginal)
    if (worth >= 0.01) parts.push_back(fmt::format("{} {:.2f}", printable(name), worth));
  return parts.empty() ? std::string{} : fmt::format("One more would save: {}.", listed(parts));
}

std::string plan_head(const MorningPlan& plan) {
  std::string words = plan.minutes_limit
                          ? fmt::format("{:.0f} of {:.0f} minutes", plan.minutes, *plan.minutes_limit)
                          : fmt::format("{:.0f} minutes of work", plan.minutes);
  const std::string supplies = counted_supplies(plan.supplies);
  if (!supplies.empty()) words += fmt::format(", with {} at hand", supplies);
  return words + fmt::format("; saves {:.1f} grafts (by their priority).", plan.saved);
}

std::string plan_block(const MorningReport& report, const TerminalStyle& style) {
  const MorningPlan& plan = report.plan;
  if (plan.assigned.empty()) return {};
  std::string text = labelled(style, Tone::strong, "plan", plan_head(plan));
  for (const PlannedAction& planned : plan.assigned)
    text += labelled(style, Tone::quiet, "", planned_words(planned, report));
  if (!plan.unserved.empty())
    text += labelled(style, Tone::attentive, " short",
                     fmt::format("not enough for all of {}.", printable(listed(plan.unserved))));
  if (const std::string more = marginal_words(plan); !more.empty())
    text += labelled(style, Tone::quiet, "  more", more);
  if (!plan.not_counted.empty())
    text += labelled(style, Tone::quiet, "  note",
                     fmt::format("site.json does not count {}; none is taken to be short.",
                                 printable(listed(plan.not_counted))));
  return text;
}

/// Ids as a list, the first few where they are many.
std::string few_ids(const std::vector<std::string>& ids) {
  constexpr std::size_t most = 6;
  if (ids.size() <= most) return listed(ids);
  const std::vector<std::string> first(ids.begin(), ids.begin() + most);
  return fmt::format("{} and {} more", fmt::join(first, ", "), ids.size() - most);
}

/// Work on the stocks and shoots, a paragraph a task.
std::string due_block(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::string text;
  for (const DueTask& due : report.also_due) {
    const std::string since =
        due.due < today ? fmt::format(" (since {})", day_words(due.due, today)) : std::string();
    const std::string words =
        fmt::format("{}{}: {}", printable(few_ids(due.ids)), since, printable(due.text));
    text += labelled(style, text.empty() ? Tone::strong : Tone::quiet, text.empty() ? "due" : "", words);
  }
  return text;
}

constexpr std::string_view none_open =
    "No graft is open: none had been made by then, or all are noted as taken or dead. "
    "Record new ones with 'graftcast graft'.";

}  // namespace

std::string morning_text(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  text += labelled(style, Tone::quiet, "site",
                   report.grafts.empty() ? std::string(none_open) : site_line(report, basis));
  text += '\n';
  for (const GraftMorning& graft : report.grafts)
    if (needs_block(graft)) text += block(graft, basis, style);
  for (const GraftMorning& graft : report.grafts)
    if (graft.urgency == Urgency::watch) text += watch_line(graft, style);
  if (const std::string leave = leave_words(report); !leave.empty())
    text += labelled(style, Tone::quiet, "leave", leave);
  if (const std::string due = due_block(report, basis, style); !due.empty()) text += '\n' + due;
  if (const std::string plan = plan_block(report, style); !plan.empty()) text += '\n' + plan;
  return finished(style, ended(text, basis, style));
}

std::string morning_brief(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  const auto rows = [&](Urgency urgency) {
    return std::ranges::count(report.grafts, urgency, &GraftMorning::urgency);
  };
  std::string line = fmt::format("{}, {}: {} now, {} soon, {} to watch, {} alone", printable(basis.site),
                                 moment_words(*basis.clock, basis.as_of, basis.as_of), rows(Urgency::now),
                                 rows(Urgency::soon), rows(Urgency::watch), rows(Urgency::leave));
  const auto worst =
      std::ranges::max_element(report.grafts, {}, [](const GraftMorning& graft) { return graft.risk.p; });
  if (worst != report.grafts.end() && worst->urgency != Urgency::leave) {
    line += fmt::format("; {}: risk {}", printable(worst->id), risk_words(*worst, style));
    line += fmt::format(", {}", do_words(*worst, basis));
  }
  return finished(style, line + '\n');
}

}  // namespace graftcast
