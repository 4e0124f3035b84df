#pragma once
// What a thermometer that stands in a spot tells of the sun and wind that reach it.

#include <cstddef>
#include <cstdint>
#include <optional>

namespace graftcast {

struct SpotSensor {
  double absorptance = 0.6;   ///< Of short wave, 0..1.
  double diameter_m = 0.007;  ///< > 0.
};

/// Why a log does not tell a share.
enum class ShareDoubt : std::uint8_t {
  few_sunny_hours,          ///< Fewer than `least_sunny_hours`.
  wide_error,               ///< A longer log or a blacker thermometer would tell.
  anemometers_disagree,     ///< The site's and the spot's.
  no_wind_measured,         ///< The site's weather has none of its own.
  no_sun,                   ///< Without sun the thermometer stays near the air, whatever the wind.
  end_of_range,             ///< The best share is 0 or 1.
  little_sun_or_even_wind,  ///< Too little sun on the thermometer, or too little variety of wind.
};

struct FittedShare {
  double value = 0;                 ///< 0..1
  double standard_error = 0;        ///< NaN where the share is held, or lies at 0 or 1.
  std::optional<ShareDoubt> doubt;  ///< Absent: known well enough to be proposed.

  bool is_told() const { return !doubt; }
};

struct SpotFit {
  std::size_t hours = 0, sunny_hours = 0, dark_hours = 0;  ///< That both logs know.
  std::size_t least_sunny_hours = 0;                       ///< That the sun share needs.
  std::size_t wind_hours = 0;  ///< In which wind was measured at the spot too; then the wind share is theirs.
  FittedShare sun, wind;
  double sensor_offset_k = 0;                  ///< The thermometer's own error, fitted beside the shares.
  double correlation = 0;                      ///< Of the two shares' errors; 0 where one is held.
  double autocorrelation = 0;                  ///< Of the residuals from hour to hour.
  double effective_hours = 0;                  ///< Independent hours that as many residuals are worth.
  double rmse_before_k = 0, rmse_after_k = 0;  ///< With the shares of site.json, and with these.
  bool light_is_measured =
      true;  ///< False: radiation in the open was derived, and the sun share leans on that.
};

}  // namespace graftcast
