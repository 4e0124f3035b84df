#pragma once
// An invented nursery of any size, with fine summer weather, for the benchmarks.

#include <cstddef>
#include <string>
#include <vector>

#include "ensemble/season.hpp"

namespace graftcast::benchmarks {

inline constexpr int days_behind = 60;
inline constexpr int days_ahead = 10;

/// First hour of the weather, and the morning that lies `days_behind` days after it.
Hour first_hour();
Hour this_morning();

/// Hourly weather of `days` fine days from first_hour() on; hours from this_morning() on are forecast.
HourlyWeather fine_weather(const Site& site, int days);

/// The same as a self-describing table of `years` years, one row an hour.
std::string hourly_table(int years);

/// A site with a few spots that differ in sun and wind.
Site nursery_site();

/// `rows` grafts that differ in species, method, wrap, cover, spot, shade and age, each of `count` alike.
std::vector<GraftRecord> nursery_grafts(std::size_t rows, int count);

const Models& published_models();

}  // namespace graftcast::benchmarks
