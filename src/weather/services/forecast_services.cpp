#include "weather/forecast_services.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

const std::vector<std::string> service_names{"met-norway",         "nws", "open-meteo", "open-meteo-ensemble",
                                             "open-meteo-archive", "url"};

bool holds(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

/// A header line of Open-Meteo's CSV: `time` and then names with units in parentheses.
bool has_open_meteo_header(std::string_view head) {
  if (head.starts_with("\nlatitude,longitude,") && holds(head, ",utc_offset_seconds,")) return true;
  const std::size_t at = head.find("\ntime,");
  if (at == std::string_view::npos) return false;
  const std::string_view line = head.substr(at + 1, head.find('\n', at + 1) - at - 1);
  return holds(line, " (") && (holds(line, "_2m") || holds(line, "_10m") || holds(line, "precipitation") ||
                               holds(line, "shortwave_radiation"));
}

double radians(double degrees) {
  return degrees * std::numbers::pi / 180;
}

}  // namespace

std::string_view service_name(Service service) {
  return service_names.at(static_cast<std::size_t>(service));
}

Service parse_service(std::string_view name) {
  const auto found = std::ranges::find(service_names, name);
  if (found != service_names.end()) return static_cast<Service>(found - service_names.begin());
  const std::string near = nearest_hint(name, service_names);
  throw DataError({"site.json", 0, 0}, tr("there is no weather service {name}", "name"_a = shown(name)),
                  near.empty() ? tr("known: {names}", "names"_a = fmt::join(service_names, ", ")) : near);
}

std::string_view service_credit(Service service) {
  switch (service) {
    case Service::met_norway:
      return tr_later(
          "Data from MET Norway (CC BY 4.0, https://creativecommons.org/licenses/by/4.0/), converted to "
          "hours");
    case Service::nws:
      return tr_later("Forecast data from the US National Weather Service");
    case Service::url:
      return "";
    default:
      return tr_later(
          "Weather data by Open-Meteo.com (https://open-meteo.com/), CC BY 4.0, converted to hours");
  }
}

std::optional<Service> recognised_service(std::string_view text) {
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const std::string_view body = trimmed(text);
  if (body.empty()) return std::nullopt;
  if (body.front() == '{' || body.front() == '[') {
    // Keys rather than a parse: an answer that is cut off is still one of its service.
    if (holds(body, "\"timeseries\"") && holds(body, "\"updated_at\"")) return Service::met_norway;
    if (holds(body, "\"validTimes\"") && holds(body, "\"updateTime\"")) return Service::nws;
    if (holds(body, "\"utc_offset_seconds\"")) return Service::open_meteo;
    return std::nullopt;
  }
  std::string head(1, '\n');
  head += body.substr(0, 4096);
  std::erase(head, '\r');
  return has_open_meteo_header(head) ? std::optional(Service::open_meteo) : std::nullopt;
}

ServiceAnswer read_service_answer(Service service, std::string_view text, const Location& location,
                                  const AnswerOrigin& origin) {
  switch (service) {
    case Service::met_norway:
      return read_met_norway(text, location, origin);
    case Service::nws:
      return read_nws_gridpoint(text, location, origin);
    default:
      return read_open_meteo(text, location, origin, service != Service::open_meteo_archive);
  }
}

double distance_km(const Location& location, const AnswerPlace& place) {
  constexpr double earth_radius_km = 6371;
  const double across = std::sin(radians(place.latitude_deg - location.latitude_deg) / 2);
  const double along = std::sin(radians(place.longitude_deg - location.longitude_deg) / 2);
  const double half = across * across + std::cos(radians(location.latitude_deg)) *
                                            std::cos(radians(place.latitude_deg)) * along * along;
  return 2 * earth_radius_km * std::asin(std::min(1.0, std::sqrt(half)));
}

}  // namespace graftcast
