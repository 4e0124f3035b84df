// The models' entries for a terminal.

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"

namespace graftcast {

namespace {

std::string grade_words(char grade) {
  if (grade == 'A') return tr("grade A, published");
  return grade == 'B' ? tr("grade B, published but transferred or recalled") : tr("grade C, judgement");
}

std::string range_words(const Parameter& number) {
  return tr("{low:g} to {high:g}", "low"_a = number.low, "high"_a = number.high);
}

/// Empty where members do not differ.
std::string spread_words(const Parameter& number) {
  if (number.spread == Parameter::Spread::none) return {};
  return number.spread == Parameter::Spread::normal
             ? tr("members differ by sd {sd:g}", "sd"_a = number.sd)
             : tr("members differ by ln sd {sd:g}", "sd"_a = number.sd);
}

std::string facts_words(const Parameter& number) {
  std::vector<std::string> facts{range_words(number), grade_words(number.grade)};
  if (const std::string spread = spread_words(number); !spread.empty()) facts.push_back(spread);
  return with_semicolons(facts) + ". " + printable(number.source);
}

std::string number_block(std::string_view key, const Parameter& number, const TerminalStyle& style) {
  std::string text = fmt::format(
      "  {}\n",
      painted(style, Tone::strong, fmt::format("{} = {:g} {}", key, number.value, printable(number.unit))));
  return text + labelled(style, Tone::quiet, "", facts_words(number));
}

struct SectionWords {
  std::string_view section;
  std::string heading;  ///< `covers`
  std::string one;      ///< `cover`
};

SectionWords words_of(const ModelSection& section) {
  const std::array<SectionWords, 7> words{{{"species", trc("section of models", "species"), tr("species")},
                                           {"methods", tr("methods"), tr("method")},
                                           {"covers", tr("covers"), tr("cover")},
                                           {"wraps", tr("wraps"), tr("wrap")},
                                           {"scion_states", tr("scion states"), tr("scion state")},
                                           {"hazards", tr("hazards"), tr("hazard")},
                                           {"shared", tr("shared constants"), tr("shared constants of")}}};
  return *std::ranges::find(words, section.name, &SectionWords::section);
}

std::string entry_block(std::string_view section, const Entry& entry, const TerminalStyle& style) {
  std::string text = fmt::format("{}\n", painted(style, Tone::attentive,
                                                 fmt::format("{} {}: {}", section, printable(entry.name),
                                                             printable(translated(entry.title)))));
  for (const auto& [key, word] : entry.words())
    text += labelled(style, Tone::quiet, "",
                     fmt::format("{}: {}", key, word.empty() ? tr("(none)") : printable(word)));
  for (const auto& [key, number] : entry.numbers()) text += number_block(key, *number, style);
  return text + '\n';
}

std::string cold_table_block(std::string_view name, const std::vector<ColdRow>& rows,
                             const TerminalStyle& style) {
  std::string text = fmt::format(
      "{}\n", painted(style, Tone::attentive, tr("cold table {name}", "name"_a = printable(name))));
  for (const ColdRow& row : rows) {
    text += labelled(style, Tone::strong, "",
                     tr("{stage} (from bud clock {clock:g})", "stage"_a = printable(row.stage),
                        "clock"_a = row.bud_stage_from));
    text += number_block("t10_c", row.t10_c, style) + number_block("t90_c", row.t90_c, style);
  }
  return text + '\n';
}

}  // namespace

std::string models_list_text(const Models& models, const TerminalStyle& style) {
  std::string text;
  for (const ModelSection& section : sections_of(models)) {
    text += painted(style, Tone::attentive, words_of(section).heading) + '\n';
    TextTable table({{"", Align::left}, {"", Align::left}});
    for (const auto& [name, entry] : section.entries)
      table.add({"  " + printable(name), printable(translated(entry->title))});
    const std::string rows =
        table.text(TerminalStyle{.width = style.width, .colour = false, .utf8 = style.utf8});
    text += rows.substr(rows.find('\n') + 1) + '\n';
  }
  text += tr("Every number of one: graftcast models show NAME") + '\n';
  return finished(style, text);
}

std::optional<std::string> model_entry_text(const Models& models, std::string_view name,
                                            const TerminalStyle& style) {
  std::string text;
  for (const ModelSection& section : sections_of(models))
    if (const auto found = section.entries.find(name); found != section.entries.end())
      text += entry_block(words_of(section).one, *found->second, style);
  if (const auto table = models.cold_tables.find(std::string(name)); table != models.cold_tables.end())
    text += cold_table_block(table->first, table->second, style);
  if (text.empty()) return std::nullopt;
  return finished(style, text);
}

}  // namespace graftcast
