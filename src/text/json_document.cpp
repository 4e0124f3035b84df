#include "text/json_document.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <utility>
#include <vector>

#include "encoding.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

constexpr std::size_t deepest_nesting = 64;

// What stands for a pointer: that of its parent, carried on by its last part (FNV-1a, 64 bits).
constexpr std::uint64_t root_pointer = 14695981039346656037U;

std::uint64_t pointer_below(std::uint64_t parent, std::string_view part) {
  constexpr std::uint64_t prime = 1099511628211U;
  std::uint64_t pointer = (parent ^ static_cast<unsigned char>('/')) * prime;
  for (const char letter : part) pointer = (pointer ^ static_cast<unsigned char>(letter)) * prime;
  return pointer;
}

std::uint64_t pointer_below(std::uint64_t parent, std::size_t index) {
  std::array<char, 20> digits{};
  const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), index).ptr;
  return pointer_below(parent,
                       std::string_view(digits.data(), static_cast<std::size_t>(end - digits.data())));
}

// A part of a pointer as the key it stands for (RFC 6901).
std::string unescaped(std::string_view part) {
  std::string key;
  for (std::size_t k = 0; k < part.size(); ++k) {
    const bool is_escape = part[k] == '~' && k + 1 < part.size();
    key += is_escape ? (part[++k] == '1' ? '/' : '~') : part[k];
  }
  return key;
}

std::uint64_t pointer_of(std::string_view text) {
  std::uint64_t pointer = root_pointer;
  while (!text.empty()) {
    text.remove_prefix(1);
    const std::size_t end = std::min(text.find('/'), text.size());
    pointer = pointer_below(pointer, unescaped(text.substr(0, end)));
    text.remove_prefix(end);
  }
  return pointer;
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

}  // namespace

// Walks over the text one token at a time, in step with the parser's events, and so knows where each begins.
class JsonTokenCursor {
 public:
  explicit JsonTokenCursor(std::string_view text) : text_(text) {}

  /// Passes the next string, number, literal or bracket and returns the byte at which it begins.
  std::size_t pass_token() {
    pass_while(
        [](char letter) { return std::string_view(" \t\r\n,:").find(letter) != std::string_view::npos; });
    const std::size_t place = at_;
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
    while (at_ < text_.size() && test(text_[at_])) ++at_;
  }

  void pass_string() {
    ++at_;
    while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2 : 1;
    ++at_;
  }

  std::string_view text_;
  std::size_t at_ = 0;
};

// Receives the parser's events and builds the document beside the places of its values.
class JsonDocument::Builder final : public nlohmann::json_sax<json> {
 public:
  Builder(std::string_view text, const std::string& name) : text_(text), name_(name), cursor_(text) {}

  json root;
  std::vector<Place> places;

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
    const std::size_t offset = cursor_.pass_token();
    Container& parent = open_.back();
    if (parent.value->contains(name))
      fail(offset, tr("the key {key} is given twice", "key"_a = shown(name)), tr("keep one of them"));
    parent.key = name;
    places.push_back({next_pointer(), static_cast<std::uint32_t>(offset), true});
    return true;
  }

  bool parse_error(std::size_t bytes_read, const std::string&,
                   const nlohmann::detail::exception& fault) override {
    const std::size_t offset = bytes_read > 0 ? bytes_read - 1 : 0;
    throw DataError(position_of_byte(text_, std::min(offset, text_.size()), name_),
                    tr("not valid JSON: {reason}", "reason"_a = plain_reason(fault.what())));
  }

 private:
  struct Container {
    json* value;
    std::uint64_t pointer;
    std::string key;  // Of the member that comes next, in an object.
  };

  [[noreturn]] void fail(std::size_t offset, const std::string& message, const std::string& hint = {}) const {
    throw DataError(position_of_byte(text_, offset, name_), message, hint);
  }

  json* place(json&& value) {
    const std::size_t offset = cursor_.pass_token();
    if (value.is_structured() && open_.size() >= deepest_nesting)
      fail(offset, tr("nested deeper than {levels} levels", "levels"_a = deepest_nesting));
    places.push_back({next_pointer(), static_cast<std::uint32_t>(offset), false});
    if (open_.empty()) return &(root = std::move(value));
    const Container& parent = open_.back();
    json& slot = parent.value->is_object() ? (*parent.value)[parent.key] : parent.value->emplace_back();
    slot = std::move(value);
    return &slot;
  }

  std::uint64_t next_pointer() const {
    if (open_.empty()) return root_pointer;
    const Container& parent = open_.back();
    return parent.value->is_object() ? pointer_below(parent.pointer, std::string_view(parent.key))
                                     : pointer_below(parent.pointer, parent.value->size());
  }

  bool add(json&& value) {
    place(std::move(value));
    return true;
  }

  bool open(json&& container) {
    const std::uint64_t pointer = next_pointer();
    json* value = place(std::move(container));
    open_.push_back({value, pointer, {}});
    return true;
  }

  bool close() {
    cursor_.pass_token();
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  const std::string& name_;
  JsonTokenCursor cursor_;
  std::vector<Container> open_;
};

JsonDocument JsonDocument::from_file(const std::filesystem::path& path) {
  return from_text(read_text_file(path), path.string());
}

JsonDocument JsonDocument::from_text(std::string_view text, std::string shown_name) {
  if (text.starts_with(utf8_mark)) text.remove_prefix(utf8_mark.size());
  if (text.starts_with(utf8_mark))  // The parser would pass over it, and every column be off.
    throw DataError({shown_name, 1, 1}, tr("a second byte-order mark"), tr("JSON begins with {{ or ["));
  require_plain_text(text, shown_name);
  require_room_for_json(text, shown_name);
  Builder builder(text, shown_name);
  json::sax_parse(text.begin(), text.end(), &builder);
  JsonDocument document;
  document.root_ = std::move(builder.root);
  document.places_ = std::move(builder.places);
  document.name_ = std::move(shown_name);
  document.text_ = text;
  return document;
}

const JsonDocument::Place* JsonDocument::find(const std::string& pointer, bool is_key) const {
  const std::uint64_t wanted = pointer_of(pointer);
  const auto found = std::ranges::find_if(
      places_, [&](const Place& place) { return place.pointer == wanted && place.is_key == is_key; });
  return found == places_.end() ? nullptr : &*found;
}

Position JsonDocument::position(const std::string& pointer) const {
  for (std::string known = pointer;; known.erase(known.rfind('/'))) {
    if (const Place* const place = find(known, false)) return position_of_byte(text_, place->offset, name_);
    if (known.rfind('/') == std::string::npos) return {name_, 0, 0};
  }
}

Position JsonDocument::key_position(const std::string& pointer) const {
  const Place* const place = find(pointer, true);
  return place == nullptr ? position(pointer) : position_of_byte(text_, place->offset, name_);
}

void require_room_for_json(std::string_view text, const std::string& name) {
  constexpr std::size_t most_bytes = std::size_t{64} << 20U;
  // As a value, a container and a text are kept, about.
  constexpr std::size_t value_bytes = 16, container_bytes = 80, text_bytes = 64;
  std::size_t needed = 0;
  bool quoted = false;
  for (std::size_t k = 0; k < text.size() && needed <= most_bytes; ++k) {
    const char letter = text[k];
    if (quoted && letter == '\\') ++k;
    if (letter == '"') quoted = !quoted;
    if (letter == '"' && quoted) needed += text_bytes;
    if (quoted) continue;
    if (letter == ',') needed += value_bytes;
    if (letter == '{' || letter == '[') needed += container_bytes;
  }
  if (needed > most_bytes)
    throw DataError({name, 0, 0}, tr("the file holds more values than fit in memory"),
                    tr("split it, or check that it is the file meant"));
}

}  // namespace graftcast
