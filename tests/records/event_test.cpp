// The table of events.

#include "graftcast/event.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <map>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "text/text.hpp"

namespace graftcast {
namespace {

std::vector<std::string> phrases_of(const EventRow& row) {
  std::vector<std::string> phrases{std::string(row.word)};
  for (std::size_t begin = 0; begin < row.synonyms.size();) {
    const std::size_t end = std::min(row.synonyms.find('|', begin), row.synonyms.size());
    phrases.emplace_back(row.synonyms.substr(begin, end - begin));
    begin = end + 1;
  }
  return phrases;
}

TEST(EventTable, GivesEveryPhraseToOneEvent) {
  std::map<std::string, Event> seen;
  for (const EventRow& row : event_table) {
    for (const std::string& phrase : phrases_of(row)) {
      EXPECT_TRUE(seen.emplace(phrase, row.event).second) << phrase;
      EXPECT_EQ(event_named(phrase), row.event) << phrase;
      EXPECT_EQ(std::string(trimmed(phrase)), phrase);
    }
  }
}

TEST(EventTable, HasOnlyWordsThatANoteCanHold) {
  for (const EventRow& row : event_table) {
    EXPECT_EQ(row.word.find_first_of(" ,;#\""), std::string_view::npos) << row.word;
    EXPECT_FALSE(parse_number(row.word)) << row.word;
  }
}

TEST(EventTable, UndoesWhatIsPutOnByWhatTakesItOff) {
  for (const auto& [on, off] : {std::pair{Event::bag_on, Event::bag_off},
                                {Event::paper_on, Event::paper_off},
                                {Event::foil_on, Event::foil_off},
                                {Event::wrap_on, Event::wrap_off},
                                {Event::frost_cover_on, Event::frost_cover_off},
                                {Event::whitewashed, Event::whitewash_off}}) {
    EXPECT_EQ(about(on).undone_by, off) << event_word(on);
    EXPECT_EQ(about(off).undone_by, on) << event_word(off);
  }
  EXPECT_EQ(about(Event::shade).undone_by, Event::shade);
  EXPECT_EQ(about(Event::lopped).undone_by, Event::taken_back);
  EXPECT_EQ(about(Event::green).undone_by, Event::taken_back);
}

TEST(EventTable, AgreesWithItselfOnWhatIsSeen) {
  for (const EventRow& row : event_table) {
    EXPECT_TRUE(row.group != EventGroup::seen || row.counts()) << row.word;
    EXPECT_TRUE(!(row.at_a_glance || row.tells_life) || is_evidence(row.event)) << row.word;
    EXPECT_TRUE(!row.is_outcome || row.counts()) << row.word;
    EXPECT_FALSE(is_sign_of_life(row.event) && is_sign_of_failing(row.event)) << row.word;
  }
  EXPECT_TRUE(is_sign_of_failing(Event::shrivelled));
  EXPECT_TRUE(is_sign_of_life(Event::callus));
  EXPECT_FALSE(is_evidence(Event::scorched));
  EXPECT_FALSE(is_evidence(Event::removed));
}

/// Words that are also a column, a member of JSON, a flag, an outcome or a command.
constexpr std::array homonyms{Event::shade, Event::mould, Event::dead,
                              Event::taken, Event::split, Event::removed};

/// Whether `word` stands between quotes and is no name of a sentence's argument ("word"_a).
bool has_literal(std::string_view code, std::string_view word) {
  const std::string literal = '"' + std::string(word) + '"';
  for (auto at = code.find(literal); at != std::string_view::npos; at = code.find(literal, at + 1))
    if (!code.substr(at + literal.size()).starts_with("_a")) return true;
  return false;
}

TEST(EventTable, HasTheOnlyPlaceWhereAnEventsWordStands) {
  for (const auto& entry : std::filesystem::recursive_directory_iterator(GRAFTCAST_SOURCE_DIR "/src")) {
    const std::string extension = entry.path().extension().string();
    if ((extension != ".cpp" && extension != ".hpp") || entry.path().filename() == "event.hpp") continue;
    if (entry.path().string().find("/src/parameters/") != std::string::npos) continue;  // Names of entries.
    const std::string code = read_text_file(entry.path());
    for (const EventRow& row : event_table) {
      if (std::ranges::find(homonyms, row.event) != homonyms.end()) continue;
      EXPECT_FALSE(has_literal(code, row.word)) << entry.path() << ": " << row.word;
    }
  }
}

TEST(EventNamed, TakesCapitalsAndBlanksForHyphens) {
  EXPECT_EQ(event_named("BAG-ON"), Event::bag_on);
  EXPECT_EQ(event_named("bag on"), Event::bag_on);
  EXPECT_EQ(event_named("Looks Green"), Event::green);
  EXPECT_EQ(event_named("bag-vented"), Event::bag_vented);
  EXPECT_EQ(event_named("vented"), Event::bag_vented);
  EXPECT_EQ(event_named("greenish"), std::nullopt);
  EXPECT_EQ(event_named("green "), std::nullopt);
  EXPECT_EQ(event_named(""), std::nullopt);
}

TEST(EventAtStart, TakesTheLongestPhraseOfWholeWords) {
  EXPECT_EQ(event_at_start("moved to store")->length, 8U);
  EXPECT_EQ(event_at_start("moved store")->length, 5U);
  EXPECT_EQ(event_at_start("wrap taken off")->event, Event::wrap_off);
  EXPECT_EQ(event_at_start("watered\r")->event, Event::watered);
  EXPECT_FALSE(event_at_start("deadly"));
  EXPECT_FALSE(event_at_start("bag-on-top"));
}

TEST(NoteWords, AreTheEventAndItsValue) {
  EXPECT_EQ(note_words({Event::shade, "0.5"}), "shade 0.5");
  EXPECT_EQ(note_words({Event::bag_on, {}}), "bag-on");
}

}  // namespace
}  // namespace graftcast
