#include "words/weather_words.hpp"

#include "report/text_layout.hpp"
#include "text/tr.hpp"

namespace graftcast {

std::string origin_words(Origin origin) {
  switch (origin) {
    case Origin::measured:
      return trc("origin of weather", "measured");
    case Origin::forecast:
      return trc("origin of weather", "forecast");
    case Origin::from_daily:
      return trc("origin of weather", "from-daily");
    case Origin::derived:
      return trc("origin of weather", "derived");
    case Origin::filled:
      return trc("origin of weather", "filled");
    default:
      return trc("origin of weather", "missing");
  }
}

std::string variable_words(Variable variable) {
  switch (variable) {
    case Variable::air_temperature:
      return tr("air temperature");
    case Variable::relative_humidity:
      return tr("relative humidity");
    case Variable::wind_speed:
      return tr("wind speed");
    case Variable::shortwave:
      return tr("shortwave");
    case Variable::precipitation:
      return tr("precipitation");
    case Variable::gust:
      return tr("gust");
    default:
      return tr("pressure");
  }
}

std::string stand_in_words(StandIn stand_in) {
  switch (stand_in) {
    case StandIn::none:
      return trc("stand-in for weather", "forecast");
    case StandIn::neighbouring_days:
      return trc("stand-in for weather", "neighbouring-days");
    case StandIn::past_years:
      return trc("stand-in for weather", "past-years");
    case StandIn::monthly_climate:
      return trc("stand-in for weather", "monthly-climate");
    default:
      return trc("stand-in for weather", "last-week");
  }
}

std::string bridge_words(const BasisGap& gap) {
  if (gap.stand_in != StandIn::none) return stand_in_words(gap.stand_in);
  if (gap.bridged_by == "interpolation") return trc("bridge of a gap", "interpolation");
  if (gap.bridged_by == "derivation") return trc("bridge of a gap", "derivation");
  return printable(gap.bridged_by);
}

}  // namespace graftcast
