#include "weather_entries.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "text/system_reason.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Names = std::vector<std::string>;

const Names source_keys{"file", "reader",  "time_zone", "stamp",   "wind_height_m", "columns",
                        "as",   "made_at", "service",   "contact", "base_url"};
const Names column_keys{"column", "unit", "format", "missing"};
const Names stamps{"start", "end", "instant"};

// `+01:00`, `-0330` or `+01`.
bool is_fixed_offset(std::string_view text) {
  return text.size() >= 3 && (text[0] == '+' || text[0] == '-') &&
         parse_time("2000-01-01T00:00" + std::string(text));
}

std::string time_zone_of(const JsonEntry& entry) {
  std::string zone = entry.text();
  if (!is_fixed_offset(zone)) clock_of(entry);
  return zone;
}

Stamp stamp_of(const JsonEntry& entry) {
  const std::string word = entry.word_of(stamps);
  return word == "start" ? Stamp::start : word == "end" ? Stamp::end : Stamp::instant;
}

Instant instant_of(const JsonEntry& entry, const Clock& clock) {
  const std::string text = entry.text();
  const auto time = parse_time(text);
  if (!time)
    entry.fail(tr("{name} {text} is not a time", "name"_a = entry.name(), "text"_a = shown(text)),
               tr("write it as 2025-03-14T06:00Z"));
  if (time->offset) return Instant(time->reading.time_since_epoch() - *time->offset);
  return clock.resolve(time->reading).instant;
}

bool leads_out(const std::filesystem::path& inner) {
  const std::filesystem::path normal = inner.lexically_normal();
  return inner.is_absolute() || normal.empty() || *normal.begin() == "..";
}

// Whether the file, its symbolic links followed, lies outside the site folder. Error: OpenError.
bool leads_out_by_link(const std::filesystem::path& folder, const std::filesystem::path& inner) {
  std::error_code fault, root_fault;
  const auto whole = std::filesystem::weakly_canonical(folder / inner, fault);
  const auto root = std::filesystem::weakly_canonical(folder, root_fault);
  if (fault || root_fault)
    throw OpenError((folder / inner).string(), tr("cannot be looked at: {reason}",
                                                  "reason"_a = system_reason(fault ? fault : root_fault)));
  return leads_out(whole.lexically_relative(root));
}

std::string file_of(const JsonEntry& entry, const std::optional<std::filesystem::path>& folder) {
  std::string file = entry.text();
  if (leads_out(file) || (folder && leads_out_by_link(*folder, file))) {
    entry.fail(tr("the file {file} lies outside the site folder", "file"_a = shown(file)),
               tr("give a path within it, such as weather/station.csv"));
  }
  return file;
}

std::string base_url_of(const JsonEntry& entry) {
  constexpr std::array<std::string_view, 3> loopbacks{"http://localhost", "http://127.0.0.1", "http://[::1]"};
  std::string url = entry.text();
  const bool is_local = std::any_of(loopbacks.begin(), loopbacks.end(), [&](std::string_view start) {
    const std::string_view behind = std::string_view(url).substr(std::min(start.size(), url.size()));
    return url.starts_with(start) && (behind.empty() || behind[0] == ':' || behind[0] == '/');
  });
  if (!is_local && !url.starts_with("https://")) {
    entry.fail(tr("the address {url} is not one of https", "url"_a = shown(url)),
               tr("begin it with https://"));
  }
  return url;
}

ColumnMapping column_of(const JsonEntry& entry) {
  entry.check_keys(column_keys);
  ColumnMapping mapping;
  mapping.column = entry.at("column").text();
  if (const auto unit = entry.find("unit")) mapping.unit = unit->text();
  if (const auto format = entry.find("format")) mapping.format = format->text();
  if (const auto missing = entry.find("missing")) {
    for (const JsonEntry& code : missing->elements()) mapping.missing.push_back(code.text_or_number());
  }
  return mapping;
}

void read_forecast(const JsonEntry& entry, const Clock& clock, SourceSettings& source) {
  const auto as = entry.find("as");
  if (as) {
    as->word_of(Names{"forecast"});
    source.as_forecast = true;
  }
  const auto made_at = entry.find("made_at");
  if (!made_at) return;
  if (!source.as_forecast)
    made_at->fail(tr("made_at stands with a source that is no forecast"), tr("add \"as\": \"forecast\""));
  source.made_at = instant_of(*made_at, clock);
}

void read_place(const JsonEntry& entry, const std::optional<std::filesystem::path>& folder,
                SourceSettings& source) {
  const auto file = entry.find("file");
  const auto service = entry.find("service");
  if (file.has_value() == service.has_value()) {
    entry.fail(file ? tr("the source has both a file and a service")
                    : tr("the source has neither a file nor a service"),
               tr("give one of \"file\" and \"service\""));
  }
  if (file) source.file = file_of(*file, folder);
  if (service) {
    source.service = service->text();
    const auto contact = entry.find("contact");
    if (!contact)
      entry.fail(tr("the service {service} has no contact, without which it may not be asked",
                    "service"_a = shown(source.service)),
                 tr("add one that reaches you, such as \"contact\": \"grower@example.org\""));
    source.contact = contact->text();
  }
}

SourceSettings source_of(const JsonEntry& entry, const Clock& clock,
                         const std::optional<std::filesystem::path>& folder) {
  entry.check_keys(source_keys);
  SourceSettings source;
  read_place(entry, folder, source);
  if (const auto reader = entry.find("reader")) source.reader = reader->text();
  if (const auto zone = entry.find("time_zone")) source.time_zone = time_zone_of(*zone);
  if (const auto stamp = entry.find("stamp")) source.stamp = stamp_of(*stamp);
  // Below 0.1 m the logarithmic profile has no meaning (FAO-56 eq. 47); 200 m is above any mast of a log.
  if (const auto height = entry.find("wind_height_m")) source.wind_height_m = height->number(0.1, 200, "m");
  if (const auto columns = entry.find("columns")) {
    for (const auto& [variable, column] : columns->members())
      source.columns.emplace(variable, column_of(column));
  }
  if (const auto url = entry.find("base_url")) source.base_url = base_url_of(*url);
  read_forecast(entry, clock, source);
  return source;
}

}  // namespace

Clock clock_of(const JsonEntry& entry) {
  const std::string zone = entry.text();
  try {
    return Clock(zone);
  } catch (const RangeError& error) {
    entry.fail(fmt::format("{}: {}", entry.name(), error.message()), error.hint());
  }
}

WeatherSettings read_weather_settings(const JsonEntry& weather, const Clock& clock,
                                      const std::optional<std::filesystem::path>& folder) {
  weather.check_keys(Names{"sources"});
  WeatherSettings settings;
  if (const auto sources = weather.find("sources")) {
    for (const JsonEntry& source : sources->elements())
      settings.sources.push_back(source_of(source, clock, folder));
  }
  return settings;
}

}  // namespace graftcast
