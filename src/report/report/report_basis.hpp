#pragma once
// What every answer rests on: the place, the moment, the weather at hand.

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ensemble/outlook.hpp"
#include "ensemble/season.hpp"
#include "graftcast/calendar_time.hpp"
#include "weather/site_weather.hpp"

namespace graftcast {

/// Name of a variable without its unit: `air_temperature`, `wind_speed`, ...
std::string_view plain_name(Variable variable);

/// A stretch without weather of its own, and what stands in for it.
struct BasisGap {
  Instant from, to;
  std::vector<Variable> variables;  ///< Which; empty: all the run needs.
  std::string bridged_by;           ///< A source, `interpolation`, `derivation`; empty: none of them.
  StandIn stand_in = StandIn::none;

  bool is_open() const { return bridged_by.empty() && stand_in == StandIn::none; }
};

/// What the members' weather ahead differs by.
struct SpreadBasis {
  enum class By : std::uint8_t {
    nothing,           ///< The answer looks at no weather ahead.
    published_errors,  ///< Errors as forecasts have them anywhere, see models/union.json.
    own_errors,        ///< Errors of the site's own past forecasts; `count` of them.
    courses,           ///< The `count` courses of a service's ensemble, as far as it reaches.
  } by = By::nothing;
  std::size_t count = 0;
};

struct WeatherBasis {
  std::optional<Instant> measured_until, forecast_until;  ///< Ends of the last hours known so.
  std::vector<std::string> sources;                       ///< In order of trust.
  std::vector<BasisGap> gaps;                             ///< Rising by `from`.
  std::vector<Variable> assumed;                          ///< Those with derived or assumed hours.
  std::vector<std::string> credits;                       ///< Lines that a source's terms ask for.
  SpreadBasis spread = {};
};

struct ReportBasis {
  std::string command;
  Instant as_of{};
  std::string site;            ///< Empty where the command has none.
  std::optional<Clock> clock;  ///< The site's.
  std::uint64_t seed = 1;
  int members = 64;
  WeatherBasis weather;
  std::vector<std::string> warnings;
  std::vector<std::string> cautions;
};

/// The weather at hand; with `outlook` also what stands in for the hours it lacks. Notes on data quality
/// become warnings by `weather_warnings`.
WeatherBasis weather_basis(const SiteWeather& weather, const Outlook* outlook = nullptr);

/// The weather at hand, what stands in for what it lacks, and what its spread rests on.
WeatherBasis weather_basis(const SiteWeather& weather, const Season& season);

/// One line for each note on the quality of the weather that is not about a source's format, with an example
/// of where; then the findings of the checks that a morning must know of, see `serious_findings`.
std::vector<std::string> weather_warnings(const SiteWeather& weather);
/// One line for each note that is about a source's format: for `weather add` and `weather show`.
std::vector<std::string> format_remarks(const SiteWeather& weather);

}  // namespace graftcast
