#pragma once
// Answers of weather services, read from the text as it came. No network here: see http_fetch.hpp.

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// A service that `weather.sources` in site.json can name.
enum class Service : std::uint8_t {
  met_norway,           ///< MET Norway Locationforecast 2.0, `compact` or `complete`.
  nws,                  ///< US National Weather Service, raw gridpoint forecast.
  open_meteo,           ///< Open-Meteo forecast.
  open_meteo_ensemble,  ///< Open-Meteo ensemble: several courses of one forecast.
  open_meteo_archive,   ///< Open-Meteo archive: reanalysed past, no forecast.
  url,                  ///< Any table at an address of the owner's, with a column map.
};

/// `met-norway`, `nws`, `open-meteo`, `open-meteo-ensemble`, `open-meteo-archive`, `url`.
std::string_view service_name(Service service);
/// Error: DataError (in site.json) that offers the nearest names.
Service parse_service(std::string_view name);

/// The line that the service's terms ask to be shown beside its data; empty for `url`.
/// MET Norway: CC BY 4.0, "Data from MET Norway"; Open-Meteo: CC BY 4.0, "Weather data by Open-Meteo.com"
/// with a link; the National Weather Service is public domain, its credit is customary. Marked with
/// `tr_later`.
std::string_view service_credit(Service service);

/// Where an answer was found, and when it came.
struct AnswerOrigin {
  std::string name;                    ///< What messages call it; also the source of the readings.
  std::optional<Instant> received_at;  ///< Stands for the time of making where the answer tells none.
  std::string time_zone;  ///< `UTC` or a fixed offset, for an Open-Meteo table that lost its own.
};

/// The point on earth that an answer is for.
struct AnswerPlace {
  double latitude_deg = 0;
  double longitude_deg = 0;
};

/// An answer as readings.
struct ServiceAnswer {
  /// Blocks of intervals in UTC; `made_at` is the service's own time of issue where it tells one; wind and
  /// gust at 2 m (FAO-56 eq. 47 from the 10 m of all services); pressure at the site. `credit` is filled.
  Readings readings;
  std::vector<Readings> members;     ///< Further courses of an ensemble; the control run is `readings`.
  std::optional<AnswerPlace> place;  ///< Where the answer says.
};

/// MET Norway Locationforecast 2.0 as JSON. Values hold at their time; rain is of the hour after it while
/// entries are an hour apart, else of the six hours after. Lowest and highest temperature of six hours come
/// as extremes. Errors (here and below): DataError with line and column when the text is not such an answer,
/// is HTML, is cut off, is nested above 64 levels, or has an unknown unit. `null` and absent fields are
/// missing values.
ServiceAnswer read_met_norway(std::string_view text, const Location& location, const AnswerOrigin& origin);

/// National Weather Service gridpoint: a value holds for every hour of its interval; rain is the sum over it.
ServiceAnswer read_nws_gridpoint(std::string_view text, const Location& location, const AnswerOrigin& origin);

/// Open-Meteo forecast, ensemble or archive, as JSON or as the service's CSV. Times are UTC plus one constant
/// offset
/// (`utc_offset_seconds`), never the clock of the zone named; radiation is the mean and rain the sum of the
/// hour before its stamp, gusts the greatest of it. `is_forecast` says whether the readings are a forecast.
ServiceAnswer read_open_meteo(std::string_view text, const Location& location, const AnswerOrigin& origin,
                              bool is_forecast);

/// The service whose answer `text` looks like (of the Open-Meteo ones the forecast), by its content; nothing
/// where it is none, such as a table.
std::optional<Service> recognised_service(std::string_view text);

/// Reads an answer of `service`, which is not `url`.
ServiceAnswer read_service_answer(Service service, std::string_view text, const Location& location,
                                  const AnswerOrigin& origin);

/// Reads an answer that the owner saved as a file, plain or gzip. One of Open-Meteo counts as a forecast when
/// `source` says so, else as past weather. An answer for a place more than 30 km from the site is noted.
/// `shown_name` is what messages call the file. Errors: OpenError; those of the service's reader.
Readings read_saved_answer(const std::filesystem::path& path, Service service, const SourceSettings& source,
                           const Location& location, const std::string& shown_name);

/// Great-circle distance [km] on a sphere of 6371 km.
double distance_km(const Location& location, const AnswerPlace& place);

}  // namespace graftcast
