#include "page_table.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

std::string row_of(const ChartDay& day, LocalDay today, const DayCells& cells) {
  std::string row = "<tr><th>" + column_words(day, today);
  for (const std::string& cell : cells(day)) row += "<td>" + html_text(cell);
  return row;
}

/// The script takes the flags of a cell apart at its blanks.
std::string in_one_piece(std::string words) {
  constexpr std::string_view no_break = "\u00a0";
  for (std::size_t at = words.find(' '); at != std::string::npos; at = words.find(' ', at + 1))
    words.replace(at, 1, no_break);
  return words;
}

}  // namespace

std::string column_words(const ChartDay& day, LocalDay today) {
  return day.days == 1 ? day_words(day.day, today)
                       : trn("{n} day to {day}", "{n} days to {day}", day.days, "n"_a = day.days,
                             "day"_a = day_words(day.day, today));
}

std::string flag_words(const ChartDay& day, std::span<const DayFlag> shown) {
  std::string words;
  for (const DayFlag flag : day.flags)
    if (std::ranges::find(shown, flag) != shown.end())
      words += (words.empty() ? "" : " ") + in_one_piece(day_flag_words(flag));
  return words;
}

std::string table_opening(const TableTitle& title, std::span<const std::string> heads) {
  std::string html = fmt::format(
      "<details><summary>{}</summary><div class=\"wide\" tabindex=\"0\" role=\"region\" aria-label=\"{}\">"
      "<table><caption>{}</caption><thead><tr>",
      html_text(tr("Table: {name}", "name"_a = title.name)), html_text(title.name), html_text(title.caption));
  for (const std::string& head : heads) html += "<th scope=\"col\">" + html_text(head);
  return html + "<tbody>\n";
}

std::string day_table(const std::string& name, std::span<const std::string> heads,
                      std::span<const ChartDay> days, LocalDay today, const DayCells& cells) {
  std::vector<std::string> all_heads{trc("head", "day")};
  all_heads.insert(all_heads.end(), heads.begin(), heads.end());
  std::string html = table_opening(
      {name, tr("{name}, the hottest hour or the end of each day", "name"_a = name)}, all_heads);
  const std::size_t ahead = first_ahead(days);
  for (std::size_t i = 0; i < days.size(); ++i) {
    if (i == ahead)
      html += fmt::format("<tbody><tr><th colspan=\"{}\" scope=\"rowgroup\">{}\n", heads.size() + 1,
                          html_text(trc("days of a table", "coming")));
    html += row_of(days[i], today, cells);
  }
  return html + "</table></div></details>\n";
}

}  // namespace graftcast
