#pragma once
// Constants of what an ensemble's members differ in, and of what tells them apart (models/union.json). What
// each number means stands in the tables of ensemble_constants.cpp.

#include "parameters/entry.hpp"

namespace graftcast {

/// Errors of a forecast.
struct ForecastConstants : KeyedEntry<ForecastConstants> {
  static const KeyTable table;
  Parameter temperature_sd_start, temperature_sd_per_day, temperature_sd_limit;
  Parameter hourly_correlation, dew_point_correlation;
  Parameter ln_wind_sd;
  Parameter radiation_sd_start, radiation_sd_per_day, radiation_sd_limit;
};

/// What a note says of the graft.
struct ObservationConstants : KeyedEntry<ObservationConstants> {
  static const KeyTable table;
  Parameter callus_healing, callus_sd;
  Parameter bud_sd, leaf_share, leaf_sd;
  Parameter wilt_water, wilt_sd, shrivel_water, shrivel_sd;
  Parameter reliability;
};

/// What a site's own results may change.
struct LearningConstants : KeyedEntry<LearningConstants> {
  static const KeyTable table;
  Parameter pace_sd, drying_sd, failure_sd, least_outcomes;
};

/// Courses drawn from a log's months.
struct ClimateCourseConstants : KeyedEntry<ClimateCourseConstants> {
  static const KeyTable table;
  Parameter least_days;
  Parameter dew_point_with_minimum, dew_point_persistence;
  Parameter wind_with_minimum, wind_persistence;
};

/// Learning a spot from a thermometer in it.
struct SpotFitConstants : KeyedEntry<SpotFitConstants> {
  static const KeyTable table;
  Parameter black_absorptance, sensor_diameter_mm;
  Parameter sunny_w_m2, least_hours;
  Parameter told_sun_se, told_wind_se, guessed_wind_sd;
};

}  // namespace graftcast
