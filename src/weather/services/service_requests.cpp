#include "services/service_requests.hpp"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/answer.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr const char* open_meteo_hours =
    "temperature_2m,relative_humidity_2m,dew_point_2m,wind_speed_10m,wind_gusts_10m,shortwave_radiation,"
    "precipitation,surface_pressure,cloud_cover";

std::string base_of(Service service, const SourceSettings& source) {
  std::string base = source.base_url;
  while (base.ends_with('/')) base.pop_back();
  if (!base.empty()) return base;
  switch (service) {
    case Service::met_norway:
      return "https://api.met.no";
    case Service::nws:
      return "https://api.weather.gov";
    case Service::open_meteo:
      return "https://api.open-meteo.com";
    case Service::open_meteo_ensemble:
      return "https://ensemble-api.open-meteo.com";
    case Service::open_meteo_archive:
      return "https://archive-api.open-meteo.com";
    case Service::url:
      break;
  }
  throw DataError({"site.json", 0, 0}, tr("the weather source \"url\" has no address"),
                  tr("give it as \"base_url\""));
}

std::string latitude_of(const Location& location) {
  return short_number(location.latitude_deg, 4);
}
std::string longitude_of(const Location& location) {
  return short_number(location.longitude_deg, 4);
}

/// m/s and Unix seconds: then nothing depends on the zone the service thinks of.
std::string open_meteo_query(const Location& location) {
  return fmt::format(
      "latitude={}&longitude={}&elevation={}&hourly={}&wind_speed_unit=ms&timeformat=unixtime"
      "&timezone=GMT",
      latitude_of(location), longitude_of(location), short_number(location.elevation_m, 0), open_meteo_hours);
}

/// The two calendar years before this one up to six days ago: the last five may be missing in the archive.
std::string archive_days(Instant now) {
  const auto today = std::chrono::floor<std::chrono::days>(now);
  const std::chrono::year_month_day last(today - std::chrono::days(6));
  const auto last_day = std::chrono::local_days(std::chrono::sys_days(last).time_since_epoch());
  return fmt::format("&start_date={}-01-01&end_date={}", static_cast<int>(last.year()) - 2,
                     day_text(last_day));
}

/// A grid coordinate, which comes as a number or as text.
std::string grid_part(const Answer& answer, const std::string& pointer) {
  const auto* const found = answer.find(pointer);
  std::string part = found == nullptr     ? ""
                     : found->is_string() ? found->get<std::string>()
                     : found->is_number() ? found->dump()
                                          : "";
  const bool plain =
      std::ranges::all_of(part, [](unsigned char letter) { return std::isalnum(letter) != 0; });
  constexpr std::size_t longest = 8;
  if (part.empty() || part.size() > longest || !plain)
    answer.fail(pointer, tr("the answer names no grid cell"), tr("a place in the United States"));
  return part;
}

}  // namespace

std::string short_number(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.ends_with('.')) text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

std::string subject_of(Service service, const SourceSettings& source, const Location& location) {
  return fmt::format("{} {} {},{},{}", service_name(service), base_of(service, source), latitude_of(location),
                     longitude_of(location), short_number(location.elevation_m, 0));
}

std::string request_url(Service service, const SourceSettings& source, const Location& location,
                        Instant now) {
  const std::string base = base_of(service, source);
  switch (service) {
    case Service::met_norway:
      return fmt::format("{}/weatherapi/locationforecast/2.0/complete?lat={}&lon={}&altitude={}", base,
                         latitude_of(location), longitude_of(location),
                         short_number(location.elevation_m, 0));
    case Service::nws:
      return fmt::format("{}/points/{},{}", base, latitude_of(location), longitude_of(location));
    case Service::open_meteo:
      return fmt::format("{}/v1/forecast?{}&forecast_days=10", base, open_meteo_query(location));
    case Service::open_meteo_ensemble:
      return fmt::format("{}/v1/ensemble?{}&forecast_days=10&models=gfs_seamless", base,
                         open_meteo_query(location));
    case Service::open_meteo_archive:
      return fmt::format("{}/v1/archive?{}{}", base, open_meteo_query(location), archive_days(now));
    case Service::url:
      return source.base_url;
  }
  return {};
}

std::string accepted_type(Service service) {
  if (service == Service::nws) return "application/geo+json";
  return service == Service::url ? "" : "application/json";
}

std::string gridpoint_url(const SourceSettings& source, std::string_view points, const std::string& name) {
  const Answer answer(points, name);
  return fmt::format("{}/gridpoints/{}/{},{}", base_of(Service::nws, source),
                     grid_part(answer, "/properties/gridId"), grid_part(answer, "/properties/gridX"),
                     grid_part(answer, "/properties/gridY"));
}

std::string user_agent(const std::string& program, const SourceSettings& source) {
  const std::string_view contact = trimmed(source.contact);
  constexpr std::size_t longest = 200;
  const bool reachable =
      contact.find('@') != std::string_view::npos || contact.find('.') != std::string_view::npos;
  if (!is_header_value(contact) || contact.size() > longest || !reachable)
    throw DataError(
        {"site.json", 0, 0},
        tr("the contact of the weather source \"{service}\" tells no way to reach you",
           "service"_a = source.service),
        tr("services ask for an e-mail address or a web page, such as \"contact\": \"grower@example.org\""));
  return fmt::format("{} ({})", program, contact);
}

}  // namespace graftcast
