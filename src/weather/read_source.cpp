
#include "graftcast/error.hpp"
#include "text/tr.hpp"
#include "weather/detect_reader.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

namespace {

void check_path(const std::string& file) {
  const std::filesystem::path path = std::filesystem::path(file).lexically_normal();
  if (!file.empty() && !path.is_absolute() && *path.begin() != "..") return;
  throw DataError({"site.json", 0, 0},
                  tr("the weather source \"{file}\" lies outside the site folder", "file"_a = file),
                  tr("a path within it, such as weather/station.csv"));
}

std::optional<Instant> first_begin(const Readings& readings) {
  std::optional<Instant> first;
  for (const Block& block : readings.blocks) {
    if (!block.spans.empty() && (!first || block.spans.front().begin < *first))
      first = block.spans.front().begin;
  }
  return first;
}

void mark_forecast(Readings& readings, const SourceSettings& source) {
  readings.is_forecast = true;
  if (source.made_at) readings.made_at = source.made_at;
  if (readings.made_at) return;  // A service's answer tells it itself.
  readings.made_at = first_begin(readings);
  readings.notes.push_back(
      {readings.source,
       "made-at-assumed",
       1,
       tr("the source does not say when the forecast was made (\"made_at\"); taken as its beginning"),
       {}});
}

}  // namespace

Readings read_source(const std::filesystem::path& site_folder, const SourceSettings& source,
                     const Location& location, const Clock& clock) {
  check_path(source.file);
  Readings readings = read_weather_file(site_folder / source.file, source, location, clock, source.file);
  if (source.as_forecast) mark_forecast(readings, source);
  return readings;
}

}  // namespace graftcast
