#include "words/measure_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string degrees_words(UnitSystem units, double celsius) {
  return units == UnitSystem::us ? tr("{value:.0f} degF", "value"_a = celsius * 1.8 + 32)
                                 : tr("{value:.1f} degC", "value"_a = celsius);
}

std::string difference_words(UnitSystem units, double kelvin) {
  return units == UnitSystem::us ? tr("{value:.0f} degF", "value"_a = kelvin * 1.8)
                                 : tr("{value:.0f} K", "value"_a = kelvin);
}

std::string wind_words(UnitSystem units, double m_s) {
  constexpr double mph_per_m_s = 3600 / 1609.344;
  return units == UnitSystem::us ? tr("{value:.0f} mph", "value"_a = m_s * mph_per_m_s)
                                 : tr("{value:.0f} m/s", "value"_a = m_s);
}

}  // namespace graftcast
