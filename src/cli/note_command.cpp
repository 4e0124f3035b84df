// `note`: something done or seen.

#include <cstdio>
#include <iostream>
#include <iterator>
#include <memory>

#include <fmt/format.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "report/json_report.hpp"
#include "report/text_layout.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct NoteOptions {
  std::vector<std::string> words;
  std::string comment, by;
};

constexpr std::size_t most_input_bytes = 16U << 20U;

/// All of standard input, which must be UTF-8. Error: DataError.
std::string standard_input() {
  if (::isatty(STDIN_FILENO) == 1)
    std::fputs(
        fmt::format("graftcast: {}\n", tr("reading notes, one a line, from the keyboard; end with Ctrl-D"))
            .c_str(),
        stderr);
  std::string text(std::istreambuf_iterator<char>(std::cin), {});
  const Position place{tr("standard input"), 0, 0};
  if (text.size() > most_input_bytes) throw DataError(place, tr("the input is too long"), tr("split it up"));
  if (!is_utf8(text) || text.find('\0') != std::string::npos)
    throw DataError(place, tr("the input is not UTF-8 text"), "");
  return text;
}

bool from_standard_input(const NoteOptions& options) {
  return options.words.empty() || (options.words.size() == 1 && options.words.front() == "-");
}

std::vector<DiaryEntry> entries_of(const NoteOptions& options, const OpenSite& open) {
  const bool typed = !from_standard_input(options);
  std::vector<DiaryEntry> entries =
      typed ? parse_notes(fmt::format("{}", fmt::join(options.words, " ")), tr("command line"), open.clock,
                          open.as_of)
            : parse_notes(standard_input(), tr("standard input"), open.clock, open.as_of);
  for (DiaryEntry& entry : entries) {
    if (typed && !options.comment.empty()) entry.comment = options.comment;
    entry.by = options.by;
  }
  return entries;
}

std::string line_words(const DiaryLine& line) {
  return printable(fmt::format("{} {} {} ({}), id {}", line.stamp, line.graft,
                               note_words({line.event, line.value}), fmt::join(line.grafts, ", "), line.id)) +
         '\n';
}

Answer run(const NoteOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  const std::vector<DiaryEntry> entries = entries_of(options, open);
  if (entries.empty())
    throw UsageError(tr("there is no note in the input"), tr("one a line, such as: R3-14..20 green"));
  const std::vector<DiaryLine> lines =
      append_diary(open.folder, open.site, open.clock, open.models.known_names(), entries);
  const ReportBasis basis = basis_of("note", open, global);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["notes"] = nlohmann::ordered_json::array();
    for (const DiaryLine& line : lines) answer["notes"].push_back(note_json(line));
    answer["added"] = entries.size();
    return answer;
  };
  return answered(global, basis, json, [&] {
    std::string text;
    for (const DiaryLine& line : lines) text += line_words(line);
    return text +
           trn("{count} line added to diary.csv", "{count} lines added to diary.csv",
               static_cast<long>(entries.size()), "count"_a = entries.size()) +
           '\n';
  });
}

std::string event_names() {
  std::vector<std::string_view> names;
  for (const EventRow& row : event_table)
    if (row.event != Event::split) names.push_back(row.word);
  return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

CommandSpec note_command() {
  const auto options = std::make_shared<NoteOptions>();
  return {
      "note",
      tr("record something done or seen"),
      tr("WORD is [WHEN] GRAFTS EVENT [VALUE]. GRAFTS is an id, a range R3-14..20, * for all, stock:NAME or "
         "spot:NAME. Without WHEN it is of now (or --at). Without any word, or with -, notes are read from "
         "standard input, one a line; what follows # is a comment, and what is not understood is refused.\n"
         "EVENT: {events}. VALUE is a number of grafts, a share (shade), litres (watered), a spot (moved), a "
         "cover (bag-on) or a wrap (wrap-on) that 'graftcast models' lists.\n"
         "A line is never taken out of the diary: 'void' with the id of a line, or its time, takes that line "
         "back.",
         "events"_a = event_names()),
      {{"graftcast note C2 bag-on", tr("a bag was put over C2 just now")},
       {"printf 'A1 green 36\\nC1 watered 1\\n' | graftcast note", tr("notes typed on the way, one a line")}},
      {{"--comment", "-c", "TEXT", tr("a comment for the notes given as words"), "", tr("Of this command"),
        into(options->comment)},
       {"--by", "", "NAME", tr("who did or saw it"), "", tr("Of this command"), into(options->by)}},
      {{"WORD", tr("the note; none or - for standard input"), false, true,
        [options](const std::string& text) { options->words.push_back(text); }, true}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
