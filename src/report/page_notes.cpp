// Buttons that make the text of notes, for `graftcast note` to read.

#include <algorithm>
#include <array>
#include <vector>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "text/tr.hpp"

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

/// The sentence around the field for a number is the language's.
std::string how_many(int count) {
  if (count < 2) return {};
  const std::string field =
      fmt::format("<input type=\"number\" inputmode=\"numeric\" min=\"0\" max=\"{}\">", count);
  return fmt::format("<label class=\"some\">{} {} {}</label>\n",
                     html_sentence(tr("how many of the {n}?", "n"_a = count)), field,
                     html_sentence(tr("(empty: all)")));
}

std::string done_fieldset(const std::string& buttons_html) {
  return fmt::format("<fieldset><legend>{}</legend>\n{}</fieldset>", html_sentence(trc("events", "done")),
                     buttons_html);
}

std::string invitation() {
  return html_marked(
      tr("Press what you saw or did at a graft, or write notes here, one a line: {green}, {dead} where it is "
         "not all of them. Where you keep the records, give them to {command}.",
         "green"_a = marked(Part::strong, "R3-14..20 green"), "dead"_a = marked(Part::strong, "R7 dead 3"),
         "command"_a = marked(Part::strong, "graftcast note")));
}

}  // namespace

std::string note_buttons(std::string_view grafts, int count, const NotableWork& work) {
  return fmt::format(
      "<details class=\"notes\"><summary><span>{}</span></summary>{}<fieldset class=\"seens\"><legend>{}"
      "</legend>\n{}</fieldset>{}</details>\n",
      html_marked(tr("Note on {grafts}", "grafts"_a = marked(Part::name, grafts))), how_many(count),
      html_sentence(trc("events", "seen")), seen_buttons(grafts), done_fieldset(done_buttons(grafts, work)));
}

std::string notes_section(const PageBasis& page) {
  const std::string heading = html_sentence(tr("Notes to send"));
  return fmt::format(
      "<section class=\"notes\" aria-labelledby=\"send-head\"><h2 id=\"send-head\">{0}</h2>\n"
      "<p class=\"q\">{1}</p>\n<details><summary>{2}</summary>{3}</details>\n"
      "<label for=\"notes\">{4}</label>\n"
      "<textarea id=\"notes\" rows=\"6\" spellcheck=\"false\" autocapitalize=\"off\" "
      "data-zone=\"{5}\"></textarea>\n"
      "<p><button type=\"button\" class=\"copy\" id=\"copy\">{6}</button> "
      "<button type=\"button\" class=\"copy\" id=\"send\">{7}</button></p>\n"
      "<p class=\"said\" id=\"said\" role=\"status\"></p></section>\n"
      "<a class=\"big bar\" id=\"bar\" href=\"#notes\">{0}</a>\n",
      heading, invitation(), html_sentence(tr("Note on all open grafts")),
      done_fieldset(button("*", {Event::watered, {}})), html_sentence(tr("Notes, one a line")),
      html_text(page.basis.clock->name()), html_sentence(trc("button", "Copy")),
      html_sentence(trc("button", "Send")));
}

}  // namespace graftcast
