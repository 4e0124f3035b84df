#pragma once
// Measured values within a sentence, in the owner's units (private to the layer).

#include <string>

#include "report/terminal_style.hpp"

namespace graftcast {

/// `39.4 degC`, `103 degF`.
std::string degrees_words(UnitSystem units, double celsius);
/// A difference of temperatures: `9 K`, `16 degF`.
std::string difference_words(UnitSystem units, double kelvin);
/// `14 m/s`, `31 mph`.
std::string wind_words(UnitSystem units, double m_s);

}  // namespace graftcast
