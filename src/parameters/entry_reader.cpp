#include "entry_reader.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "key_table.hpp"
#include "parameter_reader.hpp"

namespace graftcast {

namespace {

template <typename Rows, typename KeyOf>
std::vector<std::string> keys_of(const Rows& rows, KeyOf key_of) {
  std::vector<std::string> keys;
  for (const auto& row : rows) keys.emplace_back(key_of(row));
  return keys;
}

std::string read_word(const JsonNode& node, const WordRow& row) {
  const auto choices = words_in(row.choices);
  const auto& word = node.text();
  if (!choices.empty() && std::ranges::find(choices, word) == choices.end())
    node.fail(fmt::format("{} is '{}'", row.key, word), known_names_hint(word, choices));
  return word;
}

/// The member `part` of an entry, with no other keys than `known`; nothing where it has none.
std::optional<JsonNode> part_of(const JsonNode& node, const char* part, std::span<const std::string> known) {
  if (!node.has(part)) return std::nullopt;
  const auto values = node.at(part);
  values.allow_keys(known);
  return values;
}

constexpr const char* give_word = R"(give it under "words", or name an entry to take it from with "like")";
constexpr const char* give_number =
    R"(give it under "numbers", or name an entry to take it from with "like")";

void read_words(const JsonNode& node, bool complete, Entry& entry) {
  const auto rows = entry.table().words;
  const auto words = part_of(node, "words", keys_of(rows, [](const WordRow& row) { return row.key; }));
  const auto given = [&](const WordRow& row) { return words && words->has(row.key); };
  for (const WordRow& row : rows)
    if (given(row)) row.put(entry, read_word(words->at(row.key), row));
  for (const WordRow& row : rows)
    if (complete && !given(row))
      node.fail(fmt::format(R"({} lacks the word "{}")", node.label(), row.key), give_word);
}

void read_numbers(const JsonNode& node, bool complete, Entry& entry) {
  const auto rows = entry.table().numbers;
  const auto key_of = [](const NumberRow& row) { return row.place.key; };
  const auto numbers = part_of(node, "numbers", keys_of(rows, key_of));
  const auto given = [&](const NumberRow& row) { return numbers && numbers->has(row.place.key); };
  for (const NumberRow& row : rows)
    if (given(row)) {
      const Parameter* published = complete ? nullptr : row.place.of(entry);
      row.place.put(entry, read_parameter(numbers->at(row.place.key), row, published));
    }
  for (const NumberRow& row : rows)
    if (complete && row.place.required != nullptr && !given(row))
      node.fail(fmt::format(R"({} lacks the number "{}" [{}])", node.label(), row.place.key, row.unit),
                give_number);
}

void check_orders(const JsonNode& node, const Entry& entry) {
  for (const Order& order : entry.table().orders) {
    const Parameter* lesser = order.lesser.of(entry);
    const Parameter* greater = order.greater.of(entry);
    if (lesser == nullptr && greater == nullptr) continue;
    if (lesser == nullptr || greater == nullptr) {
      node.fail(
          fmt::format("{} has only one of {} and {}", node.label(), order.lesser.key, order.greater.key),
          give_number);
    }
    if (*greater - *lesser >= order.gap) continue;
    node.fail(fmt::format("{}: {} is {} and {} is {}", node.label(), order.lesser.key, lesser->value,
                          order.greater.key, greater->value),
              fmt::format("keep {} at least {} above {}", order.greater.key, order.gap, order.lesser.key));
  }
}

const auto entry_keys = std::to_array<std::string>({"name", "title", "like", "words", "numbers"});
const auto row_keys = std::to_array<std::string>({"stage", "bud_stage_from", "t10_c", "t90_c"});

ColdRow read_cold_row(const JsonNode& node) {
  node.allow_keys(row_keys);
  ColdRow row;
  row.stage = node.at("stage").text();
  row.bud_stage_from = node.at("bud_stage_from").number();
  row.t10_c = read_parameter(node.at("t10_c"), {{"t10_c"}, "degC", {}}, nullptr);
  row.t90_c = read_parameter(node.at("t90_c"), {{"t90_c"}, "degC", {}}, nullptr);
  if (row.t10_c.value <= row.t90_c.value) {
    node.at("t90_c").fail(
        fmt::format("90 % die at {} degC and 10 % at {} degC", row.t90_c.value, row.t10_c.value),
        "give a t90_c colder than t10_c");
  }
  return row;
}

}  // namespace

void read_entry(const JsonNode& node, bool complete, Entry& entry) {
  node.allow_keys(entry_keys);
  entry.name = node.at("name").text();
  if (node.has("title") || complete) entry.title = node.at("title").text();
  read_words(node, complete, entry);
  read_numbers(node, complete, entry);
  check_orders(node, entry);
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
