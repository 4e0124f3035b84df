#include "services/fetch_state.hpp"

#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"
#include "text/json_document.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

json time_json(const std::optional<Instant>& instant) {
  return instant ? json(utc_text(*instant)) : json(nullptr);
}

[[noreturn]] void refuse(const std::string& name) {
  throw DataError({name, 0, 0}, tr("not the state of a weather service"),
                  tr("delete the file; nothing else is lost"));
}

std::optional<Instant> time_of(const json& root, const char* key, const std::string& name) {
  if (!root.contains(key) || root[key].is_null()) return std::nullopt;
  const auto time = root[key].is_string() ? parse_time(root[key].get<std::string>()) : std::nullopt;
  if (!time || !time->offset) refuse(name);
  return Instant(time->reading.time_since_epoch() - *time->offset);
}

std::string text_of(const json& root, const char* key, const std::string& name) {
  if (!root.contains(key)) return {};
  if (!root[key].is_string()) refuse(name);
  return root[key].get<std::string>();
}

}  // namespace

std::string state_text(const FetchState& state) {
  const nlohmann::ordered_json root{{"subject", state.subject},
                                    {"contact", state.contact},
                                    {"url", state.url},
                                    {"last_modified", state.last_modified},
                                    {"not_before", time_json(state.not_before)},
                                    {"asked_at", time_json(state.asked_at)},
                                    {"answered_at", time_json(state.answered_at)},
                                    {"failures", state.failures},
                                    {"banned", state.banned},
                                    {"trouble", state.trouble}};
  return root.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

FetchState parse_state(std::string_view text, const std::string& name) {
  const JsonDocument document = JsonDocument::from_text(text, name);
  const json& root = document.root();
  if (!root.is_object()) refuse(name);
  FetchState state;
  state.subject = text_of(root, "subject", name);
  state.contact = text_of(root, "contact", name);
  state.url = text_of(root, "url", name);
  state.last_modified = text_of(root, "last_modified", name);
  state.not_before = time_of(root, "not_before", name);
  state.asked_at = time_of(root, "asked_at", name);
  state.answered_at = time_of(root, "answered_at", name);
  state.trouble = text_of(root, "trouble", name);
  constexpr int most = 1000;
  if (root.contains("failures")) {
    if (!root["failures"].is_number_integer() || root["failures"] < 0) refuse(name);
    state.failures = root["failures"] > most ? most : root["failures"].get<int>();
  }
  if (root.contains("banned")) {
    if (!root["banned"].is_boolean()) refuse(name);
    state.banned = root["banned"].get<bool>();
  }
  return state;
}

}  // namespace graftcast
