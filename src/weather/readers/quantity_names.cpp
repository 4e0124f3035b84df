#include "readers/quantity_names.hpp"

#include <algorithm>
#include <array>
#include <utility>

namespace graftcast {

namespace {

using Turn = NamedQuantity::Turn;

// CF standard names (table v83, 2023), the short `precipitation` that daily files use, and a counter of rain.
constexpr auto cf_names = std::to_array<NamedQuantity>({
    {"air_temperature", Quantity::air_temperature, Dimension::temperature},
    {"relative_humidity", Quantity::relative_humidity, Dimension::proportion},
    {"dew_point_temperature", Quantity::dew_point, Dimension::temperature},
    {"wind_speed", Quantity::wind_speed, Dimension::speed},
    {"wind_speed_of_gust", Quantity::gust, Dimension::speed},
    {"surface_downwelling_shortwave_flux_in_air", Quantity::shortwave, Dimension::irradiance,
     Dimension::exposure},
    {"integral_wrt_time_of_surface_downwelling_shortwave_flux_in_air", Quantity::shortwave,
     Dimension::exposure},
    {"precipitation_amount", Quantity::precipitation, Dimension::depth, Dimension::depth_rate},
    {"precipitation", Quantity::precipitation, Dimension::depth, Dimension::depth_rate},
    {"lwe_thickness_of_precipitation_amount", Quantity::precipitation, Dimension::depth},
    {"lwe_precipitation_rate", Quantity::precipitation, Dimension::depth_rate},
    {"rainfall_amount", Quantity::precipitation, Dimension::depth},
    {"precipitation_amount_running_total",
     Quantity::precipitation,
     Dimension::depth,
     {},
     Turn::running_total},
    {"air_pressure", Quantity::pressure, Dimension::pressure},
    {"surface_air_pressure", Quantity::pressure, Dimension::pressure},
    {"air_pressure_at_sea_level", Quantity::pressure, Dimension::pressure, {}, Turn::from_sea_level},
    {"air_pressure_at_mean_sea_level", Quantity::pressure, Dimension::pressure, {}, Turn::from_sea_level},
    {"cloud_area_fraction", Quantity::cloud_cover, Dimension::proportion},
    {"water_vapor_partial_pressure_in_air",
     Quantity::dew_point,
     Dimension::pressure,
     {},
     Turn::from_vapour_pressure},
});

constexpr auto suffixes = std::to_array<std::pair<std::string_view, Kind>>(
    {{"_min", Kind::minimum}, {"_max", Kind::maximum}, {"_mean", Kind::mean}, {"_sum", Kind::sum}});

const NamedQuantity* find_name(std::string_view text) {
  const auto* const found =
      std::find_if(cf_names.begin(), cf_names.end(), [&](const auto& named) { return named.name == text; });
  return found == cf_names.end() ? nullptr : found;
}

}  // namespace

std::string_view cf_name(Quantity quantity) {
  return std::find_if(cf_names.begin(), cf_names.end(),
                      [&](const auto& named) { return named.quantity == quantity; })
      ->name;
}

std::vector<std::string> quantity_names() {
  std::vector<std::string> all;
  for (const NamedQuantity& named : cf_names) all.emplace_back(named.name);
  return all;
}

std::optional<ParsedName> parse_quantity_name(std::string_view text) {
  if (const auto* const named = find_name(text)) return ParsedName{named, std::nullopt};
  for (const auto& [suffix, kind] : suffixes) {
    if (!text.ends_with(suffix.substr(1)) || text.size() <= suffix.size()) continue;
    const std::size_t joint = text.size() - suffix.size();
    if (text[joint] != '_' && text[joint] != ' ') continue;
    if (const auto* const named = find_name(text.substr(0, joint))) return ParsedName{named, kind};
  }
  return std::nullopt;
}

}  // namespace graftcast
