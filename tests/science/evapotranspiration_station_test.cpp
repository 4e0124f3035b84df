// Reference evapotranspiration at two real stations, against what their networks published.

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/air.hpp"
#include "graftcast/evapotranspiration.hpp"
#include "graftcast/radiation.hpp"
#include "graftcast/sun.hpp"
#include "text/delimited_rows.hpp"
#include "text/text.hpp"

namespace graftcast {
namespace {

namespace chrono = std::chrono;

const std::filesystem::path open_data = GRAFTCAST_OPEN_DATA;

/// Mean error and root mean square error of pairs as they come.
class Errors {
 public:
  void add(double computed, double published) {
    sum_ += computed - published;
    squares_ += (computed - published) * (computed - published);
    ++count_;
  }
  int count() const { return count_; }
  double mean() const { return sum_ / count_; }
  double rmse() const { return std::sqrt(squares_ / count_); }
  void print(const char* what) const {
    std::printf("%s: n %d, mean error %+.4f, RMSE %.4f\n", what, count_, mean(), rmse());
  }

 private:
  double sum_ = 0, squares_ = 0;
  int count_ = 0;
};

/// Rows of a file with a header: cells by column name.
class Table {
 public:
  explicit Table(const std::filesystem::path& file) : rows_(file) {
    rows_.next();
    for (std::size_t i = 0; i < rows_.fields().size(); ++i) columns_[std::string(rows_.fields()[i].text)] = i;
  }
  bool next() { return rows_.next(); }
  std::string_view text(const std::string& column) const {
    return rows_.fields().at(columns_.at(column)).text;
  }
  std::optional<double> number(const std::string& column) const {
    return parse_number(trimmed(text(column)));
  }

 private:
  DelimitedRows rows_;
  std::map<std::string, std::size_t> columns_;
};

chrono::year_month_day day_in(std::string_view text) {
  const auto part = [&](std::size_t from, std::size_t length) {
    return std::stoi(std::string(text.substr(from, length)));
  };
  return chrono::year(part(0, 4)) / part(5, 2) / part(8, 2);
}

double celsius(double fahrenheit) {
  return (fahrenheit - 32) / 1.8;
}

constexpr double langley_mj_m2 = 0.04184;
constexpr double mile_per_hour_m_s = 0.44704;
constexpr double inch_mm = 25.4;

struct DavisDay {
  int day_of_year;
  double global_mj_m2, vapour_pressure_kpa, maximum_c, minimum_c, wind_m_s, published_mm;
};

/// A day of CIMIS station 6; nothing where a cell is "--", the published value is its flag -0.01, or the
/// network let extremes out of order stand.
std::optional<DavisDay> davis_day(const Table& table) {
  const auto global = table.number("rs"), vapour = table.number("ea"), high = table.number("tmax"),
             low = table.number("tmin"), wind = table.number("uz"), published = table.number("eto");
  if (!global || !vapour || !high || !low || !wind || !published) return std::nullopt;
  if (*published < 0 || *global < 0 || *low > *high) return std::nullopt;
  return DavisDay{.day_of_year = day_of_year(day_in(table.text(""))),
                  .global_mj_m2 = *global * langley_mj_m2,
                  .vapour_pressure_kpa = *vapour / 10,
                  .maximum_c = celsius(*high),
                  .minimum_c = celsius(*low),
                  .wind_m_s = *wind * mile_per_hour_m_s,
                  .published_mm = *published * inch_mm};
}

double davis_evapotranspiration_mm(const DavisDay& day) {
  constexpr double latitude_deg = 38.54, elevation_m = 18;
  const double clear_sky =
      clear_sky_mj_m2(extraterrestrial_day_mj_m2(latitude_deg, day.day_of_year), elevation_m);
  const double net =
      net_shortwave_mj_m2(day.global_mj_m2) -
      net_longwave_day_mj_m2({.maximum_temperature_c = day.maximum_c,
                              .minimum_temperature_c = day.minimum_c,
                              .vapour_pressure_kpa = day.vapour_pressure_kpa,
                              .clear_sky_ratio = clear_sky_ratio(day.global_mj_m2, clear_sky)});
  return reference_evapotranspiration_day_mm({.maximum_temperature_c = day.maximum_c,
                                              .minimum_temperature_c = day.minimum_c,
                                              .vapour_pressure_kpa = day.vapour_pressure_kpa,
                                              .wind_2m_m_s = day.wind_m_s,
                                              .pressure_kpa = air_pressure_kpa(elevation_m)},
                                             net);
}

// CIMIS station 6, Davis, California (California Department of Water Resources): the network sums hours, so a
// daily equation can only come near.
TEST(StationEvapotranspiration, OfDaysAtDavisComesNearTheNetworksOwn) {
  const auto file = open_data / "cimis/cimis_006_davis_ca_daily_1994_2018.csv.gz";
  Table table(file);
  Errors errors;
  while (table.next()) {
    if (const auto day = davis_day(table)) errors.add(davis_evapotranspiration_mm(*day), day->published_mm);
  }
  errors.print("Davis, FAO-56 eq. 6, mm/d");
  EXPECT_GT(errors.count(), 9000);
  EXPECT_LT(std::abs(errors.mean()), 0.05);
  EXPECT_LT(errors.rmse(), 0.41);
}

constexpr double fallon_latitude_deg = 39.4575, fallon_longitude_deg = -118.77388,
                 fallon_elevation_m = 1208.5;

/// Clear-sky ratio as ASCE-EWRI 2005 carries it: from the hours with the sun well up, held through the low
/// sun and the night that follow.
class HeldClearSkyRatio {
 public:
  double after_hour(double global_mj_m2, double extraterrestrial_mj_m2, double sine_of_elevation) {
    if (sine_of_elevation > 0.3) {
      ratio_ = clear_sky_ratio(global_mj_m2, clear_sky_mj_m2(extraterrestrial_mj_m2, fallon_elevation_m));
    }
    return ratio_;
  }

 private:
  double ratio_ = 0.7;  // first night of the file
};

struct FallonHour {
  HourlyAir air;
  double global_mj_m2, extraterrestrial_mj_m2, sine_of_elevation, published_mm;
};

FallonHour fallon_hour(const Table& table) {
  const auto value = [&](const char* column) { return table.number(column).value(); };
  const auto day = day_in(table.text("date"));
  const int end_h = static_cast<int>(value("end_time_hhmm")) / 100;
  const int j =
      day_of_year(end_h == 0 ? chrono::year_month_day(chrono::sys_days(day) - chrono::days(1)) : day);
  const double middle_h = (end_h == 0 ? 24 : end_h) - 0.5;
  const auto begin = chrono::sys_days(day) + chrono::hours(end_h - 1 + 8);  // the clock keeps 120 W
  return {.air = {.temperature_c = value("air_temperature_c"),
                  .vapour_pressure_kpa = vapour_pressure_from_dew_point_kpa(value("dew_point_c")),
                  .wind_2m_m_s = wind_at_2m_m_s(value("wind_3m_m_s"), 3),
                  .pressure_kpa = air_pressure_kpa(fallon_elevation_m)},
          .global_mj_m2 = 0.0036 * std::max(0.0, value("shortwave_w_m2")),
          .extraterrestrial_mj_m2 = extraterrestrial_period_mj_m2(
              fallon_latitude_deg, j, fao_hour_angle_rad(middle_h, -120, fallon_longitude_deg, j)),
          .sine_of_elevation =
              sun_period(begin, fallon_latitude_deg, fallon_longitude_deg).mean_sine_of_elevation,
          .published_mm = value("eto_mm_h")};
}

// AgriMet station FALN, Fallon, Nevada (US Bureau of Reclamation), 2015, with the hourly reference
// evapotranspiration of an independent program for the ASCE standardised equation.
TEST(StationEvapotranspiration, OfHoursAtFallonMatchesAnIndependentProgram) {
  const auto file = open_data / "agrimet/agrimet_FALN_fallon_nv_hourly_2015_eto.csv.gz";
  Table table(file);
  Errors errors;
  HeldClearSkyRatio held;
  while (table.next()) {
    const FallonHour hour = fallon_hour(table);
    const double ratio =
        held.after_hour(hour.global_mj_m2, hour.extraterrestrial_mj_m2, hour.sine_of_elevation);
    errors.add(asce_evapotranspiration_hour_mm(hour.air, hour.global_mj_m2, ratio), hour.published_mm);
  }
  errors.print("Fallon, ASCE-EWRI hourly, mm/h");
  EXPECT_GT(errors.count(), 8700);
  EXPECT_LT(std::abs(errors.mean()), 0.003);
  EXPECT_LT(errors.rmse(), 0.0095);
}

}  // namespace
}  // namespace graftcast
