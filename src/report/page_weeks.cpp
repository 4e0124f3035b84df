// The coming mornings for grafting, each way that the site has used.

#include <algorithm>

#include <fmt/format.h>

#include "page_chart.hpp"
#include "page_markup.hpp"
#include "page_sections.hpp"
#include "page_table.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"
#include "words/graft_words.hpp"
#include "words/weather_words.hpp"
#include "words/when_words.hpp"

namespace graftcast {

namespace {

constexpr double weeks_height = 70;

Course take_course(const WhenCandidate& way, double WhenDay::*value) {
  return [&way, value](std::size_t day) { return way.days[day].*value; };
}

std::vector<std::string> labels_of(const WhenCandidate& way, LocalDay today) {
  std::vector<std::string> labels;
  for (const WhenDay& day : way.days) labels.push_back(date_words(day.day, today));
  return labels;
}

/// First morning that no forecast tells of.
std::size_t beyond_forecast(const WhenCandidate& way) {
  return static_cast<std::size_t>(
      std::ranges::find_if(way.days, [](const WhenDay& day) { return day.source != StandIn::none; }) -
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
  chart.key(chart_left, "h f", tr("chance of take, %, if made that morning"));
  const std::vector<std::string> labels = labels_of(way, page.today());
  chart.day_axis(labels);
  if (way.best) {
    std::vector<bool> best(way.days.size(), false);
    best[*way.best] = true;
    chart.ticks(trc("marks the best day", "best"), best, labels);
  }
  return chart.svg(in_words);
}

std::string weeks_row(const WhenDay& day, LocalDay today) {
  return fmt::format("<tr><th>{}<td>{:.0f}<td>{:.0f}\u2013{:.0f}<td>{}<td>{}<td>{}\n",
                     day_words(day.day, today), 100 * day.take, 100 * day.low, 100 * day.high,
                     html_text(bridge_days_words(day)), html_text(limit_words(day.limiting)),
                     html_text(stand_in_words(day.source)));
}

std::string weeks_table(const WhenCandidate& way, const PageBasis& page) {
  const std::string name =
      tr("{kind}, chance of take in %", "kind"_a = kind_words(way.graft.species, way.graft.method));
  const std::vector<std::string> heads{trc("head", "morning"), trc("head", "take"),
                                       trc("head", "8 in 10"), trc("head", "bridged after, days"),
                                       trc("head", "limit"),   trc("head", "known from")};
  std::string html = table_opening({name, name}, heads);
  for (const WhenDay& day : way.days) html += weeks_row(day, page.today());
  return html + "</table></div></details>\n";
}

std::string weeks_answer(const WhenAnswer& answer, const PageBasis& page) {
  const WhenCandidate& way = answer.usual;
  std::string words = tr("{reason}.", "reason"_a = as_sentence(when_ground_words(answer.ground)));
  if (way.best) {
    const WhenDay& best = way.days[*way.best];
    words += ' ' + tr("Best: {day}, {take}.", "day"_a = day_words(best.day, page.today()),
                      "take"_a = percent_words(best.take));
  }
  if (const std::string bark = bark_words(way, page.today()); !bark.empty()) words += ' ' + bark;
  return words;
}

std::string verdict_heading(WhenVerdict verdict) {
  return tr("{verdict}:", "verdict"_a = as_sentence(when_verdict_words(verdict)));
}

std::string weeks_figure(const WhenAnswer& answer, const PageBasis& page) {
  const std::string words = weeks_answer(answer, page);
  return fmt::format(
      "<article class=\"card\"><h3>{}</h3>\n<figure><figcaption><b>{}</b> {}</figcaption>\n{}{}</figure>"
      "</article>\n",
      html_sentence(as_sentence(way_words(answer.usual))), html_sentence(verdict_heading(answer.verdict())),
      html_sentence(words), weeks_chart(answer, page, tr("Chance of take.") + ' ' + words),
      weeks_table(answer.usual, page));
}

}  // namespace

std::string weeks_section(const PageBasis& page) {
  if (!page.content.weeks || page.content.weeks->answers.empty()) return {};
  std::string html = fmt::format(
      "<section class=\"charts\" aria-labelledby=\"weeks\"><h2 id=\"weeks\">{}</h2>\n<p class=\"q\">{}</p>\n"
      "<div class=\"cards\">\n",
      html_sentence(tr("New grafts in the weeks ahead")),
      html_sentence(
          tr("The ways of grafting on record here, made on each of the coming mornings and given the usual "
             "aftercare. Take: it lives until it has its own water, plain failure of the method included; "
             "the band holds 8 in 10 members.")));
  for (const WhenAnswer& answer : page.content.weeks->answers) html += weeks_figure(answer, page);
  return html + "</div></section>\n";
}

}  // namespace graftcast
