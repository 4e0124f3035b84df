// The page as a whole.

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "page_markup.hpp"
#include "page_parts.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "report/page.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "words/count_words.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

/// Nothing is loaded and nothing sent; of styles and scripts only the page's own count.
std::string policy() {
  return fmt::format("default-src 'none'; style-src {}; script-src {}; base-uri 'none'; form-action 'none'",
                     policy_hash(page::style_sha256), policy_hash(page::script_sha256));
}

std::string head(const PageBasis& page) {
  return fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"{}\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
      "<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" "
      "content=\"no-referrer\">\n"
      "<title>{}</title>\n<style>{}</style>\n</head>\n",
      html_language(), policy(),
      html_sentence(
          tr("Grafts at {site}, {day}", "site"_a = page.basis.site, "day"_a = day_words(page.today()))),
      page::style);
}

std::string opening(const PageBasis& page) {
  std::size_t pieces = 0;
  for (const GraftMorning& graft : page.content.morning.grafts)
    pieces += static_cast<std::size_t>(graft.count);
  return fmt::format(
      "<header><h1>{}</h1>\n<p>{}</p>\n<p class=\"q\">{}</p></header>\n", html_long_name(page.basis.site),
      html_sentence(tr("{day} {time}; {grafts} open in {rows}.", "day"_a = day_words(page.today()),
                       "time"_a = hour_words(*page.basis.clock, page.basis.as_of),
                       "grafts"_a = grafts_words(pieces),
                       "rows"_a = rows_words(page.content.morning.grafts.size()))),
      html_sentence(tr("Weather: {freshness}", "freshness"_a = freshness(page.basis))));
}

}  // namespace

std::string page_html(const PageContent& content, const ReportBasis& basis, const TerminalStyle& style) {
  TerminalStyle of_page = style;
  of_page.utf8 = true;
  const PageBasis page{content, basis, of_page};
  std::string html = head(page) + "<body>\n" + opening(page) + "<main>\n";
  html += list_section(page) + due_section(page) + plan_section(page) + card_section(page) +
          weeks_section(page) + losses_section(page) + notes_section(page) + closing_section(page);
  return html +
         fmt::format("</main>\n{}<script>{}</script>\n</body>\n</html>\n", script_words(), page::script);
}

}  // namespace graftcast
