#include "services/saved_forecasts.hpp"

#include <algorithm>
#include <optional>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/cache_files.hpp"
#include "services/gzip.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/table_reader.hpp"

namespace graftcast {

namespace {

constexpr std::size_t most_bytes = std::size_t{64} << 20U;

Readings table_of(const StoredAnswer& stored, const SourceSettings& source, const Location& location,
                  const Clock& clock, const std::string& name) {
  Readings readings = read_table_text(stored.answer.body, name, source, location, clock);
  readings.source = name;
  readings.is_forecast = source.as_forecast;
  if (source.as_forecast) readings.made_at = stored.received_at;
  return readings;
}

/// Forecasts that were known, thinned: what is older matters only for hours that nothing else tells of.
std::vector<PastForecast> known_ones(std::vector<PastForecast> all, const Knowledge& knowledge) {
  constexpr std::chrono::days recent{10};
  std::vector<PastForecast> chosen;
  for (PastForecast& each : all) {
    if (!knowledge.hindsight && each.made_at > knowledge.as_of) continue;
    const bool far_back = !chosen.empty() && chosen.front().made_at - each.made_at > recent;
    const auto apart = far_back ? std::chrono::hours(24) : std::chrono::hours(6);
    if (chosen.empty() || chosen.back().made_at - each.made_at >= apart) chosen.push_back(std::move(each));
  }
  return chosen;
}

/// Without those that only tell hours which logs tell: of each it is the time until the next one's making
/// that counts. The newest stays.
void leave_out_logged(std::vector<PastForecast>& newest_first, const LoggedHours& logged) {
  std::optional<Instant> next;
  std::erase_if(newest_first, [&](const PastForecast& each) {
    const bool is_needed = !next || !logged.cover({each.made_at, *next + std::chrono::hours(1)});
    next = each.made_at;
    return !is_needed;
  });
}

Readings empty_readings(const SourceSettings& source, QualityNote note) {
  Readings nothing;
  nothing.source = source.service;
  nothing.notes.push_back(std::move(note));
  return nothing;
}

/// Reads one; what does not work out becomes a note.
class PastReader {
 public:
  PastReader(const SourceSettings& source, const Location& location, const Clock& clock)
      : source_(source), location_(location), clock_(clock) {}

  void add(const PastForecast& past);
  std::vector<Readings> take() { return std::move(all_); }

 private:
  void note(const char* kind, std::string text) {
    all_.push_back(empty_readings(source_, {source_.service, kind, 1, std::move(text), {}}));
  }

  const SourceSettings& source_;
  const Location& location_;
  const Clock& clock_;
  std::vector<Readings> all_;
  bool has_one_ = false;
};

void PastReader::add(const PastForecast& past) {
  try {
    ServiceAnswer answer = read_past_forecast(past, source_, location_, clock_);
    if (answer.place && distance_km(location_, *answer.place) > farthest_km) {
      note("other-place",
           tr("the forecast made at {time} is for a place {distance:.0f} km away and not used",
              "time"_a = utc_text(past.made_at), "distance"_a = distance_km(location_, *answer.place)));
      return;
    }
    if (has_one_) answer.readings.notes.clear();  // The newest one's notes say it.
    // Older courses matter to nobody: where the newest ends, so do they, but for some hours.
    if (!has_one_) answer.readings.members = std::move(answer.members);
    has_one_ = true;
    all_.push_back(std::move(answer.readings));
  } catch (const Error& fault) {
    note("unreadable-forecast", tr("left out: {reason}", "reason"_a = fault.what()));
  }
}

/// What went wrong last, if that was known by then.
std::optional<QualityNote> trouble_note(const CacheFiles& files, const SourceSettings& source,
                                        const std::vector<PastForecast>& chosen, const Knowledge& knowledge) {
  FetchState state;
  try {
    state = files.state();
  } catch (const Error& fault) {
    return QualityNote{source.service, "fetch-trouble", 1, fault.what(), {}};
  }
  if (state.trouble.empty() || !state.asked_at) return std::nullopt;
  if (!knowledge.hindsight && *state.asked_at > knowledge.as_of) return std::nullopt;
  std::string text =
      tr("asked at {time}, but {trouble}", "time"_a = utc_text(*state.asked_at), "trouble"_a = state.trouble);
  if (!chosen.empty())
    text = tr(
        "{trouble}; the forecast in use was made at {time}, {hours:.0f} h before", "trouble"_a = text,
        "time"_a = utc_text(chosen.front().made_at),
        "hours"_a = std::chrono::duration<double, std::ratio<3600>>(*state.asked_at - chosen.front().made_at)
                        .count());
  return QualityNote{source.service, "fetch-trouble", 1, std::move(text), {}};
}

}  // namespace

Readings read_saved_answer(const std::filesystem::path& path, Service service, const SourceSettings& source,
                           const Location& location, const std::string& shown_name) {
  std::string text = read_file_bytes(path);
  if (text.starts_with("\x1f\x8b")) text = gzip_expanded(text, most_bytes, shown_name);
  if (service == Service::open_meteo && !source.as_forecast) service = Service::open_meteo_archive;
  ServiceAnswer answer =
      read_service_answer(service, text, location, {shown_name, source.made_at, source.time_zone});
  if (answer.place && distance_km(location, *answer.place) > farthest_km)
    answer.readings.notes.push_back({shown_name,
                                     "other-place",
                                     1,
                                     tr("the answer is for a place {distance:.0f} km from the site",
                                        "distance"_a = distance_km(location, *answer.place)),
                                     {}});
  return std::move(answer.readings);
}

bool gives_forecasts(const SourceSettings& source) {
  if (source.service.empty()) return false;
  const Service service = parse_service(source.service);
  return service != Service::open_meteo_archive && (service != Service::url || source.as_forecast);
}

ServiceAnswer read_stored_answer(const StoredAnswer& stored, const SourceSettings& source,
                                 const Location& location, const Clock& clock, const std::string& name) {
  const Service service = parse_service(source.service);
  if (service == Service::url) return {table_of(stored, source, location, clock, name), {}, std::nullopt};
  return read_service_answer(service, stored.answer.body, location,
                             {name, stored.received_at, source.time_zone});
}

std::vector<PastForecast> past_forecasts(const std::filesystem::path& site_folder,
                                         const SourceSettings& source) {
  return CacheFiles(site_folder, source).past();
}

ServiceAnswer read_past_forecast(const PastForecast& past, const SourceSettings& source,
                                 const Location& location, const Clock& clock) {
  return read_stored_answer(read_stored(past.file), source, location, clock, source.service);
}

std::vector<Readings> saved_forecasts(const std::filesystem::path& site_folder, const SourceSettings& source,
                                      const Location& location, const Clock& clock,
                                      const Knowledge& knowledge) {
  return needed_forecasts(site_folder, source, location, clock, knowledge, nullptr);
}

std::vector<Readings> needed_forecasts(const std::filesystem::path& site_folder, const SourceSettings& source,
                                       const Location& location, const Clock& clock,
                                       const Knowledge& knowledge, const LoggedHours* logged) {
  parse_service(source.service);
  const CacheFiles files(site_folder, source);
  std::vector<PastForecast> chosen = known_ones(files.past(), knowledge);
  if (logged != nullptr) leave_out_logged(chosen, *logged);
  PastReader reader(source, location, clock);
  for (const PastForecast& past : chosen) reader.add(past);
  std::vector<Readings> all = reader.take();
  if (all.empty())
    all.push_back(empty_readings(
        source, {source.service, "no-saved-forecast", 1, tr("no answer of this service is saved"), {}}));
  if (auto trouble = trouble_note(files, source, chosen, knowledge))
    all.front().notes.push_back(std::move(*trouble));
  return all;
}

}  // namespace graftcast
