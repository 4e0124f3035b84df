// Buttons that make the text of notes, for `graftcast note` to read.

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"

namespace graftcast {

namespace {

/// Done every now and then whatever is advised.
constexpr std::array usual_work{Event::watered, Event::bag_on,   Event::bag_vented,
                                Event::bag_off, Event::paper_on, Event::wrap_slit};

/// Its own text is the note, so that it can be read and copied where no script runs.
std::string button(std::string_view grafts, const EventNote& event) {
  const std::string note = html_text(fmt::format("{} {}", grafts, note_words(event)));
  return fmt::format("<label class=\"ev\"><input type=\"checkbox\" value=\"{0}\"><span>{0}</span></label>\n",
                     note);
}

std::string seen_buttons(std::string_view grafts) {
  std::string html;
  for (const EventRow& row : event_table)
    if (is_evidence(row.event)) html += button(grafts, {row.event, {}});
  return html;
}

bool holds(const std::vector<EventNote>& notes, const EventNote& note) {
  return std::ranges::any_of(
      notes, [&](const EventNote& other) { return other.event == note.event && other.value == note.value; });
}

/// What is advised comes first.
std::string done_buttons(std::string_view grafts, const NotableWork& work) {
  std::vector<EventNote> notes = work.advised;
  for (const Event event : usual_work)
    if (!holds(notes, {event, {}})) notes.push_back({event, {}});
  for (const EventNote& note : work.own)
    if (!holds(notes, note)) notes.push_back(note);
  std::string html;
  for (const EventNote& note : notes) html += button(grafts, note);
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

std::string note_buttons(std::string_view grafts, int count, const NotableWork& work) {
  return fmt::format(
      "<details class=\"notes\"><summary><span>Note on {}</span></summary>{}<fieldset "
      "class=\"seens\"><legend>seen</legend>\n{}"
      "</fieldset><fieldset><legend>done</legend>\n{}</fieldset></details>\n",
      html_name(grafts), how_many(count), seen_buttons(grafts), done_buttons(grafts, work));
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
      button("*", {Event::watered, {}}), html_text(page.basis.clock->name()));
}

}  // namespace graftcast
