#pragma once
// What services answered, kept in the site folder: weather/cache/SERVICE/, or for an address of one's own
// weather/cache/SERVICE-ADDRESS-MARK/.
//
//   latest.http.gz   the last answer of status 200 with its headers, stored before it is read
//   past/TIME.http.gz  each forecast that could be read, by the time it was made
//   points.http.gz   which grid cell the site lies in (National Weather Service)
//   state.json       when the service may be asked again, and how the last asking went

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/forecast_services.hpp"
#include "weather/http_fetch.hpp"
#include "weather/site_weather.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// An answer with what was asked and when it came.
struct StoredAnswer {
  std::string url;
  Instant received_at;
  HttpAnswer answer;
};

/// gzip of a readable head, a blank line and the body as it came.
std::string stored_bytes(const StoredAnswer& stored);
/// Error: DataError when `bytes` are not what `stored_bytes` wrote, or are larger than an answer may be.
StoredAnswer parse_stored(std::string_view bytes, const std::string& name);

/// How things stand with one service.
struct FetchState {
  std::string subject;                 ///< Service, address and place that the rest is about.
  std::string contact;                 ///< Who asked.
  std::string url;                     ///< Address of the last good answer.
  std::string last_modified;           ///< Of the last good answer, word for word; empty where it had none.
  std::optional<Instant> not_before;   ///< No asking before.
  std::optional<Instant> asked_at;     ///< Last asking.
  std::optional<Instant> answered_at;  ///< Last good answer, or word that it still holds.
  int failures = 0;                    ///< In a row.
  bool banned = false;  ///< Refused with 401 or 403: no asking at all until the settings change.
  std::string trouble;  ///< What went wrong with the last asking; else empty.
};

/// The state after `outcome`, by the service's terms; `jitter` is a random number in [0, 1).
///
/// - 200, 203, 304: not before `Expires` (measured by the server's own clock, else ours) or `max-age`, and
/// never
///   sooner than a while that suits the service: 30 min MET Norway without either and the National Weather
///   Service, 1 h Open-Meteo, 24 h its archive, 10 min `url`.
///   Never later than a week, whatever a service tells.
/// - 401, 403: banned. 400, 404, 410, 422: not for a day.
/// - 429: not for `Retry-After` up to a week, and at least for 1 h, doubled each time up to 24 h.
/// - 408, 499, 5xx, time-outs, broken connections and anything else: 5 min, doubled each time up to 6 h, +-25
/// %.
FetchState after_outcome(FetchState state, Service service, const HttpOutcome& outcome, Instant now,
                         double jitter);

/// What would be asked of one source now.
struct FetchPlan {
  Service service = Service::met_norway;
  std::string subject;  ///< As in the state.
  std::string contact;
  HttpRequest request;
  bool may_ask = false;
  std::string reason;                 ///< Why not, or what follows (`then the forecast of its grid cell`).
  std::optional<Instant> not_before;  ///< Where it is only too early.
  bool after_trouble = false;         ///< It may not be asked because the last asking went wrong.
};

/// A pause that was set by a clock which has since been put back does not count.
/// `program` names the program, such as `graftcast/0.1.0`. Errors: DataError for an unknown service, a
/// contact that does not tell how to reach anyone (an e-mail or web address), or a state that cannot be read.
FetchPlan plan_fetch(const std::filesystem::path& site_folder, const SourceSettings& source,
                     const Location& location, const std::string& program, Instant now);

/// The world outside, so that tests need neither network nor time.
struct FetchTools {
  std::function<HttpOutcome(const HttpRequest&)> get;
  std::function<Instant()> now;
  std::function<void(std::chrono::milliseconds)> wait;
  std::function<double()> random;  ///< In [0, 1).
};
/// The real ones.
FetchTools real_tools();

/// How an asking went.
struct FetchResult {
  enum class What : std::uint8_t {
    stored,        ///< A new answer was stored and read.
    not_modified,  ///< The service says that the last answer still holds.
    too_early,     ///< It was not asked: the last answer has not expired.
    left_alone,    ///< It was not asked: after trouble it is to be left alone for a while, or for good.
    failed,
  } what = What::failed;
  std::string message;             ///< One sentence; on failure with the age of the forecast that stands.
  std::optional<Instant> made_at;  ///< Of the forecast that stands.
  std::optional<Instant> not_before;
  std::string credit;
  std::vector<std::string> warnings;
};

/// Asks the service of `source` if it may be asked, stores the answer with its headers, then reads it and
/// keeps it among the past forecasts. Whatever happens, the last good forecast stays. Up to three tries, some
/// seconds apart, on 5xx and broken connections. Hold a lock on the cache's folder around it. Errors: those
/// of `plan_fetch`; WriteError. What the service or the network does wrong is a result, not an error.
FetchResult fetch_forecast(const std::filesystem::path& site_folder, const SourceSettings& source,
                           const Location& location, const Clock& clock, const std::string& program,
                           const FetchTools& tools);

/// Folder of the source's cache. A folder without the mark that tells addresses apart, as they once were,
/// stays in use for the address it was asked at.
std::filesystem::path cache_folder(const std::filesystem::path& site_folder, const SourceSettings& source);

/// A past forecast on disk.
struct PastForecast {
  Instant made_at;
  std::filesystem::path file;
};
/// All of a source, newest first.
std::vector<PastForecast> past_forecasts(const std::filesystem::path& site_folder,
                                         const SourceSettings& source);

/// One past forecast read. Errors: OpenError, DataError.
ServiceAnswer read_past_forecast(const PastForecast& past, const SourceSettings& source,
                                 const Location& location, const Clock& clock);

/// What the cache of a source says as of `knowledge`, newest first: forecasts made by then, of those older
/// than the newest one every six hours for ten days and one a day before. Never empty: where there is none,
/// or the last asking went wrong, a note says so and how old the forecast is. A file that cannot be read, or
/// a forecast for a place more than 30 km away, is left out with a note. Error: DataError for an unknown
/// service.
std::vector<Readings> saved_forecasts(const std::filesystem::path& site_folder, const SourceSettings& source,
                                      const Location& location, const Clock& clock,
                                      const Knowledge& knowledge);

}  // namespace graftcast
