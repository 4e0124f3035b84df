// Work on stock and shoot that is due, on the page and on the printed sheet.

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"

namespace graftcast {

namespace {

std::string names_of_rows(const std::vector<std::string>& ids) {
  std::vector<std::string> names;
  for (const std::string& id : ids) names.push_back(html_name(id));
  return listed(names);
}

std::string due_item(std::size_t index, const DueTask& due, const PageBasis& page) {
  const std::string since =
      due.due < page.today() ? fmt::format(" (since {})", day_words(due.due, page.today())) : std::string{};
  return fmt::format(
      "<li><input type=\"checkbox\" class=\"tick\" id=\"d{0}\" aria-label=\"{1} done\"><div><h3><label "
      "for=\"d{0}\">{2}{3}</label></h3>\n<p class=\"do\">{4}.</p>\n{5}<p class=\"pen\">seen, done: "
      "</p></div></li>\n",
      index, html_sentence(due.task), names_of_rows(due.ids), since, html_sentence(as_sentence(due.text)),
      due.why.empty() ? std::string{}
                      : fmt::format("<p class=\"q\">{}.</p>\n", html_sentence(as_sentence(due.why))));
}

}  // namespace

std::string due_section(const PageBasis& page) {
  const auto& due = page.content.morning.also_due;
  if (due.empty()) return {};
  std::string html =
      "<section aria-labelledby=\"due\"><h2 id=\"due\">Due on stock and shoot</h2>\n<ol class=\"list\">\n";
  for (std::size_t i = 0; i < due.size(); ++i) html += due_item(i, due[i], page);
  return html + "</ol></section>\n";
}

}  // namespace graftcast
