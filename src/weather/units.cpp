#include "weather/units.hpp"

#include <algorithm>
#include <array>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

struct Spelling {
  std::string_view folded;  ///< As `fold` leaves it.
  Unit unit;
};

// Exact factors: inch 25.4 mm, mile 1609.344 m, nautical mile 1852 m, pound per square inch not used.
// langley 41840 J/m2 (thermochemical calorie per cm2), as UDUNITS has it.
// inHg 3.386389 kPa and mmHg 0.1333224 kPa (conventional, at 0 degC), as UDUNITS has them.
constexpr double kelvin_offset = -273.15;
constexpr double fahrenheit_scale = 5.0 / 9.0;
constexpr double fahrenheit_offset = -160.0 / 9.0;
constexpr double langley_mj_m2 = 0.04184;
constexpr double mj_per_day_w = 1e6 / 86400.0;
constexpr double mj_per_hour_w = 1e6 / 3600.0;

constexpr Unit celsius{Dimension::temperature, 1, 0, "degC"};
constexpr Unit fahrenheit{Dimension::temperature, fahrenheit_scale, fahrenheit_offset, "degF"};
constexpr Unit kelvin{Dimension::temperature, 1, kelvin_offset, "K"};
constexpr Unit percent{Dimension::proportion, 1, 0, "%"};
constexpr Unit fraction{Dimension::proportion, 100, 0, "1"};
constexpr Unit okta{Dimension::proportion, 12.5, 0, "okta"};
constexpr Unit tenths{Dimension::proportion, 10, 0, "tenths"};
constexpr Unit metre_per_second{Dimension::speed, 1, 0, "m s-1"};
constexpr Unit kilometre_per_hour{Dimension::speed, 1 / 3.6, 0, "km h-1"};
constexpr Unit mile_per_hour{Dimension::speed, 0.44704, 0, "mph"};
constexpr Unit knot{Dimension::speed, 1852.0 / 3600.0, 0, "knot"};
constexpr Unit watt{Dimension::irradiance, 1, 0, "W m-2"};
constexpr Unit kilowatt{Dimension::irradiance, 1000, 0, "kW m-2"};
constexpr Unit megajoule_per_day{Dimension::irradiance, mj_per_day_w, 0, "MJ m-2 day-1"};
constexpr Unit megajoule_per_hour{Dimension::irradiance, mj_per_hour_w, 0, "MJ m-2 h-1"};
constexpr Unit langley_per_day{Dimension::irradiance, langley_mj_m2* mj_per_day_w, 0, "langley/day"};
constexpr Unit langley_per_hour{Dimension::irradiance, langley_mj_m2* mj_per_hour_w, 0, "langley/h"};
constexpr Unit kilowatt_hour_per_day{Dimension::irradiance, 1000.0 / 24.0, 0, "kWh m-2 day-1"};
constexpr Unit megajoule{Dimension::exposure, 1, 0, "MJ m-2"};
constexpr Unit kilojoule{Dimension::exposure, 1e-3, 0, "kJ m-2"};
constexpr Unit joule_per_cm2{Dimension::exposure, 1e-2, 0, "J cm-2"};
constexpr Unit watt_hour{Dimension::exposure, 3.6e-3, 0, "Wh m-2"};
constexpr Unit kilowatt_hour{Dimension::exposure, 3.6, 0, "kWh m-2"};
constexpr Unit langley{Dimension::exposure, langley_mj_m2, 0, "langley"};
constexpr Unit millimetre{Dimension::depth, 1, 0, "mm"};
constexpr Unit centimetre{Dimension::depth, 10, 0, "cm"};
constexpr Unit inch{Dimension::depth, 25.4, 0, "inch"};
constexpr Unit millimetre_per_hour{Dimension::depth_rate, 1, 0, "mm h-1"};
constexpr Unit inch_per_hour{Dimension::depth_rate, 25.4, 0, "inch h-1"};
constexpr Unit pascal{Dimension::pressure, 1e-3, 0, "Pa"};
constexpr Unit hectopascal{Dimension::pressure, 0.1, 0, "hPa"};
constexpr Unit kilopascal{Dimension::pressure, 1, 0, "kPa"};
constexpr Unit inch_of_mercury{Dimension::pressure, 3.386389, 0, "inHg"};
constexpr Unit millimetre_of_mercury{Dimension::pressure, 0.1333224, 0, "mmHg"};

constexpr auto spellings = std::to_array<Spelling>({
    {"degc", celsius},
    {"c", celsius},
    {"celsius", celsius},
    {"degreesc", celsius},
    {"degreec", celsius},
    {"deg_c", celsius},
    {"degreescelsius", celsius},
    {"degreecelsius", celsius},
    {"degf", fahrenheit},
    {"f", fahrenheit},
    {"fahrenheit", fahrenheit},
    {"degreesf", fahrenheit},
    {"deg_f", fahrenheit},
    {"degreef", fahrenheit},
    {"degreesfahrenheit", fahrenheit},
    {"k", kelvin},
    {"kelvin", kelvin},
    {"degk", kelvin},
    {"%", percent},
    {"percent", percent},
    {"pct", percent},
    {"%rh", percent},
    {"1", fraction},
    {"fraction", fraction},
    {"okta", okta},
    {"oktas", okta},
    {"tenths", tenths},
    {"m/s", metre_per_second},
    {"ms-1", metre_per_second},
    {"mps", metre_per_second},
    {"m/sec", metre_per_second},
    {"km/h", kilometre_per_hour},
    {"kmh-1", kilometre_per_hour},
    {"kmh", kilometre_per_hour},
    {"kph", kilometre_per_hour},
    {"km/hr", kilometre_per_hour},
    {"km_h-1", kilometre_per_hour},
    {"mph", mile_per_hour},
    {"mp/h", mile_per_hour},
    {"mi/h", mile_per_hour},
    {"miles/hour", mile_per_hour},
    {"mile/hour", mile_per_hour},
    {"knot", knot},
    {"knots", knot},
    {"kn", knot},
    {"kt", knot},
    {"kts", knot},
    {"w/m2", watt},
    {"wm-2", watt},
    {"w/sqm", watt},
    {"watt/m2", watt},
    {"watts/m2", watt},
    {"kw/m2", kilowatt},
    {"kwm-2", kilowatt},
    {"mj/m2/day", megajoule_per_day},
    {"mj/m2/d", megajoule_per_day},
    {"mjm-2day-1", megajoule_per_day},
    {"mjm-2d-1", megajoule_per_day},
    {"mj/m2/h", megajoule_per_hour},
    {"mjm-2h-1", megajoule_per_hour},
    {"mjm-2hour-1", megajoule_per_hour},
    {"ly/day", langley_per_day},
    {"langley/day", langley_per_day},
    {"langleys/day", langley_per_day},
    {"ly/h", langley_per_hour},
    {"ly/hr", langley_per_hour},
    {"ly/hour", langley_per_hour},
    {"langley/h", langley_per_hour},
    {"langley/hour", langley_per_hour},
    {"kwh/m2/day", kilowatt_hour_per_day},
    {"kwh/m2/d", kilowatt_hour_per_day},
    {"kwhm-2day-1", kilowatt_hour_per_day},
    {"mj/m2", megajoule},
    {"mjm-2", megajoule},
    {"mj/sqm", megajoule},
    {"mj/mm", megajoule},
    {"kj/m2", kilojoule},
    {"kjm-2", kilojoule},
    {"j/cm2", joule_per_cm2},
    {"jcm-2", joule_per_cm2},
    {"wh/m2", watt_hour},
    {"whm-2", watt_hour},
    {"kwh/m2", kilowatt_hour},
    {"kwhm-2", kilowatt_hour},
    {"ly", langley},
    {"langley", langley},
    {"langleys", langley},
    {"mm", millimetre},
    {"kgm-2", millimetre},
    {"kg/m2", millimetre},
    {"millimetres", millimetre},
    {"millimeters", millimetre},
    {"l/m2", millimetre},
    {"cm", centimetre},
    {"inch", inch},
    {"inches", inch},
    {"in", inch},
    {"mm/h", millimetre_per_hour},
    {"mmh-1", millimetre_per_hour},
    {"mm/hr", millimetre_per_hour},
    {"in/h", inch_per_hour},
    {"in/hr", inch_per_hour},
    {"inch/h", inch_per_hour},
    {"inchh-1", inch_per_hour},
    {"pa", pascal},
    {"hpa", hectopascal},
    {"mbar", hectopascal},
    {"mb", hectopascal},
    {"mbars", hectopascal},
    {"kpa", kilopascal},
    {"inhg", inch_of_mercury},
    {"in_hg", inch_of_mercury},
    {"mmhg", millimetre_of_mercury},
});

constexpr auto replacements = std::to_array<std::pair<std::string_view, std::string_view>>({
    {"\u2103", "degC"},
    {"\u2109", "degF"},
    {"\u00b0", "deg"},
    {"\u00ba", "deg"},
    {"\u00b2", "2"},
    {"\u207b", "-"},
    {"\u2212", "-"},
    {"\u00b9", "1"},
    {"\u00b7", ""},
    {"\u22c5", ""},
});

std::string with_ascii_signs(std::string_view text) {
  std::string plain(text);
  for (const auto& [from, to] : replacements) {
    for (std::size_t at = plain.find(from); at != std::string::npos; at = plain.find(from, at + to.size())) {
      plain.replace(at, from.size(), to);
    }
  }
  return plain;
}

/// Lower case without blanks, dots, `^` and `*`, and without a namespace such as `wmoUnit:`.
std::string fold(std::string_view text) {
  const std::size_t colon = text.rfind(':');
  if (colon != std::string_view::npos) text.remove_prefix(colon + 1);
  std::string folded;
  for (const char letter : with_ascii_signs(text)) {
    if (std::string_view(" \t.^*").find(letter) != std::string_view::npos) continue;
    folded += letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  }
  return folded;
}

std::vector<std::string> usual_spellings() {
  std::vector<std::string> names;
  for (const Spelling& spelling : spellings) {
    if (names.empty() || names.back() != spelling.unit.name) names.emplace_back(spelling.unit.name);
  }
  return names;
}

}  // namespace

std::string_view own_unit_name(Dimension dimension) {
  constexpr std::array<std::string_view, 8> names = {"degC",   "%",  "m s-1",  "W m-2",
                                                     "MJ m-2", "mm", "mm h-1", "kPa"};
  return names.at(static_cast<std::size_t>(dimension));
}

std::string_view dimension_name(Dimension dimension) {
  constexpr std::array<std::string_view, 8> names = {tr_later("a temperature"),
                                                     tr_later("a share"),
                                                     tr_later("a speed"),
                                                     tr_later("an irradiance"),
                                                     tr_later("a sum of irradiance"),
                                                     tr_later("a depth of water"),
                                                     tr_later("a rate of rain"),
                                                     tr_later("a pressure")};
  return translated(names.at(static_cast<std::size_t>(dimension)));
}

std::optional<Unit> known_unit(std::string_view text) {
  const std::string folded = fold(text);
  const auto* const found = std::find_if(spellings.begin(), spellings.end(),
                                         [&](const Spelling& spelling) { return spelling.folded == folded; });
  return found != spellings.end() ? std::optional(found->unit) : std::nullopt;
}

Unit parse_unit(std::string_view text) {
  if (const auto unit = known_unit(text)) return *unit;
  const std::string folded = fold(text);
  if (folded == "lux" || folded == "lx" || folded == "klux" || folded == "klx") {
    throw RangeError(
        tr("lux cannot be turned into irradiance"),
        tr("it weighs light as the eye does, and its ratio to W m-2 moves with cloud and the sun's height; "
           "log W m-2, or leave the column out and radiation is derived and marked so"));
  }
  const std::vector<std::string> names = usual_spellings();
  const std::string near = nearest_hint(text, names);
  throw RangeError(tr("\"{text}\" is not a known unit", "text"_a = text),
                   near.empty() ? tr("known units: {names}", "names"_a = fmt::join(names, ", ")) : near);
}

}  // namespace graftcast
