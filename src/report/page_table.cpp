#include "page_table.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "report/figures.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

std::string row_of(const ChartDay& day, LocalDay today, const DayCells& cells) {
  std::string row = "<tr><th>" + column_words(day, today);
  for (const std::string& cell : cells(day)) row += "<td>" + html_text(cell);
  return row;
}

}  // namespace

std::string column_words(const ChartDay& day, LocalDay today) {
  return day.days == 1 ? day_words(day.day, today)
                       : fmt::format("{} days to {}", day.days, day_words(day.day, today));
}

std::string flag_words(const ChartDay& day, std::span<const DayFlag> shown) {
  std::vector<std::string> words;
  for (const DayFlag flag : day.flags)
    if (std::ranges::find(shown, flag) != shown.end()) words.push_back(day_flag_words(flag));
  return fmt::format("{}", fmt::join(words, " "));
}

std::string day_table(std::string_view caption, std::span<const std::string_view> heads,
                      std::span<const ChartDay> days, LocalDay today, const DayCells& cells) {
  std::string html = fmt::format(
      "<details><summary>Table: {0}</summary><div class=\"wide\" tabindex=\"0\" role=\"region\" "
      "aria-label=\"{0}\"><table><caption>{0}, the hottest hour or the end of each day</caption><thead><tr>"
      "<th scope=\"col\">day",
      html_text(caption));
  for (const std::string_view head : heads) html += "<th scope=\"col\">" + html_text(head);
  html += "<tbody>\n";
  const std::size_t ahead = first_ahead(days);
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (i == ahead)
      html += fmt::format("<tbody><tr><th colspan=\"{}\" scope=\"rowgroup\">coming\n", heads.size() + 1);
    html += row_of(days[i], today, cells);
  }
  return html + "</table></div></details>\n";
}

}  // namespace graftcast
