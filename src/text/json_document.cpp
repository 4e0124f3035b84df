#include "graftcast/json_document.hpp"

#include <algorithm>
#include <utility>
#include <vector>

#include "encoding.hpp"
#include "graftcast/text.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

constexpr std::size_t deepest_nesting = 64;

std::string escaped(std::string_view key) {
  std::string text;
  for (const char letter : key) {
    if (letter == '~')
      text += "~0";
    else if (letter == '/')
      text += "~1";
    else
      text += letter;
  }
  return text;
}

// The parser's own message without its number, its count of places, and what it read last (which may be
// long).
std::string plain_reason(std::string message) {
  const std::size_t number_end = message.find("] ");
  if (number_end != std::string::npos) message.erase(0, number_end + 2);
  const std::size_t reason = message.find("syntax error");
  if (reason != std::string::npos) message.erase(0, reason);
  const std::size_t last_read = message.find("; last read: ");
  constexpr std::size_t longest = 200;  // A number out of range is quoted whole, however many digits it has.
  if (last_read == std::string::npos) return message.substr(0, longest);
  const std::size_t expected = message.rfind("; expected ");
  const bool is_behind = expected != std::string::npos && expected > last_read;
  return message.erase(last_read, is_behind ? expected - last_read : std::string::npos);
}

// Walks over the text one token at a time, in step with the parser's events, and so knows where each begins.
class TokenCursor {
 public:
  TokenCursor(std::string_view text, const std::string& name) : text_(text), name_(name) {}

  /// Passes the next string, number, literal or bracket and returns where it begins.
  Position pass_token() {
    pass_while(
        [](char letter) { return std::string_view(" \t\r\n,:").find(letter) != std::string_view::npos; });
    Position place{name_, line_, at_ - line_start_ + 1};
    if (at_ >= text_.size()) return place;
    if (text_[at_] == '"')
      pass_string();
    else if (std::string_view("{}[]").find(text_[at_]) != std::string_view::npos)
      ++at_;
    else
      pass_while(
          [](char letter) { return std::string_view(" \t\r\n,:]}").find(letter) == std::string_view::npos; });
    return place;
  }

 private:
  template <typename Test>
  void pass_while(Test test) {
    for (; at_ < text_.size() && test(text_[at_]); ++at_) {
      if (text_[at_] != '\n') continue;
      ++line_;
      line_start_ = at_ + 1;
    }
  }

  void pass_string() {
    ++at_;
    while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2 : 1;
    ++at_;
  }

  std::string_view text_;
  const std::string& name_;
  std::size_t at_ = 0;
  std::size_t line_ = 1;
  std::size_t line_start_ = 0;
};

// Receives the parser's events and builds the document beside the places of its values.
class DocumentBuilder final : public nlohmann::json_sax<json> {
 public:
  DocumentBuilder(std::string_view text, const std::string& name)
      : text_(text), name_(name), cursor_(text, name) {}

  json root;
  std::map<std::string, Position> positions;
  std::map<std::string, Position> key_positions;

  bool null() override { return add(nullptr); }
  bool boolean(bool value) override { return add(value); }
  bool number_integer(number_integer_t value) override { return add(value); }
  bool number_unsigned(number_unsigned_t value) override { return add(value); }
  bool number_float(number_float_t value, const string_t&) override { return add(value); }
  bool string(string_t& value) override { return add(std::move(value)); }
  bool binary(binary_t&) override { return false; }
  bool start_object(std::size_t) override { return open(json::object()); }
  bool start_array(std::size_t) override { return open(json::array()); }
  bool end_object() override { return close(); }
  bool end_array() override { return close(); }

  bool key(string_t& name) override {
    const Position place = cursor_.pass_token();
    Container& parent = open_.back();
    if (parent.value->contains(name))
      throw DataError(place, "the key " + shown(name) + " is given twice", "keep one of them");
    parent.key = name;
    key_positions.emplace(next_pointer(), place);
    return true;
  }

  bool parse_error(std::size_t bytes_read, const std::string&,
                   const nlohmann::detail::exception& fault) override {
    const std::size_t offset = bytes_read > 0 ? bytes_read - 1 : 0;
    throw DataError(position_of_byte(text_, std::min(offset, text_.size()), name_),
                    "not valid JSON: " + plain_reason(fault.what()));
  }

 private:
  struct Container {
    json* value;
    std::string pointer;
    std::string key;  // Of the member that comes next, in an object.
  };

  json* place(json&& value) {
    const Position position = cursor_.pass_token();
    if (open_.empty()) {
      positions.emplace("", position);
      return &(root = std::move(value));
    }
    const Container& parent = open_.back();
    positions.emplace(next_pointer(), position);
    if (parent.value->is_object()) return &((*parent.value)[parent.key] = std::move(value));
    parent.value->push_back(std::move(value));
    return &parent.value->back();
  }

  std::string next_pointer() const {
    if (open_.empty()) return {};
    const Container& parent = open_.back();
    const bool is_object = parent.value->is_object();
    return parent.pointer + '/' + (is_object ? escaped(parent.key) : std::to_string(parent.value->size()));
  }

  bool add(json&& value) {
    place(std::move(value));
    return true;
  }

  bool open(json&& container) {
    std::string pointer = next_pointer();
    json* value = place(std::move(container));
    if (open_.size() >= deepest_nesting) {
      throw DataError(positions[pointer],
                      "nested deeper than " + std::to_string(deepest_nesting) + " levels");
    }
    open_.push_back({value, std::move(pointer), {}});
    return true;
  }

  bool close() {
    cursor_.pass_token();
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  const std::string& name_;
  TokenCursor cursor_;
  std::vector<Container> open_;
};

}  // namespace

JsonDocument JsonDocument::from_file(const std::filesystem::path& path) {
  return from_text(read_text_file(path), path.string());
}

JsonDocument JsonDocument::from_text(std::string_view text, std::string shown_name) {
  if (text.starts_with(utf8_mark)) text.remove_prefix(utf8_mark.size());
  if (text.starts_with(utf8_mark))  // The parser would pass over it, and every column be off.
    throw DataError({shown_name, 1, 1}, "a second byte-order mark", "JSON begins with { or [");
  require_plain_text(text, shown_name);
  DocumentBuilder builder(text, shown_name);
  json::sax_parse(text.begin(), text.end(), &builder);
  JsonDocument document;
  document.root_ = std::move(builder.root);
  document.positions_ = std::move(builder.positions);
  document.key_positions_ = std::move(builder.key_positions);
  document.name_ = std::move(shown_name);
  return document;
}

Position JsonDocument::position(const std::string& pointer) const {
  for (std::string known = pointer;; known.erase(known.rfind('/'))) {
    const auto found = positions_.find(known);
    if (found != positions_.end()) return found->second;
    if (known.rfind('/') == std::string::npos) return {name_, 0, 0};
  }
}

Position JsonDocument::key_position(const std::string& pointer) const {
  const auto found = key_positions_.find(pointer);
  return found == key_positions_.end() ? position(pointer) : found->second;
}

}  // namespace graftcast
