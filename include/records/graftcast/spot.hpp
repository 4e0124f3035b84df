#pragma once
// A place within the site where grafts stand.

#include <optional>
#include <vector>

namespace graftcast {

struct Spot {
  double sun_share = 1;              ///< 0..1, share of the open sky's sunshine that reaches it.
  double wind_share = 1;             ///< 0..1, share of the 2 m wind.
  bool rain = true;                  ///< Whether rain reaches it.
  bool movable = false;              ///< Whether what stands there can be moved.
  std::optional<double> sun_from_h;  ///< Local solar hour from which the sun reaches it.
  std::optional<double> sun_to_h;    ///< Local solar hour until which it does.
  struct HorizonPoint {
    double azimuth_deg;
    double height_deg;
  };
  std::vector<HorizonPoint> horizon;  ///< Skyline, azimuth from north through east, rising azimuth.
  struct Climate {
    double air_temperature_c;
    double relative_humidity_pct;
  };
  std::optional<Climate> climate;  ///< A callusing room or a cold store with a climate of its own.
};

/// Shares of a spot to be written; those that are absent stay as they are.
struct SpotShares {
  std::optional<double> sun, wind;  ///< 0..1; written to two decimals.
};

}  // namespace graftcast
