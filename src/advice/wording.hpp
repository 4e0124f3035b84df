#pragma once
// How numbers and days are put into the sentences of the advice.

#include <string>

#include "ensemble/season.hpp"

namespace graftcast {

/// "39.4 degC", or "102.9 degF" where the owner asks for US units.
std::string degrees_text(const Season& season, double celsius);
/// "14 m/s", or "31 mph" where the owner asks for US units.
std::string wind_text(const Season& season, double m_s);
/// "Thu 12 Jun".
std::string weekday_text(LocalDay day);
/// "Thu 12 Jun 07:00" on the site's clock.
std::string moment_text(const Season& season, Instant when);

}  // namespace graftcast
