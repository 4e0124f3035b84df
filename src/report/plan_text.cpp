#include "plan_text.hpp"

#include <algorithm>

#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/plan_words.hpp"

namespace graftcast {

namespace {

constexpr double worth_a_word = 0.01;  // of one graft

std::string counted_supplies(const std::map<std::string, int>& supplies) {
  std::vector<std::string> parts;
  for (const auto& [name, count] : supplies)
    if (count > 0)
      parts.push_back(trc("some of a supply", "{n} {supply}", "n"_a = count, "supply"_a = printable(name)));
  return listed(parts);
}

/// The row, and how many of its grafts where they are several.
std::string share_words(const PlannedAct& planned, const MorningReport& report) {
  const auto graft = std::ranges::find(report.grafts, planned.id, &GraftMorning::id);
  const int of = graft == report.grafts.end() ? planned.count : graft->count;
  const std::string id = printable(planned.id);
  if (of == 1) return id;
  if (of == planned.count) return tr("{id} (all {all})", "id"_a = id, "all"_a = of);
  return tr("{id} ({n} of {all})", "id"_a = id, "n"_a = planned.count, "all"_a = of);
}

std::string planned_words(const PlannedAct& planned, const MorningReport& report) {
  return tr("{id}: {act}; {why}.", "id"_a = share_words(planned, report),
            "act"_a = printable(act_words(planned.act)), "why"_a = printable(plan_reason_words(planned)));
}

/// What one more of a supply would save, for those that are worth buying.
std::string marginal_words(const MorningPlan& plan) {
  std::vector<std::string> parts;
  for (const auto& [name, worth] : plan.marginal)
    if (worth >= worth_a_word)
      parts.push_back(trc("a supply and what it saves", "{supply} {saved:.2f}", "supply"_a = printable(name),
                          "saved"_a = worth));
  return parts.empty() ? std::string{} : tr("One more would save: {supplies}.", "supplies"_a = listed(parts));
}

std::string minutes_words(const MorningPlan& plan) {
  return plan.minutes_limit ? tr("{minutes:.0f} of {limit:.0f} minutes", "minutes"_a = plan.minutes,
                                 "limit"_a = *plan.minutes_limit)
                            : tr("{minutes:.0f} minutes of work", "minutes"_a = plan.minutes);
}

std::string plan_head(const MorningPlan& plan) {
  const std::string work = minutes_words(plan), supplies = counted_supplies(plan.supplies);
  if (supplies.empty())
    return tr("{work}; saves {saved:.1f} grafts (by their priority).", "work"_a = work,
              "saved"_a = plan.saved);
  return tr("{work}, with {supplies} at hand; saves {saved:.1f} grafts (by their priority).", "work"_a = work,
            "supplies"_a = supplies, "saved"_a = plan.saved);
}

}  // namespace

std::string plan_block(const MorningReport& report, const TerminalStyle& style) {
  const MorningPlan& plan = report.plan;
  if (plan.assigned.empty()) return {};
  std::string text = labelled(style, Tone::strong, trc("label", "plan"), plan_head(plan));
  for (const PlannedAct& planned : plan.assigned)
    text += labelled(style, Tone::quiet, "", planned_words(planned, report));
  if (!plan.unserved.empty())
    text += labelled(style, Tone::attentive, ' ' + trc("label", "short"),
                     tr("not enough for all of {rows}.", "rows"_a = printable(listed(plan.unserved))));
  if (const std::string more = marginal_words(plan); !more.empty())
    text += labelled(style, Tone::quiet, "  " + trc("label", "more"), more);
  if (!plan.not_counted.empty())
    text += labelled(style, Tone::quiet, "  " + trc("label", "note"),
                     tr("site.json does not count {supplies}; none is taken to be short.",
                        "supplies"_a = printable(listed(plan.not_counted))));
  return text;
}

}  // namespace graftcast
