#include "services/answer.hpp"

#include "graftcast/error.hpp"
#include "text/json_document.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

constexpr int deepest_nesting = 64;

/// Refuses containers that stand too deep, for which the parser itself has no limit. A look along the text
/// beforehand costs a tenth of what a callback at each value does.
void check_depth(std::string_view text, const std::string& name) {
  int depth = 0;
  bool quoted = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    const char letter = text[k];
    if (quoted && letter == '\\') ++k;
    if (letter == '"') quoted = !quoted;
    if (quoted) continue;
    if (letter == '{' || letter == '[') ++depth;
    if (letter == '}' || letter == ']') --depth;
    if (depth > deepest_nesting)
      throw DataError({name, 0, 0}, tr("nested deeper than {levels} levels", "levels"_a = deepest_nesting));
  }
}

/// Says of what is no JSON what it likely is.
void refuse_other_text(std::string_view text, const std::string& name) {
  const std::string_view body = trimmed(text);
  if (body.empty()) throw DataError({name, 0, 0}, tr("the answer is empty"));
  if (body.front() == '<')
    throw DataError({name, 1, 1}, tr("the answer is HTML, not JSON"),
                    tr("a page of an error, a proxy or a sign-in"));
  // Open-Meteo reports a failure while it answers within the body, under status 200.
  const std::size_t broke = text.find("Unexpected error while streaming data");
  if (broke != std::string_view::npos)
    throw DataError({name, 0, 0}, tr("the service broke off while it answered: {text}",
                                     "text"_a = shown(text.substr(broke))));
}

}  // namespace

Answer::Answer(std::string_view text, std::string name) : text_(text), name_(std::move(name)) {
  if (text_.starts_with("\xEF\xBB\xBF")) text_.remove_prefix(3);
  refuse_other_text(text_, name_);
  check_depth(text_, name_);
  require_room_for_json(text_, name_);
  try {
    root_ = json::parse(text_.begin(), text_.end());
  } catch (const json::exception& fault) {
    JsonDocument::from_text(text_, name_);  // Throws, with line and column.
    throw DataError({name_, 0, 0}, tr("not valid JSON: {reason}", "reason"_a = fault.what()));
  }
}

const json* Answer::find(const std::string& pointer) const {
  const json::json_pointer path(pointer);
  return root_.contains(path) ? &root_.at(path) : nullptr;
}

const json& Answer::object_at(const std::string& pointer) const {
  const json* const found = find(pointer);
  if (found == nullptr)
    fail(pointer, tr("{pointer} is not there", "pointer"_a = pointer), tr("an answer of another service?"));
  if (!found->is_object()) fail(pointer, tr("{pointer} is not an object", "pointer"_a = pointer));
  return *found;
}

const json& Answer::array_at(const std::string& pointer) const {
  const json* const found = find(pointer);
  if (found == nullptr)
    fail(pointer, tr("{pointer} is not there", "pointer"_a = pointer), tr("an answer of another service?"));
  if (!found->is_array()) fail(pointer, tr("{pointer} is not a list", "pointer"_a = pointer));
  return *found;
}

std::string Answer::text_at(const std::string& pointer) const {
  const json* const found = find(pointer);
  if (found == nullptr || !found->is_string())
    fail(pointer, tr("{pointer} is not a text", "pointer"_a = pointer));
  return found->get<std::string>();
}

Instant Answer::time_at(const std::string& pointer) const {
  const std::string text = text_at(pointer);
  const auto time = parse_time(text);
  if (!time || !time->offset)
    fail(pointer, tr("{text} is not a time with its offset", "text"_a = shown(text)), "2025-06-01T13:00:00Z");
  return Instant(time->reading.time_since_epoch() - *time->offset);
}

void Answer::fail(const std::string& pointer, std::string message, std::string hint) const {
  throw DataError(JsonDocument::from_text(text_, name_).position(pointer), std::move(message),
                  std::move(hint));
}

}  // namespace graftcast
