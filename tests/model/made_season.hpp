#pragma once
// A site with its weather and what all answers share, for tests of runs and advice.

#include <string>
#include <utility>

#include "ensemble/season.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {

/// Owns the site and clock that its season refers to.
struct MadeSeason {
  MadeSeason(Site made, const HourlyWeather& weather, Instant earliest, const SeasonSettings& settings)
      : site(std::move(made)),
        clock(site.time_zone),
        season(site, clock, published_models(), weather, earliest, settings) {}
  MadeSeason(const MadeSeason&) = delete;
  MadeSeason& operator=(const MadeSeason&) = delete;

  const Site site;
  const Clock clock;
  const Season season;
};

/// A row whose cells are all given.
inline GraftRow made_row(const std::string& id, LocalDay grafted_on, const std::string& species = "citrus",
                         const std::string& method = "cleft", const std::string& cover = "none",
                         const std::string& wrap = "film") {
  GraftRow row;
  row.id = id;
  row.grafted_on = grafted_on;
  row.species = species;
  row.method = method;
  row.cover = cover;
  row.wrap = wrap;
  row.spot = "here";
  row.scion = "scion of " + id;
  row.stock = "stock of " + id;
  return row;
}

inline DiaryLine made_line(Instant when, const std::string& event, const std::string& value = "") {
  DiaryLine line;
  line.when = when;
  line.event = event_named(event).value();
  line.value = value;
  return line;
}

}  // namespace graftcast::testing
