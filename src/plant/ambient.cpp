#include "plant/ambient.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "graftcast/error.hpp"
#include "graftcast/evapotranspiration.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"

namespace graftcast {

namespace {

constexpr double seconds_to_mj = 3600e-6;  // W/m2 over an hour to MJ/m2

/// FAO-56 (1998), text to eq. 39: the cloud of the night is that of the last hours of daylight, here the
/// three hours before sunset in which the sun stood high enough for the ratio to mean something.
class ClearSkyRatio {
 public:
  double at(const SunHour& sun, double global_w_m2) {
    constexpr double low_sun_sine = 0.17;  // about 10 degrees, where the ratio becomes noise
    if (sun.sine_elevation >= low_sun_sine && sun.clear_sky_w_m2 > 0) {
      if (night_) recent_count_ = 0;
      night_ = false;
      const double ratio = std::clamp(global_w_m2 / sun.clear_sky_w_m2, 0.0, 1.0);
      recent_[next_] = ratio;
      next_ = (next_ + 1) % recent_.size();
      recent_count_ = std::min(recent_count_ + 1, recent_.size());
      return ratio;
    }
    night_ = sun.sine_elevation <= 0;
    return held();
  }

 private:
  double held() const {
    if (recent_count_ == 0) return before_first_evening;
    double sum = 0;
    for (std::size_t i = 0; i < recent_count_; ++i)
      sum += recent_[(next_ + recent_.size() - 1 - i) % recent_.size()];
    return sum / static_cast<double>(recent_count_);
  }

  static constexpr double before_first_evening = 0.7;  // FAO-56: 0.4-0.6 in humid, 0.7-0.8 in arid climates
  std::array<double, 3> recent_{};
  std::size_t next_ = 0;
  std::size_t recent_count_ = 0;
  bool night_ = true;
};

void split_light(Ambient& ambient, Eigen::Index course, Eigen::Index hour,
                 const ClimateConstants& constants) {
  const SunHour& sun = ambient.sun[static_cast<std::size_t>(hour)];
  const double global = ambient.global_w_m2(course, hour);
  if (sun.horizontal_w_m2 <= 0 || global <= 0) {
    ambient.diffuse_w_m2(course, hour) = global;
    ambient.beam_w_m2(course, hour) = 0;
    return;
  }
  const double diffuse = global * raw::diffuse_fraction(std::min(1.0, global / sun.horizontal_w_m2));
  ambient.diffuse_w_m2(course, hour) = diffuse;
  ambient.beam_w_m2(course, hour) =
      std::min(constants.beam_limit_w_m2.value,
               (global - diffuse) / std::max(sun.sine_elevation, constants.beam_sine_floor.value));
}

double evapotranspiration_mm(const Ambient& ambient, Eigen::Index course, Eigen::Index hour,
                             double clear_sky_ratio) {
  return asce_evapotranspiration_hour_mm(
      HourlyAir{ambient.air_c(course, hour), ambient.vapour_kpa(course, hour), ambient.wind_m_s(course, hour),
                ambient.pressure_kpa[static_cast<std::size_t>(hour)]},
      ambient.global_w_m2(course, hour) * seconds_to_mj, clear_sky_ratio);
}

void fill_course(Ambient& ambient, Eigen::Index course, const ClimateConstants& constants) {
  ClearSkyRatio clearness;
  for (Eigen::Index hour = 0; hour < static_cast<Eigen::Index>(ambient.hours()); ++hour) {
    const SunHour& sun = ambient.sun[static_cast<std::size_t>(hour)];
    const double ratio = clearness.at(sun, ambient.global_w_m2(course, hour));
    const double cloud = raw::cloud_fraction_from_clear_sky_ratio(ratio);
    const double clear =
        raw::clear_sky_emissivity(ambient.vapour_kpa(course, hour), ambient.air_c(course, hour));
    ambient.sky_emissivity(course, hour) =
        std::min(1.0, clear + constants.cloud_emissivity_weight * cloud * (1.0 - clear));
    split_light(ambient, course, hour, constants);
    ambient.et0_mm(course, hour) = evapotranspiration_mm(ambient, course, hour, ratio);
  }
}

double known_or(const HourlyWeather::Column& column, std::size_t index, double otherwise) {
  return !column.known(index) ? otherwise : column.value[index];
}

}  // namespace

std::vector<SunHour> sun_of_hours(const Location& location, Hour start, std::size_t hours) {
  const double transmissivity = clear_sky_transmissivity(location.elevation_m);
  std::vector<SunHour> result(hours);
  for (std::size_t i = 0; i < hours; ++i) {
    const Instant begin = start + std::chrono::hours(static_cast<long>(i));
    const Instant middle = begin + std::chrono::minutes(30);
    const SunPeriod period = sun_period(begin, location.latitude_deg, location.longitude_deg);
    const SunPosition position = sun_position(middle, location.latitude_deg, location.longitude_deg);
    result[i] = {period.mean_sine_of_elevation,
                 position.elevation_deg,
                 position.azimuth_deg,
                 true_solar_time_h(middle, location.longitude_deg),
                 period.mean_extraterrestrial_w_m2,
                 transmissivity * period.mean_extraterrestrial_w_m2,
                 period.sunlit_share >= 0.5};
  }
  return result;
}

WeatherArrays one_course(const HourlyWeather& weather, std::size_t from, std::size_t to) {
  const auto hours = static_cast<Eigen::Index>(to - from);
  WeatherArrays course{Eigen::ArrayXXd(1, hours), Eigen::ArrayXXd(1, hours), Eigen::ArrayXXd(1, hours),
                       Eigen::ArrayXXd(1, hours)};
  for (const Variable variable :
       {Variable::air_temperature, Variable::relative_humidity, Variable::wind_speed, Variable::shortwave}) {
    const auto& column = weather[variable];
    const auto gap = std::find(column.origin.begin() + static_cast<std::ptrdiff_t>(from),
                               column.origin.begin() + static_cast<std::ptrdiff_t>(to), Origin::missing);
    if (gap != column.origin.begin() + static_cast<std::ptrdiff_t>(to)) {
      throw RangeError(
          fmt::format("{} is not known at {}", variable_name(variable),
                      utc_text(weather.hour(static_cast<std::size_t>(gap - column.origin.begin())))),
          "the model needs every hour of temperature, humidity, wind and radiation");
    }
  }
  for (Eigen::Index i = 0; i < hours; ++i) {
    const std::size_t at = from + static_cast<std::size_t>(i);
    course.air_c(0, i) = weather[Variable::air_temperature].value[at];
    course.vapour_kpa(0, i) = raw::saturation_vapour_pressure_kpa(course.air_c(0, i)) *
                              weather[Variable::relative_humidity].value[at] / 100.0;
    course.wind_m_s(0, i) = weather[Variable::wind_speed].value[at];
    course.global_w_m2(0, i) = weather[Variable::shortwave].value[at];
  }
  return course;
}

Ambient ambient_of(const Location& location, const HourlyWeather& weather, std::size_t from,
                   const WeatherArrays& courses, const ClimateConstants& constants) {
  Ambient ambient;
  ambient.start = weather.hour(from);
  const auto hours = static_cast<std::size_t>(courses.air_c.cols());
  ambient.sun = sun_of_hours(location, ambient.start, hours);
  ambient.air_c = courses.air_c;
  ambient.vapour_kpa = courses.vapour_kpa;
  ambient.wind_m_s = courses.wind_m_s;
  ambient.global_w_m2 = courses.global_w_m2;
  for (auto* array : {&ambient.diffuse_w_m2, &ambient.beam_w_m2, &ambient.sky_emissivity, &ambient.et0_mm}) {
    array->resize(courses.air_c.rows(), courses.air_c.cols());
  }
  const double standard_pressure_kpa = air_pressure_kpa(location.elevation_m);
  for (std::size_t i = 0; i < hours; ++i) {
    ambient.pressure_kpa.push_back(known_or(weather[Variable::pressure], from + i, standard_pressure_kpa));
    ambient.rain_mm.push_back(known_or(weather[Variable::precipitation], from + i, 0.0));
    ambient.gust_m_s.push_back(known_or(weather[Variable::gust], from + i, 0.0));
  }
  for (Eigen::Index course = 0; course < ambient.courses(); ++course) fill_course(ambient, course, constants);
  return ambient;
}

}  // namespace graftcast
