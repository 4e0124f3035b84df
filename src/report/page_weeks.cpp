// The coming mornings for grafting, each way that the site has used.

#include <algorithm>

#include <fmt/format.h>

#include "page_chart.hpp"
#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "when_words.hpp"

namespace graftcast {

namespace {

constexpr double weeks_height = 70;

Course take_course(const WhenCandidate& way, double WhenDay::*value) {
  return [&way, value](std::size_t day) { return way.days[day].*value; };
}

std::vector<std::string> labels_of(const WhenCandidate& way, LocalDay today) {
  std::vector<std::string> labels;
  for (const WhenDay& day : way.days) labels.push_back(day_words(day.day, today).substr(4));
  return labels;
}

/// First morning that no forecast tells of.
std::size_t beyond_forecast(const WhenCandidate& way) {
  return static_cast<std::size_t>(
      std::ranges::find_if(way.days, [](const WhenDay& day) { return day.source != "forecast"; }) -
      way.days.begin());
}

std::string weeks_chart(const WhenAnswer& answer, const PageBasis& page, const std::string& in_words) {
  const WhenCandidate& way = answer.usual;
  DayChart chart(way.days.size(), 0, 0, 1, weeks_height);
  chart.shade_ahead();
  chart.upright(beyond_forecast(way));
  for (const double share : {0.0, 0.5, 1.0}) chart.grid(share, fmt::format("{:.0f}", 100 * share));
  chart.band(take_course(way, &WhenDay::low), take_course(way, &WhenDay::high), "b i");
  chart.course(take_course(way, &WhenDay::take), "h");
  chart.key(chart_left, "h f", "chance of take, %, if made that morning");
  const std::vector<std::string> labels = labels_of(way, page.today());
  chart.day_axis(labels);
  if (way.best) {
    std::vector<bool> best(way.days.size(), false);
    best[*way.best] = true;
    chart.ticks("best", best, labels);
  }
  return chart.svg(in_words);
}

std::string weeks_row(const WhenDay& day, LocalDay today) {
  return fmt::format("<tr><th>{}<td>{:.0f}<td>{:.0f}\u2013{:.0f}<td>{}<td>{}<td>{}\n",
                     day_words(day.day, today), 100 * day.take, 100 * day.low, 100 * day.high,
                     day.bridge_days ? fmt::format("{:.0f}", *day.bridge_days) : std::string("later"),
                     html_text(day.limiting), html_text(day.source));
}

std::string weeks_table(const WhenCandidate& way, const PageBasis& page) {
  const std::string caption =
      fmt::format("{} {}, chance of take in %", html_text(way.graft.species), html_text(way.graft.method));
  std::string html = fmt::format(
      "<details><summary>Table: {0}</summary><div class=\"wide\" tabindex=\"0\" role=\"region\" "
      "aria-label=\"{0}\"><table><caption>{0}</caption><thead><tr><th scope=\"col\">morning<th "
      "scope=\"col\">take<th scope=\"col\">8 in 10<th scope=\"col\">bridged after, days<th "
      "scope=\"col\">limit<th scope=\"col\">known from<tbody>\n",
      caption);
  for (const WhenDay& day : way.days) html += weeks_row(day, page.today());
  return html + "</table></div></details>\n";
}

std::string weeks_answer(const WhenAnswer& answer, const PageBasis& page) {
  const WhenCandidate& way = answer.usual;
  std::string words = fmt::format("{}.", as_sentence(answer.reason));
  if (way.best) {
    const WhenDay& best = way.days[*way.best];
    words += fmt::format(" Best: {}, {}.", day_words(best.day, page.today()), percent_words(best.take));
  }
  if (const std::string bark = bark_words(way, page.today()); !bark.empty()) words += ' ' + bark;
  return words;
}

std::string weeks_figure(const WhenAnswer& answer, const PageBasis& page) {
  const std::string words = weeks_answer(answer, page);
  return fmt::format(
      "<article class=\"card\"><h3>{}</h3>\n<figure><figcaption><b>{}</b> {}</figcaption>\n{}{}</figure>"
      "</article>\n",
      html_sentence(as_sentence(way_words(answer.usual))), html_sentence(as_sentence(answer.verdict) + ':'),
      html_sentence(words), weeks_chart(answer, page, "Chance of take. " + words),
      weeks_table(answer.usual, page));
}

}  // namespace

std::string weeks_section(const PageBasis& page) {
  if (!page.content.weeks || page.content.weeks->answers.empty()) return {};
  std::string html =
      "<section class=\"charts\" aria-labelledby=\"weeks\"><h2 id=\"weeks\">New grafts in the weeks "
      "ahead</h2>\n<p class=\"q\">The ways of grafting on record here, made on each of the coming mornings "
      "and "
      "given the usual aftercare. Take: it lives until it has its own water, plain failure of the method "
      "included; the band holds 8 in 10 members.</p>\n<div class=\"cards\">\n";
  for (const WhenAnswer& answer : page.content.weeks->answers) html += weeks_figure(answer, page);
  return html + "</div></section>\n";
}

}  // namespace graftcast
