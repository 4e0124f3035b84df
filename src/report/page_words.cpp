// The sentences of the script, handed to it as data: it has none of its own.

#include "page_words.hpp"

#include <chrono>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

using Words = nlohmann::ordered_json;

/// What the script puts in for the name.
std::string slot(const char* name) {
  return fmt::format("{{{}}}", name);
}

Words weekdays() {
  Words words = Words::array();
  for (unsigned day = 0; day < 7; ++day) words.push_back(weekday_word(std::chrono::weekday(day)));
  return words;
}

Words months() {
  Words words = Words::array();
  for (unsigned month = 1; month <= 12; ++month) words.push_back(month_word(std::chrono::month(month)));
  return words;
}

Words words_of_notes() {
  return {{"count", tr("Notes to send: {n}", "n"_a = slot("n"))},
          {"none", tr("Notes to send")},
          {"copied", tr("Copied.")},
          {"marked", tr("Marked: copy it from here.")},
          {"not_sent", tr("Not sent.")},
          {"subject", tr("Graft notes")}};
}

/// What is read out of an hour, with and without what makes its day hard.
Words hour_sentences() {
  const std::string seen = tr(
      "{moment}: tissue {tissue} {unit}, air {air} {unit}, limit {limit} {unit}; water {water} % of full (8 "
      "in 10: {low} to {high}); healing {healing}, {stage}.",
      "moment"_a = slot("moment"), "tissue"_a = slot("tissue"), "air"_a = slot("air"),
      "limit"_a = slot("limit"), "unit"_a = slot("unit"), "water"_a = slot("water"), "low"_a = slot("low"),
      "high"_a = slot("high"), "healing"_a = slot("healing"), "stage"_a = slot("stage"));
  return {{"moment", trc("date", "{weekday} {day} {month}, {time}", "weekday"_a = slot("weekday"),
                         "day"_a = slot("day"), "month"_a = slot("month"), "time"_a = slot("time"))},
          {"seen", seen},
          {"hard", tr("Hard day: {why}.", "why"_a = slot("why"))}};
}

/// Label of each button, and what is read out for it.
Words steps() {
  return {{{"hours", -24}, {"label", tr("−1 day")}, {"aloud", tr("−1 day back")}},
          {{"hours", -1}, {"label", tr("−1 h")}, {"aloud", tr("−1 h back")}},
          {{"hours", 1}, {"label", tr("+1 h")}, {"aloud", tr("+1 h on")}},
          {{"hours", 24}, {"label", tr("+1 day")}, {"aloud", tr("+1 day on")}}};
}

}  // namespace

std::string limit_head() {
  return trc("head", "limit");
}

std::string stage_head() {
  return trc("head", "stage");
}

std::string hard_day_head() {
  return trc("head", "hard day");
}

std::string script_words() {
  const Words words{
      {"notes", words_of_notes()},
      {"hour", hour_sentences()},
      {"steps", steps()},
      {"invitation",
       tr("Move along the charts to read out an hour; arrow keys go by hours, page keys by days.")},
      {"heads", {{"limit", limit_head()}, {"stage", stage_head()}, {"hard_day", hard_day_head()}}},
      {"weekdays", weekdays()},
      {"months", months()}};
  return fmt::format("<div id=\"words\" hidden data-words=\"{}\"></div>\n", html_text(words.dump()));
}

}  // namespace graftcast
