#include <cmath>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/answer.hpp"
#include "services/open_meteo_table.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using nlohmann::json;

std::string escaped(std::string key) {
  for (std::size_t at = 0; (at = key.find_first_of("~/", at)) != std::string::npos; at += 2)
    key.replace(at, 1, key[at] == '~' ? "~0" : "~1");
  return key;
}

class OpenMeteoJson {
 public:
  OpenMeteoJson(std::string_view text, const Location& location, const AnswerOrigin& origin)
      : answer_(text, origin.name), location_(location), top_(answer_.root().is_array() ? "/0" : "") {}

  OpenMeteoTable table();

 private:
  void refuse_errors() const;
  std::chrono::seconds offset() const;
  std::optional<AnswerPlace> place() const;
  OpenMeteoSection section(const std::string& name) const;
  Instant time(const json& stamp, const std::string& pointer) const;
  void add_column(OpenMeteoSection& section, const std::string& name, const std::string& key,
                  const OpenMeteoName& parsed) const;

  Answer answer_;
  const Location& location_;
  std::string top_;  ///< Pointer to the one place of the answer.
};

/// The service says what it did not like as an object; of several places the answer is a list.
void OpenMeteoJson::refuse_errors() const {
  if (answer_.root().is_array() && answer_.root().size() != 1)
    answer_.fail("", tr("the answer is for {count} places", "count"_a = answer_.root().size()),
                 tr("ask for one place"));
  const json& root = answer_.object_at(top_);
  if (!root.contains("error") || root["error"] != true) return;
  const bool has_reason = root.contains("reason") && root["reason"].is_string();
  answer_.fail(top_ + "/reason", has_reason ? tr("the service refused: {reason}",
                                                 "reason"_a = shown(root["reason"].get<std::string>(), 200))
                                            : tr("the service refused: no reason"));
}

std::chrono::seconds OpenMeteoJson::offset() const {
  const json* const found = answer_.find(top_ + "/utc_offset_seconds");
  if (found == nullptr || !found->is_number_integer())
    answer_.fail(top_, tr("the answer does not tell its utc_offset_seconds"),
                 tr("an answer of another service?"));
  // As a whole number of 64 bits, one without a sign could turn into a small one.
  constexpr double farthest_s = 18.0 * 3600;
  if (std::abs(found->get<double>()) > farthest_s)
    answer_.fail(top_ + "/utc_offset_seconds", tr("no place is that far from UTC"));
  return std::chrono::seconds(found->get<long>());
}

std::optional<AnswerPlace> OpenMeteoJson::place() const {
  const json* const latitude = answer_.find(top_ + "/latitude");
  const json* const longitude = answer_.find(top_ + "/longitude");
  if (latitude == nullptr || longitude == nullptr || !latitude->is_number() || !longitude->is_number())
    return std::nullopt;
  return AnswerPlace{latitude->get<double>(), longitude->get<double>()};
}

Instant OpenMeteoJson::time(const json& stamp, const std::string& pointer) const {
  const auto time = stamp.is_string()           ? parse_open_meteo_time(stamp.get<std::string>(), offset())
                    : stamp.is_number_integer() ? parse_open_meteo_time(stamp.dump(), offset())
                                                : std::nullopt;
  if (!time) answer_.fail(pointer, tr("not a time"), tr("2025-06-01T13:00, or seconds since 1970"));
  return *time;
}

void OpenMeteoJson::add_column(OpenMeteoSection& section, const std::string& name, const std::string& key,
                               const OpenMeteoName& parsed) const {
  const std::string pointer = fmt::format("{}/{}/{}", top_, name, escaped(key));
  const std::string unit = fmt::format("{}/{}_units/{}", top_, name, escaped(key));
  OpenMeteoColumn column{parsed, {}, {}};
  try {
    column.field = open_meteo_field(*parsed.variable, answer_.text_at(unit), location_);
  } catch (const RangeError& fault) {
    answer_.fail(unit, fault.message(), fault.hint());
  }
  const json& values = answer_.array_at(pointer);
  if (values.size() != section.time.size())
    answer_.fail(pointer, tr("{count} values for {times} times", "count"_a = values.size(),
                             "times"_a = section.time.size()));
  column.value.reserve(values.size());
  for (const json& value : values)
    column.value.push_back(
        answer_.number_or_none(value, [&] { return fmt::format("{}/{}", pointer, column.value.size()); }));
  section.columns.push_back(std::move(column));
}

OpenMeteoSection OpenMeteoJson::section(const std::string& name) const {
  OpenMeteoSection section;
  const std::string pointer = top_ + "/" + name;
  const json& object = answer_.object_at(pointer);
  const json& stamps = answer_.array_at(pointer + "/time");
  for (std::size_t k = 0; k < stamps.size(); ++k) {
    const std::string place = fmt::format("{}/time/{}", pointer, k);
    section.time.push_back(time(stamps[k], place));
    if (k > 0 && section.time[k] <= section.time[k - 1]) answer_.fail(place, tr("the times do not rise"));
  }
  std::vector<std::string> keys;
  for (const auto& [key, value] : object.items()) keys.push_back(key);
  const std::vector<std::string> models = models_in(keys);
  for (const std::string& key : keys) {
    if (const auto parsed = parse_open_meteo_name(key, name == "daily", models))
      add_column(section, name, key, *parsed);
  }
  return section;
}

OpenMeteoTable OpenMeteoJson::table() {
  refuse_errors();
  offset();
  OpenMeteoTable table;
  table.place = place();
  for (const char* const name : {"hourly", "daily"}) {
    if (answer_.find(top_ + "/" + name) != nullptr) table.sections.push_back(section(name));
  }
  if (table.sections.empty()) answer_.fail(top_, tr("the answer has neither hourly nor daily values"));
  return table;
}

}  // namespace

OpenMeteoTable open_meteo_json(std::string_view text, const Location& location, const AnswerOrigin& origin) {
  return OpenMeteoJson(text, location, origin).table();
}

}  // namespace graftcast
