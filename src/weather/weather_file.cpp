#include "weather/weather_file.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <iterator>

#include "graftcast/error.hpp"
#include "text/atomic_file.hpp"
#include "text/tr.hpp"
#include "weather/detect_reader.hpp"

namespace graftcast {

namespace fs = std::filesystem;

namespace {

ChannelSummary summary_of(const Channel& channel) {
  ChannelSummary summary{channel.quantity, channel.kind, 0, 0, 0};
  for (const double value : channel.value) {
    if (std::isnan(value)) continue;
    summary.least = summary.known == 0 ? value : std::min(summary.least, value);
    summary.greatest = summary.known == 0 ? value : std::max(summary.greatest, value);
    ++summary.known;
  }
  return summary;
}

bool same_content(const fs::path& a, const fs::path& b) {
  std::ifstream first(a, std::ios::binary);
  std::ifstream second(b, std::ios::binary);
  return first && second &&
         std::equal(std::istreambuf_iterator<char>(first), {}, std::istreambuf_iterator<char>(second), {});
}

}  // namespace

WeatherFileSummary summary_of(const Readings& readings) {
  WeatherFileSummary summary;
  summary.notes = readings.notes;
  for (const Block& block : readings.blocks) {
    if (block.spans.empty()) continue;
    const bool is_first = summary.channels.empty();
    summary.daily = is_daily(block.spans.front());
    summary.rows = std::max(summary.rows, block.spans.size());
    summary.first = is_first ? block.spans.front().begin : std::min(summary.first, block.spans.front().begin);
    summary.last = is_first ? block.spans.back().end : std::max(summary.last, block.spans.back().end);
    for (const Channel& channel : block.channels) summary.channels.push_back(summary_of(channel));
  }
  if (summary.rows == 0)
    throw DataError({readings.source, 0, 0}, tr("no row can be placed in time"),
                    tr("see the notes on its times"));
  return summary;
}

AddedWeather add_weather_file(const fs::path& site_folder, const fs::path& file, SourceSettings settings,
                              const Location& location, const Clock& clock) {
  WeatherFileSummary summary = summary_of(read_weather_file(file, settings, location, clock));
  AddedWeather added{std::move(settings), {}, std::move(summary)};
  added.reader = reader_of(file, added.source);
  const fs::path target = site_folder / "weather" / file.filename();
  added.source.file = (fs::path("weather") / file.filename()).generic_string();
  std::error_code fault;
  if (fs::equivalent(file, target, fault)) return added;
  const fs::file_status old = fs::symlink_status(target, fault);
  if (fs::exists(old)) {
    if (fs::is_regular_file(old) && same_content(file, target)) return added;
    throw WriteError(target.string(),
                     tr("another file of that name is there, and weather files are never written over"),
                     tr("give the new file a name of its own"));
  }
  require_inside(site_folder, target.parent_path());
  make_folder(target.parent_path());
  copy_file_durably(file, target);
  return added;
}

}  // namespace graftcast
