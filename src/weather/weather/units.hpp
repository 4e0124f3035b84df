#pragma once
// Units of weather logs, converted once, where a file is read.

#include <cstdint>
#include <optional>
#include <string_view>

namespace graftcast {

/// What a unit measures. Each dimension has one own unit, the one the rest of the program uses.
enum class Dimension : std::uint8_t {
  temperature,  ///< degC
  proportion,   ///< %
  speed,        ///< m s-1
  irradiance,   ///< W m-2
  exposure,     ///< MJ m-2, irradiance summed over an interval
  depth,        ///< mm of water, equal to kg m-2
  depth_rate,   ///< mm h-1
  pressure,     ///< kPa
};

/// Name of the own unit, for messages: `degC`, `%`, ...
std::string_view own_unit_name(Dimension dimension);
/// The dimension in words, for messages: `a temperature`, ...
std::string_view dimension_name(Dimension dimension);

/// A unit as a straight line to the own unit of its dimension: own = value * scale + offset.
struct Unit {
  Dimension dimension = Dimension::temperature;
  double scale = 1;
  double offset = 0;
  std::string_view name;  ///< The usual spelling.

  double to_own(double value) const { return value * scale + offset; }
};

/// The unit that `text` spells. Blanks, case, `^`, superscripts and the degree sign do not matter:
/// `W/m2`, `W m-2` and `W/m^2` are one. Known: degC, degF, K; %, 1 (a fraction), okta, tenths; m s-1, km h-1,
/// mph, knot; W m-2, MJ m-2 day-1, MJ m-2 h-1, langley/day, langley/h, kWh m-2 day-1; MJ m-2, kJ m-2, J cm-2,
/// Wh m-2, kWh m-2, langley; mm, kg m-2, cm, inch; mm h-1, inch h-1; Pa, hPa, mbar, kPa, inHg, mmHg.
/// Errors: RangeError for lux (with the reason) and for any other text (with the nearest known units).
Unit parse_unit(std::string_view text);
/// The same; nothing for any other text. Quick also for texts that are no unit.
std::optional<Unit> known_unit(std::string_view text);

}  // namespace graftcast
