#include <algorithm>
#include <cmath>

#include "graftcast/air.hpp"
#include "graftcast/distributions.hpp"
#include "graftcast/outlook.hpp"

namespace graftcast {

namespace {

/// A stationary first-order autoregressive series of unit variance for one member.
class PersistentError {
 public:
  PersistentError(double hourly_correlation, std::uint64_t seed, Purpose purpose, std::uint64_t member)
      : kept_(hourly_correlation),
        new_(std::sqrt(1 - hourly_correlation * hourly_correlation)),
        seed_(seed),
        purpose_(purpose),
        member_(member),
        value_(draw(0)) {}

  double next() {
    const double now = value_;
    value_ = kept_ * value_ + new_ * draw(++hour_);
    return now;
  }

 private:
  double draw(std::uint64_t hour) const {
    return normal_quantile(random_uniform(seed_, purpose_, member_, hour));
  }
  double kept_, new_;
  std::uint64_t seed_;
  Purpose purpose_;
  std::uint64_t member_;
  std::uint64_t hour_ = 0;
  double value_;
};

double growing(double start, double per_day, double limit, double lead_days) {
  return std::min(limit, start + per_day * lead_days);
}

/// Where past years stand in, their differences are the spread; only the smallest error is put on top.
double effective_lead_days(const Outlook& outlook, std::size_t index) {
  return outlook.stand_in[index] == StandIn::past_years ? 0.0 : outlook.lead_days[index];
}

/// Puts errors on `base` (one lane) and writes them to `lane` of `lanes`.
void fill_member(const Outlook& outlook, const WeatherLanes& base, const std::vector<SunHour>& sun,
                 const ForecastErrors& e, Eigen::Index lane, std::uint64_t seed, WeatherLanes& lanes) {
  const auto member = static_cast<std::uint64_t>(lane);
  PersistentError temperature(e.hourly_correlation, seed, Purpose::forecast_temperature, member);
  PersistentError dew(e.hourly_correlation, seed, Purpose::forecast_dew_point, member);
  PersistentError wind(e.hourly_correlation, seed, Purpose::forecast_wind, member);
  PersistentError radiation(e.hourly_correlation, seed, Purpose::forecast_radiation, member);
  const double own_share = std::sqrt(1 - e.dew_point_correlation * e.dew_point_correlation);
  for (Eigen::Index i = 0; i < lanes.air_c.cols(); ++i) {
    const std::size_t index = outlook.now + static_cast<std::size_t>(i);
    const double lead = effective_lead_days(outlook, index);
    const double sd = growing(e.temperature_sd_start, e.temperature_sd_per_day, e.temperature_sd_limit, lead);
    const double z = temperature.next();
    const double air_c = base.air_c(0, i) + sd * z;
    const double dew_c = raw::dew_point_c(std::max(base.vapour_kpa(0, i), 1e-4)) +
                         sd * (e.dew_point_correlation * z + own_share * dew.next());
    lanes.air_c(lane, i) = air_c;
    lanes.vapour_kpa(lane, i) = raw::saturation_vapour_pressure_kpa(std::min(dew_c, air_c));
    lanes.wind_m_s(lane, i) = base.wind_m_s(0, i) * std::exp(e.ln_wind_sd * wind.next());
    const double factor =
        1.0 +
        growing(e.radiation_sd_start, e.radiation_sd_per_day, e.radiation_sd_limit, lead) * radiation.next();
    const double most = std::max(base.global_w_m2(0, i), sun[static_cast<std::size_t>(i)].clear_sky_w_m2);
    lanes.global_w_m2(lane, i) = std::clamp(base.global_w_m2(0, i) * factor, 0.0, most);
  }
}

}  // namespace

ForecastErrors forecast_errors(const Models& models) {
  const Entry& f = models.shared.at("forecast");
  return {f.value("temperature_sd_start"), f.value("temperature_sd_per_day"), f.value("temperature_sd_limit"),
          f.value("hourly_correlation"),   f.value("dew_point_correlation"),  f.value("ln_wind_sd"),
          f.value("radiation_sd_start"),   f.value("radiation_sd_per_day"),   f.value("radiation_sd_limit")};
}

WeatherLanes lanes_ahead(const Outlook& outlook, const std::vector<SunHour>& sun,
                         const ForecastErrors& errors, int lanes, std::uint64_t seed) {
  const WeatherLanes expected = weather_lane(outlook.weather, outlook.now, outlook.weather.size());
  if (lanes == 0) return expected;
  const Eigen::Index hours = expected.air_c.cols();
  WeatherLanes result{Eigen::ArrayXXd(lanes, hours), Eigen::ArrayXXd(lanes, hours),
                      Eigen::ArrayXXd(lanes, hours), Eigen::ArrayXXd(lanes, hours)};
  for (Eigen::Index lane = 0; lane < lanes; ++lane) {
    const auto& years = outlook.years_ahead;
    const WeatherLanes& base =
        years.empty() ? expected : years[static_cast<std::size_t>(lane) % years.size()];
    fill_member(outlook, base, sun, errors, lane, seed, result);
  }
  return result;
}

}  // namespace graftcast
