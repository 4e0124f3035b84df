#include "graftcast/spots.hpp"

namespace graftcast {

std::string_view sensor_surface_name(SensorSurface surface) {
  return surface == SensorSurface::black ? "black" : "bark";
}

}  // namespace graftcast
