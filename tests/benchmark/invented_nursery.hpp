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

/// Hourly weather of `days` fine days from first_hour() on; hours from this_morning() on are forecast, and
/// `hotter_ahead_k` hotter.
HourlyWeather fine_weather(const Site& site, int days, double hotter_ahead_k = 0);

/// The same as a self-describing table of `years` years, one row an hour.
std::string hourly_table(int years);

/// In how many ways the grafts of a nursery differ from each other.
struct NurseryKinds {
  std::size_t spots = 4, shades = 2, covers = 5, wraps = 4, species = 6, methods = 6;

  std::size_t combinations() const { return spots * shades * covers * wraps * species * methods; }
};

/// A site with spots that differ in sun and wind.
Site nursery_site(const NurseryKinds& kinds = {});

/// `rows` grafts, each of `count` alike, that differ in kind, all of them while there are combinations left,
/// and in age.
std::vector<GraftRecord> nursery_grafts(std::size_t rows, int count, const NurseryKinds& kinds = {});

const Models& published_models();

}  // namespace graftcast::benchmarks
