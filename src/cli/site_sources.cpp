#include "site_sources.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "graftcast/atomic_file.hpp"
#include "graftcast/json_document.hpp"
#include "graftcast/site.hpp"
#include "graftcast/text.hpp"

namespace graftcast::cli {

namespace {

using Json = nlohmann::ordered_json;

std::string_view stamp_word(Stamp stamp) {
  constexpr std::array<std::string_view, 3> words{"start", "end", "instant"};
  return words.at(static_cast<std::size_t>(stamp));
}

Json columns_json(const std::map<std::string, ColumnMapping>& columns) {
  Json json = Json::object();
  for (const auto& [name, mapping] : columns) {
    Json& column = json[name] = {{"column", mapping.column}};
    if (!mapping.unit.empty()) column["unit"] = mapping.unit;
    if (!mapping.format.empty()) column["format"] = mapping.format;
    if (!mapping.missing.empty()) column["missing"] = mapping.missing;
  }
  return json;
}

std::size_t offset_of(const std::string& text, const Position& place) {
  std::size_t line_start = 0;
  for (std::size_t line = 1; line < place.line; ++line) line_start = text.find('\n', line_start) + 1;
  return line_start + place.column - 1;
}

/// The bracket that closes the one at `at`; strings are passed over. The text is valid JSON.
std::size_t closing_of(const std::string& text, std::size_t at) {
  int depth = 0;
  for (bool in_string = false; at < text.size(); ++at) {
    const char letter = text[at];
    if (in_string && letter == '\\') {
      ++at;
    } else if (letter == '"') {
      in_string = !in_string;
    } else if (!in_string && (letter == '{' || letter == '[')) {
      ++depth;
    } else if (!in_string && (letter == '}' || letter == ']') && --depth == 0) {
      break;
    }
  }
  return at;
}

/// `text` with `addition` as the last member or element of the container that stands at `place`.
std::string with_last(const std::string& text, const Position& place, bool is_empty,
                      const std::string& addition) {
  const std::size_t closing = closing_of(text, offset_of(text, place));
  const std::size_t end = is_empty ? closing : text.find_last_not_of(" \t\r\n", closing - 1) + 1;
  return text.substr(0, end) + (is_empty ? "" : ",\n   ") + addition + text.substr(end);
}

}  // namespace

Json source_entry(const SourceSettings& source) {
  Json entry{{"file", source.file}};
  if (!source.reader.empty()) entry["reader"] = source.reader;
  if (!source.time_zone.empty()) entry["time_zone"] = source.time_zone;
  if (source.stamp) entry["stamp"] = stamp_word(*source.stamp);
  if (source.wind_height_m) entry["wind_height_m"] = *source.wind_height_m;
  if (!source.columns.empty()) entry["columns"] = columns_json(source.columns);
  if (source.as_forecast) entry["as"] = "forecast";
  if (source.made_at) entry["made_at"] = utc_text(*source.made_at);
  return entry;
}

std::string with_sources(const std::string& site_text, const std::string& shown_name,
                         const std::vector<Json>& entries) {
  std::string list;
  for (const Json& entry : entries) list += (list.empty() ? "" : ",\n   ") + entry.dump();
  const JsonDocument document = JsonDocument::from_text(site_text, shown_name);
  const auto& root = document.root();
  if (!root.contains("weather"))
    return with_last(site_text, document.position(""), root.empty(),
                     fmt::format("\"weather\": {{\"sources\": [{}]}}", list));
  const auto& weather = root["weather"];
  if (!weather.contains("sources"))
    return with_last(site_text, document.position("/weather"), weather.empty(),
                     fmt::format("\"sources\": [{}]", list));
  return with_last(site_text, document.position("/weather/sources"), weather["sources"].empty(), list);
}

void add_sources(const std::filesystem::path& folder, const std::vector<SourceSettings>& sources) {
  const std::filesystem::path file = folder / "site.json";
  const std::string before = read_text_file(file);
  const Site site = site_from_text(before, file.string(), folder);
  std::vector<Json> entries;
  for (const SourceSettings& source : sources)
    if (std::ranges::find(site.weather.sources, source.file, &SourceSettings::file) ==
        site.weather.sources.end())
      entries.push_back(source_entry(source));
  if (entries.empty()) return;
  const std::string after = with_sources(before, file.string(), entries);
  site_from_text(after, file.string(), folder);
  replace_file(file, after);
}

}  // namespace graftcast::cli
