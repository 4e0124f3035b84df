#include "entry_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "parameter_reader.hpp"

namespace graftcast {

namespace {

using model_keys::Ask;
using model_keys::NumberKey;
using model_keys::Section;
using model_keys::WordKey;

template <typename Keys>
std::vector<std::string> names_of(const Keys& keys) {
  std::vector<std::string> names;
  for (const auto& key : keys) names.emplace_back(key.key);
  return names;
}

std::vector<std::string> words_in(std::string_view choices) {
  std::vector<std::string> words;
  while (!choices.empty()) {
    const auto end = std::min(choices.find(' '), choices.size());
    words.emplace_back(choices.substr(0, end));
    choices.remove_prefix(std::min(end + 1, choices.size()));
  }
  return words;
}

std::string read_word(const JsonNode& node, const WordKey& key) {
  const auto choices = words_in(key.choices);
  const auto& word = node.text();
  if (!choices.empty() && std::ranges::find(choices, word) == choices.end())
    node.fail(fmt::format("{} is '{}'", key.key, word), known_names_hint(word, choices));
  return word;
}

void read_words(const JsonNode& node, std::span<const WordKey> keys, Entry& entry) {
  if (node.has("words")) {
    const auto words = node.at("words");
    words.allow_keys(names_of(keys));
    for (const auto& key : keys)
      if (words.has(key.key)) entry.words[std::string(key.key)] = read_word(words.at(key.key), key);
  }
  for (const auto& key : keys) {
    if (!entry.words.contains(std::string(key.key))) {
      node.fail(fmt::format(R"({} lacks the word "{}")", node.label(), key.key),
                R"(give it under "words", or name an entry to take it from with "like")");
    }
  }
}

void read_numbers(const JsonNode& node, std::span<const NumberKey> keys, Entry& entry) {
  if (node.has("numbers")) {
    const auto numbers = node.at("numbers");
    numbers.allow_keys(names_of(keys));
    for (const auto& key : keys) {
      if (!numbers.has(key.key)) continue;
      const auto published = entry.numbers.find(std::string(key.key));
      entry.numbers.insert_or_assign(
          std::string(key.key),
          read_parameter(numbers.at(key.key), key,
                         published != entry.numbers.end() ? &published->second : nullptr));
    }
  }
  for (const auto& key : keys) {
    if (key.ask != Ask::optional && !entry.has(key.key)) {
      node.fail(fmt::format(R"({} lacks the number "{}" [{}])", node.label(), key.key, key.unit),
                R"(give it under "numbers", or name an entry to take it from with "like")");
    }
  }
}

const auto entry_keys = std::to_array<std::string>({"name", "title", "like", "words", "numbers"});
const auto row_keys = std::to_array<std::string>({"stage", "bud_stage_from", "t10_c", "t90_c"});

ColdRow read_cold_row(const JsonNode& node) {
  node.allow_keys(row_keys);
  ColdRow row;
  row.stage = node.at("stage").text();
  row.bud_stage_from = node.at("bud_stage_from").number();
  row.t10_c = read_parameter(node.at("t10_c"), {"t10_c", "degC"}, nullptr);
  row.t90_c = read_parameter(node.at("t90_c"), {"t90_c", "degC"}, nullptr);
  if (row.t10_c.value <= row.t90_c.value) {
    node.at("t90_c").fail(
        fmt::format("90 % die at {} degC and 10 % at {} degC", row.t90_c.value, row.t10_c.value),
        "give a t90_c colder than t10_c");
  }
  return row;
}

}  // namespace

Entry read_entry(const JsonNode& node, Section section, const Entry* base) {
  node.allow_keys(entry_keys);
  Entry entry = base != nullptr ? *base : Entry{};
  entry.name = node.at("name").text();
  if (node.has("title") || base == nullptr) entry.title = node.at("title").text();
  const auto keys = model_keys::keys_of(section, entry.name);
  read_words(node, keys.words, entry);
  read_numbers(node, keys.numbers, entry);
  check_order(node, section, entry);
  return entry;
}

std::vector<ColdRow> read_cold_rows(const JsonNode& node) {
  const auto list = node.at("rows").labelled("row");
  std::vector<ColdRow> rows;
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const auto row = list.at(i);
    rows.push_back(read_cold_row(row));
    if (i == 0 ? rows[i].bud_stage_from != 0 : rows[i].bud_stage_from <= rows[i - 1].bud_stage_from) {
      row.at("bud_stage_from")
          .fail(fmt::format("bud_stage_from is {}", rows[i].bud_stage_from),
                "use 0 in the first row, and more from row to row");
    }
  }
  if (rows.empty()) list.fail("the cold table has no rows", "give one row for each stage of the buds");
  return rows;
}

}  // namespace graftcast
