#include <algorithm>
#include <cmath>

#include "ensemble/distributions.hpp"
#include "ensemble/outlook.hpp"
#include "graftcast/air.hpp"

namespace graftcast {

namespace {

// Beyond these the relations do not hold, and no weather on record lies there.
constexpr double coldest_air_c = -80, hottest_air_c = 60, strongest_wind_m_s = 60;

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

struct Growth {
  double start, per_day, limit;
};

double growing(const Growth& growth, double lead_days) {
  return std::min(growth.limit, growth.start + growth.per_day * lead_days);
}

/// Own errors hold in the middle of their day of lead.
double own_sd(const std::vector<double>& own, const Growth& growth, double lead_days) {
  const double place = lead_days - 0.5;
  if (place <= 0) return own.front();
  const auto last = static_cast<double>(own.size() - 1);
  if (place >= last)
    return std::min(std::max(growth.limit, own.back()), own.back() + growth.per_day * (place - last));
  const auto before = static_cast<std::size_t>(place);
  return std::lerp(own[before], own[before + 1], place - std::floor(place));
}

double sd_at(const std::vector<double>& own, const Growth& growth, double lead_days) {
  return own.empty() ? growing(growth, lead_days) : own_sd(own, growth, lead_days);
}

bool is_from_courses(const Outlook& outlook, std::size_t index) {
  return !outlook.from_courses.empty() && outlook.from_courses[index];
}

/// Where past years or the courses of an ensemble stand, their differences are the spread; only the smallest
/// error is put on top.
double effective_lead_days(const Outlook& outlook, std::size_t index) {
  const StandIn stand_in = outlook.stand_in[index];
  const bool spread = stand_in == StandIn::past_years || stand_in == StandIn::monthly_climate ||
                      is_from_courses(outlook, index);
  return spread ? 0.0 : outlook.lead_days[index];
}

/// The same day of lead counts only when enough forecasts were compared and no day before it lacks; errors
/// never fall with lead, which few forecasts could make them seem to.
template <class Member>
std::vector<double> own_by_day(std::span<const LeadSpread> own, Member member) {
  std::vector<double> sds;
  for (const LeadSpread& lead : own) {
    const std::optional<double> sd = member(lead);
    if (lead.day != static_cast<int>(sds.size()) + 1 || lead.forecasts < least_own_forecasts || !sd) break;
    sds.push_back(sds.empty() ? *sd : std::max(*sd, sds.back()));
  }
  return sds;
}

/// One number over all leads, as the model has it for wind.
double mean_square_root(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value * value;
  return std::sqrt(sum / static_cast<double>(values.size()));
}

/// What a member rests on before its errors.
struct MemberBase {
  const WeatherArrays& expected;  ///< The forecast, or a past year.
  const WeatherArrays& course;    ///< For the hours that courses say something of.
};

/// Puts errors on `under` and writes them to `member` of `members`.
void fill_member(const Outlook& outlook, const MemberBase& under, const std::vector<SunHour>& sun,
                 const ForecastErrors& e, Eigen::Index member, std::uint64_t seed, WeatherArrays& members) {
  const auto key = static_cast<std::uint64_t>(member);
  PersistentError temperature(e.hourly_correlation, seed, Purpose::forecast_temperature, key);
  PersistentError dew(e.hourly_correlation, seed, Purpose::forecast_dew_point, key);
  PersistentError wind(e.hourly_correlation, seed, Purpose::forecast_wind, key);
  PersistentError radiation(e.hourly_correlation, seed, Purpose::forecast_radiation, key);
  const double own_share = std::sqrt(1 - e.dew_point_correlation * e.dew_point_correlation);
  for (Eigen::Index i = 0; i < members.air_c.cols(); ++i) {
    const std::size_t index = outlook.now + static_cast<std::size_t>(i);
    const double lead = effective_lead_days(outlook, index);
    const WeatherArrays& base = is_from_courses(outlook, index) ? under.course : under.expected;
    const double z = temperature.next();
    const double air_c =
        std::clamp(base.air_c(0, i) + temperature_sd_k(e, lead) * z, coldest_air_c, hottest_air_c);
    const double dew_c = raw::dew_point_c(std::max(base.vapour_kpa(0, i), 1e-4)) +
                         dew_point_sd_k(e, lead) * (e.dew_point_correlation * z + own_share * dew.next());
    members.air_c(member, i) = air_c;
    members.vapour_kpa(member, i) = raw::saturation_vapour_pressure_kpa(std::min(dew_c, air_c));
    members.wind_m_s(member, i) =
        std::min(base.wind_m_s(0, i) * std::exp(e.ln_wind_sd * wind.next()), strongest_wind_m_s);
    const double factor = 1.0 + radiation_sd(e, lead) * radiation.next();
    const double most = std::max(base.global_w_m2(0, i), sun[static_cast<std::size_t>(i)].clear_sky_w_m2);
    members.global_w_m2(member, i) = std::clamp(base.global_w_m2(0, i) * factor, 0.0, most);
  }
}

const WeatherArrays& in_turn(const std::vector<WeatherArrays>& choices, Eigen::Index member,
                             const WeatherArrays& otherwise) {
  return choices.empty() ? otherwise : choices[static_cast<std::size_t>(member) % choices.size()];
}

}  // namespace

std::size_t own_forecasts(std::span<const LeadSpread> own) {
  const bool enough = !own.empty() && own.front().day == 1 && own.front().forecasts >= least_own_forecasts;
  return enough ? own.front().forecasts : 0;
}

ForecastErrors with_own_errors(ForecastErrors published, std::span<const LeadSpread> own) {
  published.own_temperature_sd_k =
      own_by_day(own, [](const LeadSpread& lead) { return std::optional(lead.temperature_k); });
  published.own_dew_point_sd_k = own_by_day(own, [](const LeadSpread& lead) { return lead.dew_point_k; });
  published.own_radiation_sd = own_by_day(own, [](const LeadSpread& lead) { return lead.radiation; });
  const std::vector<double> wind = own_by_day(own, [](const LeadSpread& lead) { return lead.ln_wind; });
  if (!wind.empty()) published.ln_wind_sd.value = mean_square_root(wind);
  return published;
}

double temperature_sd_k(const ForecastErrors& e, double lead_days) {
  return sd_at(e.own_temperature_sd_k,
               {e.temperature_sd_start, e.temperature_sd_per_day, e.temperature_sd_limit}, lead_days);
}

double dew_point_sd_k(const ForecastErrors& e, double lead_days) {
  const auto& own = e.own_dew_point_sd_k.empty() ? e.own_temperature_sd_k : e.own_dew_point_sd_k;
  return sd_at(own, {e.temperature_sd_start, e.temperature_sd_per_day, e.temperature_sd_limit}, lead_days);
}

double radiation_sd(const ForecastErrors& e, double lead_days) {
  return sd_at(e.own_radiation_sd, {e.radiation_sd_start, e.radiation_sd_per_day, e.radiation_sd_limit},
               lead_days);
}

WeatherArrays weather_of_members(const Outlook& outlook, const std::vector<SunHour>& sun,
                                 const ForecastErrors& errors, int members, std::uint64_t seed) {
  const WeatherArrays expected = one_course(outlook.weather, outlook.now, outlook.weather.size());
  if (members == 0) return expected;
  const Eigen::Index hours = expected.air_c.cols();
  WeatherArrays result{Eigen::ArrayXXd(members, hours), Eigen::ArrayXXd(members, hours),
                       Eigen::ArrayXXd(members, hours), Eigen::ArrayXXd(members, hours)};
  for (Eigen::Index member = 0; member < members; ++member) {
    const auto& years = outlook.years_ahead;
    const WeatherArrays& base = in_turn(years, member, expected);
    fill_member(outlook, {base, in_turn(outlook.courses_ahead, member, base)}, sun, errors, member, seed,
                result);
  }
  return result;
}

}  // namespace graftcast
