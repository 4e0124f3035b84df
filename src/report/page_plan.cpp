// The plan for the covers at hand, and how the page ends.

#include <algorithm>
#include <iterator>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"

namespace graftcast {

namespace {

std::string items_of(const std::vector<std::string>& sentences) {
  std::string items;
  for (const std::string& sentence : sentences) items += "<li>" + html_sentence(as_sentence(sentence)) + '\n';
  return items.empty() ? items : "<ul>\n" + items + "</ul>\n";
}

/// Those that stand above the list are not said twice.
std::vector<std::string> cautions_at_the_end(const PageBasis& page) {
  std::vector<std::string> cautions;
  std::ranges::copy_if(page.basis.cautions, std::back_inserter(cautions), [&](const std::string& caution) {
    return std::ranges::find(page.content.heat, caution) == page.content.heat.end();
  });
  return cautions;
}

std::string supply_line(const MorningPlan& plan) {
  std::vector<std::string> parts;
  for (const auto& [name, count] : plan.supplies) {
    if (count > 0) {
      const auto left = plan.left.find(name);
      parts.push_back(
          fmt::format("{} {} ({} left)", count, name, left == plan.left.end() ? 0 : left->second));
    }
  }
  return parts.empty() ? std::string{} : fmt::format(" At hand: {}.", listed(parts));
}

std::string planned_item(const PlannedAction& planned, const MorningReport& report) {
  const auto graft = std::ranges::find(report.grafts, planned.id, &GraftMorning::id);
  const int of = graft == report.grafts.end() ? planned.count : graft->count;
  const std::string share = of == 1 ? "" : fmt::format(" ({} of {})", planned.count, of);
  return fmt::format("<li>{}{}: {}; {}.\n", html_name(planned.id), share, html_sentence(planned.text),
                     html_sentence(planned.why));
}

std::string short_line(const MorningPlan& plan) {
  if (plan.unserved.empty()) return {};
  std::vector<std::string> names;
  for (const std::string& id : plan.unserved) names.push_back(html_name(id));
  return fmt::format("<p><b>Short:</b> not enough for all of {}.</p>\n", listed(names));
}

std::string more_line(const MorningPlan& plan) {
  constexpr double worth_a_word = 0.01;
  std::vector<std::string> parts;
  for (const auto& [name, worth] : plan.marginal)
    if (worth >= worth_a_word) parts.push_back(fmt::format("{} {:.2f}", name, worth));
  return parts.empty()
             ? std::string{}
             : fmt::format("<p class=\"q\">One more would save: {}.</p>\n", html_sentence(listed(parts)));
}

}  // namespace

std::string plan_section(const PageBasis& page) {
  const MorningPlan& plan = page.content.morning.plan;
  if (plan.assigned.empty()) return {};
  const std::string minutes = plan.minutes_limit
                                  ? fmt::format("{:.0f} of {:.0f} minutes", plan.minutes, *plan.minutes_limit)
                                  : fmt::format("{:.0f} minutes of work", plan.minutes);
  std::string html = fmt::format(
      "<section aria-labelledby=\"plan\"><h2 id=\"plan\">Where the covers at hand save "
      "most</h2>\n<p>{}</p>\n<ul>\n",
      html_sentence(fmt::format("{}; saves {:.1f} grafts (by their priority).{}", minutes, plan.saved,
                                supply_line(plan))));
  for (const PlannedAction& planned : plan.assigned) html += planned_item(planned, page.content.morning);
  return html + "</ul>\n" + short_line(plan) + more_line(plan) + "</section>\n";
}

std::string closing_section(const PageBasis& page) {
  std::string html;
  if (const auto cautions = cautions_at_the_end(page); !cautions.empty()) {
    html +=
        "<section aria-labelledby=\"mind\"><h2 id=\"mind\">Mind</h2>\n" + items_of(cautions) + "</section>\n";
  }
  if (!page.basis.warnings.empty()) {
    html += "<section aria-labelledby=\"limits\"><h2 id=\"limits\">What limits this answer</h2>\n" +
            items_of(page.basis.warnings) + "</section>\n";
  }
  if (!page.basis.weather.credits.empty()) {
    html += "<section aria-labelledby=\"data\"><h2 id=\"data\">Data</h2>\n" +
            items_of(page.basis.weather.credits) + "</section>\n";
  }
  return html;
}

}  // namespace graftcast
