// Work on stock and shoot that is due, on the page and on the printed sheet.

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/care_words.hpp"

namespace graftcast {

namespace {

/// The rows, and since when it is due where that is past.
std::string rows_words_of(const DueTask& due, const PageBasis& page) {
  std::vector<std::string> names;
  for (const std::string& id : due.ids) names.push_back(marked(Part::name, id));
  if (due.due >= page.today()) return listed(names);
  return tr("{rows} (since {day})", "rows"_a = listed(names), "day"_a = day_words(due.due, page.today()));
}

std::string due_item(std::size_t index, const DueTask& due, const PageBasis& page) {
  return fmt::format(
      "<li><input type=\"checkbox\" class=\"tick\" id=\"d{0}\" aria-label=\"{1}\"><div><h3><label "
      "for=\"d{0}\">{2}</label></h3>\n<p class=\"do\">{3}.</p>\n{4}<p class=\"pen\">{5} </p></div></li>\n",
      index, html_sentence(tr("{task} done", "task"_a = care_name(due.first.work))),
      html_marked(rows_words_of(due, page)), html_sentence(as_sentence(care_words(due.first))),
      fmt::format("<p class=\"q\">{}.</p>\n", html_sentence(as_sentence(care_reason_words(due.first)))),
      html_sentence(tr("seen, done:")));
}

}  // namespace

std::string due_section(const PageBasis& page) {
  const auto& due = page.content.morning.also_due;
  if (due.empty()) return {};
  std::string html =
      fmt::format("<section aria-labelledby=\"due\"><h2 id=\"due\">{}</h2>\n<ol class=\"list\">\n",
                  html_sentence(tr("Due on stock and shoot")));
  for (std::size_t i = 0; i < due.size(); ++i) html += due_item(i, due[i], page);
  return html + "</ol></section>\n";
}

}  // namespace graftcast
