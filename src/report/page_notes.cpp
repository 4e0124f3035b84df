// Buttons that make the text of notes, for `graftcast note` to read.

#include <array>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"

namespace graftcast {

namespace {

constexpr std::array<std::string_view, 8> seen_events{"green",  "callus",     "buds-moving", "leafed-out",
                                                      "wilted", "shrivelled", "dead",        "taken"};
constexpr std::array<std::string_view, 6> done_events{"watered", "bag-on",   "bag-vented",
                                                      "bag-off", "paper-on", "wrap-slit"};

/// Its own text is the note, so that it can be read and copied where no script runs.
std::string button(std::string_view grafts, std::string_view event) {
  const std::string note = html_text(fmt::format("{} {}", grafts, event));
  return fmt::format("<label class=\"ev\"><input type=\"checkbox\" value=\"{0}\"><span>{0}</span></label>\n",
                     note);
}

template <typename Events>
std::string buttons(std::string_view grafts, const Events& events) {
  std::string html;
  for (const std::string_view event : events) html += button(grafts, event);
  return html;
}

std::string how_many(int count) {
  if (count < 2) return {};
  return fmt::format(
      "<label class=\"some\">how many of the {0}? <input type=\"number\" inputmode=\"numeric\" min=\"0\" "
      "max=\"{0}\"> "
      "(empty: all)</label>\n",
      count);
}

}  // namespace

std::string note_buttons(std::string_view grafts, int count) {
  return fmt::format(
      "<details class=\"notes\"><summary><span>Note on {}</span></summary>{}<fieldset "
      "class=\"seens\"><legend>seen</legend>\n{}"
      "</fieldset><fieldset><legend>done</legend>\n{}</fieldset></details>\n",
      html_name(grafts), how_many(count), buttons(grafts, seen_events), buttons(grafts, done_events));
}

std::string notes_section(const PageBasis& page) {
  return fmt::format(
      "<section class=\"notes\" aria-labelledby=\"send-head\"><h2 id=\"send-head\">Notes to send</h2>\n"
      "<p class=\"q\">Press what you saw or did at a graft, or write notes here, one a line: <b>R3-14..20 "
      "green</b>, "
      "<b>R7 dead 3</b> where it is not all of them. Where you keep the records, give them to <b>graftcast "
      "note</b>.</p>\n"
      "<details><summary>Note on all open "
      "grafts</summary><fieldset><legend>done</legend>\n{}</fieldset></details>\n"
      "<label for=\"notes\">Notes, one a line</label>\n"
      "<textarea id=\"notes\" rows=\"6\" spellcheck=\"false\" autocapitalize=\"off\" "
      "data-zone=\"{}\"></textarea>\n"
      "<p><button type=\"button\" class=\"copy\" id=\"copy\">Copy</button> "
      "<button type=\"button\" class=\"copy\" id=\"send\">Send</button></p>\n"
      "<p class=\"said\" id=\"said\" role=\"status\"></p></section>\n"
      "<a class=\"big bar\" id=\"bar\" href=\"#notes\">Notes to send</a>\n",
      button("*", "watered"), html_text(page.basis.clock->name()));
}

}  // namespace graftcast
