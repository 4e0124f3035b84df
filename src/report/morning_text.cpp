// The morning's list for a terminal.

#include <algorithm>
#include <span>

#include "plan_text.hpp"
#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/care_words.hpp"
#include "words/count_words.hpp"
#include "words/reason_words.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

constexpr double surely_alive = 0.9;  // from then on nothing is said of it

bool needs_block(const GraftMorning& graft) {
  return graft.urgency == Urgency::now || graft.urgency == Urgency::soon;
}

Tone tone_of(Urgency urgency) {
  if (urgency == Urgency::now) return Tone::urgent;
  return urgency == Urgency::soon ? Tone::pressing : Tone::attentive;
}

std::string risk_words_of(const GraftMorning& graft, const TerminalStyle& style) {
  return tr("{risk} ({range})", "risk"_a = percent_words(graft.risk.p),
            "range"_a = percent_range_words(style, graft.risk.low, graft.risk.high));
}

std::string moment_of(Instant when, const ReportBasis& basis) {
  return moment_words(*basis.clock, when, basis.as_of);
}

std::string undo_words(const GraftMorning& graft, const ReportBasis& basis) {
  if (graft.advice.undo_from)
    return tr("undo it from {moment}", "moment"_a = moment_of(*graft.advice.undo_from, basis));
  return tr("needed for all of these {days}",
            "days"_a = days_words(static_cast<std::size_t>(graft.horizon_days)));
}

/// What to do and by when, what that leaves of the risk, and until when it is needed.
std::string do_words(const GraftMorning& graft, const ReportBasis& basis) {
  const std::string act = graft.advice.act.is_none() ? tr("nothing that may be done helps")
                                                     : printable(act_words(graft.advice.act));
  std::vector<std::string> clauses;
  clauses.push_back(
      graft.act_by ? tr("{act}, by {moment}", "act"_a = act, "moment"_a = moment_of(*graft.act_by, basis))
                   : act);
  if (const ActOutcome* outcome = graft.advised())
    clauses.push_back(tr("the risk is then {risk}", "risk"_a = percent_words(outcome->p_after)));
  if (graft.advice.temporary) clauses.push_back(undo_words(graft, basis));
  return with_semicolons(clauses) + '.';
}

std::string standing(const GraftMorning& graft, const TerminalStyle& style) {
  const std::string words =
      tr("{age} old, {stage}; {risk} risk of loss to weather in {days}.", "age"_a = age_words(graft.age_days),
         "stage"_a = stage_words(graft.stage), "risk"_a = risk_words_of(graft, style),
         "days"_a = days_words(static_cast<std::size_t>(graft.horizon_days)));
  if (graft.alive >= surely_alive) return words;
  return words + ' ' + tr("It lives with a chance of {chance}.", "chance"_a = percent_words(graft.alive));
}

/// A bar a day of the hottest tissue in the days ahead.
std::string week_words(const GraftMorning& graft, const ReportBasis& basis, const TerminalStyle& style) {
  std::vector<double> hottest;
  for (const ComingDay& day : graft.coming) hottest.push_back(day.tissue_max_c);
  const auto [low, high] = std::ranges::minmax_element(hottest);
  return tr("{bars} hottest tissue each day from {day}: {low}{dash}{high} {unit}",
            "bars"_a = sparkline(hottest),
            "day"_a = day_words(graft.coming.front().day, basis.clock->day_of(basis.as_of)),
            "low"_a = temperature_figure(style, *low), "dash"_a = range_dash(style),
            "high"_a = temperature_figure(style, *high), "unit"_a = temperature_unit(style));
}

std::string titled(const GraftMorning& graft) {
  return tr("{id}: {identity}", "id"_a = printable(graft.id), "identity"_a = identity_words(graft));
}

/// The first reason; then what is peculiar to this graft, and what had to be assumed of it.
std::string why_lines(const GraftMorning& graft, const ReportBasis& basis, const TerminalStyle& style) {
  const std::vector<std::string> reasons = reasons_words(graft.reasons, style.units);
  std::string text;
  if (!reasons.empty())
    text += labelled(style, Tone::quiet, "  " + trc("label", "why"), printable(reasons.front()));
  if (style.utf8 && graft.coming.size() > 1)
    text += labelled(style, Tone::quiet, "  " + trc("label", "week"), week_words(graft, basis, style));
  if (reasons.size() > 1)
    text += labelled(style, Tone::quiet, "  " + trc("label", "note"),
                     printable(with_semicolons(std::span(reasons).subspan(1))));
  return text;
}

std::string block(const GraftMorning& graft, const ReportBasis& basis, const TerminalStyle& style) {
  const Tone tone = tone_of(graft.urgency);
  const std::string label = graft.urgency == Urgency::now ? trc("label", "NOW") : trc("label", "SOON");
  return labelled(style, tone, label, titled(graft)) + labelled(style, tone, "", standing(graft, style)) +
         labelled(style, Tone::strong, "  " + trc("label", "do"), do_words(graft, basis)) +
         why_lines(graft, basis, style) + '\n';
}

std::string likely_lost_words(const GraftMorning& graft) {
  return tr("{id}: {age} old; most likely lost ({chance} alive): {act}; {identity}",
            "id"_a = printable(graft.id), "age"_a = age_words(graft.age_days),
            "chance"_a = percent_words(graft.alive), "act"_a = act_words(graft.advice.act),
            "identity"_a = identity_words(graft));
}

std::string watch_words(const GraftMorning& graft, const TerminalStyle& style) {
  if (graft.advice.act.kind == ActKind::look) return likely_lost_words(graft);
  std::vector<std::string> parts{
      tr("{id}: {age} old", "id"_a = printable(graft.id), "age"_a = age_words(graft.age_days)),
      stage_words(graft.stage), risk_words_of(graft, style)};
  if (graft.cause) parts.push_back(cause_words(*graft.cause));
  if (graft.advice.act.kind == ActKind::stake)
    parts.push_back(tr("wind: {act}", "act"_a = act_words(graft.advice.act)));
  return with_semicolons(std::vector{with_commas(parts), identity_words(graft)});
}

std::string watch_line(const GraftMorning& graft, const TerminalStyle& style) {
  return labelled(
      style, Tone::attentive, trc("label", "watch"),
      clipped(watch_words(graft, style), std::max(style.width, least_width) - label_width, cut_mark(style)));
}

std::string site_words(const MorningReport& report, const ReportBasis& basis) {
  if (report.grafts.empty())
    return tr(
        "No graft is open: none had been made by then, or all are noted as taken or dead. Record new ones "
        "with 'graftcast graft'.");
  std::size_t pieces = 0;
  for (const GraftMorning& graft : report.grafts) pieces += static_cast<std::size_t>(graft.count);
  return tr("{site}, {moment}: {grafts} open in {rows}.", "site"_a = printable(basis.site),
            "moment"_a = moment_of(basis.as_of, basis), "grafts"_a = grafts_words(pieces),
            "rows"_a = rows_words(report.grafts.size()));
}

long rows_of(const MorningReport& report, Urgency urgency) {
  return std::ranges::count(report.grafts, urgency, &GraftMorning::urgency);
}

std::string leave_words(long rows) {
  return trn("{n} row alone: nothing to do there.", "{n} rows alone: nothing to do there.", rows,
             "n"_a = rows);
}

/// Ids as a list, the first few where they are many.
std::string few_ids(const std::vector<std::string>& ids) {
  constexpr std::size_t most = 6;
  if (ids.size() <= most) return listed(ids);
  const auto more = static_cast<long>(ids.size() - most);
  return trn("{ids} and {n} more", "{ids} and {n} more", more,
             "ids"_a = with_commas(std::span(ids).first(most)), "n"_a = more);
}

std::string due_words_of(const DueTask& due, LocalDay today) {
  const std::string ids = printable(few_ids(due.ids)), work = care_words(due.first);
  if (due.due >= today) return tr("{ids}: {work}", "ids"_a = ids, "work"_a = work);
  return tr("{ids} (since {day}): {work}", "ids"_a = ids, "day"_a = day_words(due.due, today),
            "work"_a = work);
}

/// Work on the stocks and shoots, a paragraph a task.
std::string due_block(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text;
  for (const DueTask& due : report.also_due)
    text += labelled(style, text.empty() ? Tone::strong : Tone::quiet,
                     text.empty() ? trc("label", "due") : std::string{},
                     due_words_of(due, basis.clock->day_of(basis.as_of)));
  return text;
}

std::string brief_counts(const MorningReport& report, const ReportBasis& basis) {
  return tr("{site}, {moment}: {now} now, {soon} soon, {watch} to watch, {leave} alone",
            "site"_a = printable(basis.site), "moment"_a = moment_of(basis.as_of, basis),
            "now"_a = rows_of(report, Urgency::now), "soon"_a = rows_of(report, Urgency::soon),
            "watch"_a = rows_of(report, Urgency::watch), "leave"_a = rows_of(report, Urgency::leave));
}

}  // namespace

std::string morning_text(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string text = heading(basis, style);
  text += labelled(style, Tone::quiet, trc("label", "site"), site_words(report, basis)) + '\n';
  for (const GraftMorning& graft : report.grafts)
    if (needs_block(graft)) text += block(graft, basis, style);
  for (const GraftMorning& graft : report.grafts)
    if (graft.urgency == Urgency::watch) text += watch_line(graft, style);
  if (const long left = rows_of(report, Urgency::leave); left > 0)
    text += labelled(style, Tone::quiet, trc("label", "leave"), leave_words(left));
  if (const std::string due = due_block(report, basis, style); !due.empty()) text += '\n' + due;
  if (const std::string plan = plan_block(report, style); !plan.empty()) text += '\n' + plan;
  return finished(style, ended(text, basis, style));
}

std::string morning_brief(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  std::string line = brief_counts(report, basis);
  const auto worst =
      std::ranges::max_element(report.grafts, {}, [](const GraftMorning& graft) { return graft.risk.p; });
  if (worst != report.grafts.end() && worst->urgency != Urgency::leave)
    line = tr("{counts}; {id}: risk {risk}, {act}", "counts"_a = line, "id"_a = printable(worst->id),
              "risk"_a = risk_words_of(*worst, style), "act"_a = do_words(*worst, basis));
  return finished(style, line + '\n');
}

}  // namespace graftcast
