// The plan for the covers at hand, and how the page ends.

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/plan_words.hpp"

namespace graftcast {

namespace {

/// Empty where there are no sentences.
std::string list_of(std::string_view id, const std::string& heading,
                    const std::vector<std::string>& sentences) {
  if (sentences.empty()) return {};
  std::string html = fmt::format("<section aria-labelledby=\"{0}\"><h2 id=\"{0}\">{1}</h2>\n<ul>\n", id,
                                 html_sentence(heading));
  for (const std::string& sentence : sentences) html += "<li>" + html_sentence(as_sentence(sentence)) + '\n';
  return html + "</ul>\n</section>\n";
}

/// Those that stand above the list are not said twice.
std::vector<std::string> cautions_at_the_end(const PageBasis& page) {
  std::vector<std::string> cautions;
  std::ranges::copy_if(page.basis.cautions, std::back_inserter(cautions), [&](const std::string& caution) {
    return std::ranges::find(page.content.heat, caution) == page.content.heat.end();
  });
  return cautions;
}

std::string saves_words(const MorningPlan& plan) {
  if (plan.minutes_limit)
    return tr("{minutes:.0f} of {limit:.0f} minutes; saves {saved:.1f} grafts (by their priority).",
              "minutes"_a = plan.minutes, "limit"_a = *plan.minutes_limit, "saved"_a = plan.saved);
  return tr("{minutes:.0f} minutes of work; saves {saved:.1f} grafts (by their priority).",
            "minutes"_a = plan.minutes, "saved"_a = plan.saved);
}

/// With a blank before it; empty where nothing is at hand.
std::string supply_words(const MorningPlan& plan) {
  std::vector<std::string> parts;
  for (const auto& [name, count] : plan.supplies) {
    if (count == 0) continue;
    const auto left = plan.left.find(name);
    parts.push_back(tr("{n} {supply} ({left} left)", "n"_a = count, "supply"_a = name,
                       "left"_a = left == plan.left.end() ? 0 : left->second));
  }
  return parts.empty() ? std::string{} : ' ' + tr("At hand: {supplies}.", "supplies"_a = listed(parts));
}

std::string planned_item(const PlannedAct& planned, const MorningReport& report) {
  const auto graft = std::ranges::find(report.grafts, planned.id, &GraftMorning::id);
  const int of = graft == report.grafts.end() ? planned.count : graft->count;
  const std::string id = marked(Part::name, planned.id);
  const std::string which =
      of == 1 ? id : tr("{id} ({n} of {all})", "id"_a = id, "n"_a = planned.count, "all"_a = of);
  return "<li>" +
         html_marked(tr("{id}: {act}; {why}.", "id"_a = which, "act"_a = act_words(planned.act),
                        "why"_a = plan_reason_words(planned))) +
         '\n';
}

std::string short_line(const MorningPlan& plan) {
  if (plan.unserved.empty()) return {};
  std::vector<std::string> names;
  for (const std::string& id : plan.unserved) names.push_back(marked(Part::name, id));
  return "<p>" +
         html_marked(tr("{short} not enough for all of {rows}.",
                        "short"_a = marked(Part::strong, tr("Short:")), "rows"_a = listed(names))) +
         "</p>\n";
}

std::string more_line(const MorningPlan& plan) {
  constexpr double worth_a_word = 0.01;
  std::vector<std::string> parts;
  for (const auto& [name, worth] : plan.marginal)
    if (worth >= worth_a_word)
      parts.push_back(
          trc("a supply and what it saves", "{supply} {saved:.2f}", "supply"_a = name, "saved"_a = worth));
  return parts.empty()
             ? std::string{}
             : fmt::format("<p class=\"q\">{}</p>\n", html_sentence(tr("One more would save: {supplies}.",
                                                                       "supplies"_a = listed(parts))));
}

}  // namespace

std::string plan_section(const PageBasis& page) {
  const MorningPlan& plan = page.content.morning.plan;
  if (plan.assigned.empty()) return {};
  std::string html =
      fmt::format("<section aria-labelledby=\"plan\"><h2 id=\"plan\">{}</h2>\n<p>{}</p>\n<ul>\n",
                  html_sentence(tr("Where the covers at hand save most")),
                  html_sentence(saves_words(plan) + supply_words(plan)));
  for (const PlannedAct& planned : plan.assigned) html += planned_item(planned, page.content.morning);
  return html + "</ul>\n" + short_line(plan) + more_line(plan) + "</section>\n";
}

std::string closing_section(const PageBasis& page) {
  return list_of("mind", tr("Mind"), cautions_at_the_end(page)) +
         list_of("limits", tr("What limits this answer"), page.basis.warnings) +
         list_of("data", trc("heading", "Data"), page.basis.weather.credits);
}

}  // namespace graftcast
