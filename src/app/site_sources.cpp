#include "app/site_sources.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "records/site.hpp"
#include "text/atomic_file.hpp"
#include "text/json_document.hpp"
#include "text/json_edit.hpp"
#include "text/text.hpp"

namespace graftcast {

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
    return with_last_entry(site_text, document.position(""), root.empty(),
                           fmt::format("\"weather\": {{\"sources\": [{}]}}", list));
  const auto& weather = root["weather"];
  if (!weather.contains("sources"))
    return with_last_entry(site_text, document.position("/weather"), weather.empty(),
                           fmt::format("\"sources\": [{}]", list));
  return with_last_entry(site_text, document.position("/weather/sources"), weather["sources"].empty(), list);
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

}  // namespace graftcast
