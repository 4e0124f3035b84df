#pragma once
// Steps of the NOAA/Meeus method that more than one file needs. Nothing here checks its range.

#include <chrono>

#include "graftcast/sun.hpp"

namespace graftcast {

/// Throws RangeError outside the years 1800..2200.
void require_sun_years(std::chrono::sys_seconds instant);
/// Throws RangeError for a place that does not exist.
void require_place(double latitude_deg, double longitude_deg);

SunCoordinates coordinates_of_sun(std::chrono::sys_seconds instant);
/// Hour angle [deg, -180..180) for an equation of time.
double hour_angle_deg(std::chrono::sys_seconds instant, double longitude_deg, double equation_of_time_min);
/// Elevation of the sun's centre [deg], without refraction.
double elevation_of_sun_deg(std::chrono::sys_seconds instant, double latitude_deg, double longitude_deg);

}  // namespace graftcast
