#pragma once
// How sunny and windy each spot is, and what a thermometer in one of them tells.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "graftcast/spot.hpp"
#include "graftcast/spot_fit.hpp"

namespace graftcast {

/// What takes up the sun.
enum class SensorSurface : std::uint8_t { bark, black };
/// The word on the command line and the code in JSON: `bark`, `black`.
std::string_view sensor_surface_name(SensorSurface surface);

/// What was learned of one spot.
struct SpotLearned {
  std::string spot;
  SensorSurface surface = SensorSurface::bark;
  SpotSensor sensor;
  SpotFit fit;
  SpotShares proposed;      ///< What the log tells.
  bool is_written = false;  ///< They stand in site.json now.
};

struct SpotsReport {
  std::map<std::string, Spot> spots;  ///< As site.json had them.
  std::optional<SpotLearned> learned;
};

}  // namespace graftcast
