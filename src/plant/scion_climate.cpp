#include "plant/scion_climate.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <span>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "graftcast/convection.hpp"
#include "plant/tissue_balance.hpp"
#include "plant/union_hour.hpp"
#include "science/lanes.hpp"
#include "science/widest_lanes.hpp"

namespace graftcast {

namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

/// Air and light in the open at some neighbouring places of the rows x hours array.
template <class Real>
struct OpenAir {
  Real air_c, vapour_kpa, wind_m_s, global_w_m2, diffuse_w_m2, beam_w_m2, sky_emissivity, pressure_kpa;
  Real conductivity_w_m_k, viscosity_m2_s, fluid_factor;  ///< See OpenAirTerms.
  Real cosine_elevation;
  Real cosine_to_aspect;  ///< Cosine between the sun's azimuth and the bud's aspect, 0 when behind it.
  Real night;             ///< 1 without sun.
  Real beam_reaches;      ///< 0 where the spot's hours or horizon hide the sun's disc.
};

/// What reaches the place after spot and shade.
template <class Real>
struct Light {
  Real mean_w_m2;   ///< On an upright cylinder, averaged around it.
  Real local_w_m2;  ///< On the patch that faces the aspect.
};

bool hidden_by_horizon(const Spot& spot, const SunHour& sun) {
  if (spot.horizon.empty()) return false;
  const auto& line = spot.horizon;
  // The skyline closes on itself: the last point is followed by the first.
  const auto after =
      std::find_if(line.begin(), line.end(), [&](const auto& p) { return p.azimuth_deg > sun.azimuth_deg; });
  const auto& high = after == line.end() ? line.front() : *after;
  const auto& low = after == line.begin() ? line.back() : *(after - 1);
  double span = high.azimuth_deg - low.azimuth_deg;
  double along = sun.azimuth_deg - low.azimuth_deg;
  if (span <= 0) span += 360;
  if (along < 0) along += 360;
  return sun.elevation_deg < low.height_deg + (high.height_deg - low.height_deg) * along / span;
}

bool beam_reaches(const Spot& spot, const SunHour& sun) {
  if (spot.sun_from_h && sun.solar_hour < *spot.sun_from_h) return false;
  if (spot.sun_to_h && sun.solar_hour > *spot.sun_to_h) return false;
  return !hidden_by_horizon(spot, sun);
}

/// 0 in the hours in which the spot does not see the sun's disc.
std::vector<double> sun_reaching(std::span<const SunHour> hours, const Spot& spot) {
  std::vector<double> reaches;
  reaches.reserve(hours.size());
  for (const SunHour& sun : hours) reaches.push_back(beam_reaches(spot, sun) ? 1.0 : 0.0);
  return reaches;
}

/// Sector s faces azimuth (s + 1/2) 360/8 degrees.
std::array<double, aspect_sectors> cosines_to_sectors(const SunHour& sun) {
  std::array<double, aspect_sectors> cosines{};
  for (int sector = 0; sector < aspect_sectors; ++sector) {
    const double aspect_deg = (sector + 0.5) * 360.0 / aspect_sectors;
    cosines[static_cast<std::size_t>(sector)] =
        std::max(0.0, std::cos((sun.azimuth_deg - aspect_deg) * radians_per_degree));
  }
  return cosines;
}

/// Properties of the air's film at all places of an ambient's hours.
struct FilmRun {
  const Ambient& ambient;
  OpenAirTerms& terms;

  template <int width>
  void over() const {
    Eigen::Index place = 0;
    for (; place + width <= terms.conductivity_w_m_k.size(); place += width) at<width>(place);
    for (; place < terms.conductivity_w_m_k.size(); ++place) at<1>(place);
  }

 private:
  template <int width>
  void at(Eigen::Index place) const {
    using Real = Lanes<width>;
    const Eigen::Index courses = ambient.courses();
    const auto hour = static_cast<Eigen::Index>(terms.from) + place / courses;
    const Real air_c = Real::load(ambient.air_c.data() + hour * courses + place % courses);
    const double* pressure = &ambient.pressure_kpa[static_cast<std::size_t>(hour)];
    const Real pressure_kpa = courses == 1 ? Real::load(pressure) : Real::Constant(*pressure);
    const Real conductivity = raw::air_conductivity_w_m_k(air_c);
    const Real viscosity = raw::air_kinematic_viscosity_m2_s(air_c, pressure_kpa);
    const Real fluid_factor = raw::cylinder_fluid_factor(Real(raw::air_prandtl(air_c)));
    conductivity.store(terms.conductivity_w_m_k.data() + place);
    viscosity.store(terms.viscosity_m2_s.data() + place);
    fluid_factor.store(terms.fluid_factor.data() + place);
  }
};

class ClimateAtScion {
 public:
  ClimateAtScion(const Ambient& ambient, const OpenAirTerms& terms, const Exposure& exposure,
                 const Models& models)
      : ambient_(ambient),
        terms_(terms),
        from_(static_cast<Eigen::Index>(terms.from)),
        to_(static_cast<Eigen::Index>(terms.to)),
        exposure_(exposure),
        constant_(models.climate),
        heat_(models.heat),
        stores_(models.stores),
        beam_reaches_(
            sun_reaching(std::span(ambient.sun).subspan(terms.from, terms.to - terms.from), exposure.spot)) {
    const bool spread_aspect = exposure_.organ == Organ::bud && ambient_.courses() == 1;
    rows_ = spread_aspect ? aspect_sectors : ambient_.courses();
  }

  ScionClimate computed() {
    const Eigen::Index hours = to_ - from_;
    for (auto* array : {&result_.tissue_c, &result_.surround_c, &result_.deficit_bark, &result_.deficit_leaf,
                        &result_.boundary_mol, &result_.heat_per_hour, &result_.respiration,
                        &result_.opening_deficit_bark}) {
      array->resize(rows_, hours);
    }
    over_widest_lanes(Places{*this});
    result_.coldest_c.resize(static_cast<std::size_t>(hours));
    Eigen::Map<Eigen::ArrayXd>(result_.coldest_c.data(), hours) =
        result_.tissue_c.colwise().minCoeff().cast<double>();
    return std::move(result_);
  }

 private:
  struct Places {
    ClimateAtScion& climate;
    template <int width>
    void over() const {
      climate.template all_places<width>();
    }
  };

  template <int width>
  void all_places() {
    const Eigen::Index places = rows_ * (to_ - from_);
    Eigen::Index first = 0;
    // The rows of one hour come in eights where there are several, so only single ones leave a rest.
    for (; first + width <= places; first += width) place<Lanes<width>>(first);
    for (; first < places; ++first) place<Lanes<1>>(first);
  }

  template <class Real>
  void place(Eigen::Index first) {
    OpenAir<Real> open = gathered<Real>(first);
    if (exposure_.spot.climate) settle_fixed_climate(open);
    const Light<Real> light = light_at_spot(open);
    const double wind_share =
        exposure_.spot.wind_share * (1.0 - constant_.shade_wind_reduction * exposure_.shade);
    const Real wind = (open.wind_m_s * wind_share).max(constant_.wind_floor_m_s.value);
    if (exposure_.cover.wall) {
      under_cover(first, open, light, wind);
    } else {
      in_the_open(first, open, light, wind);
    }
  }

  template <class Real>
  OpenAir<Real> gathered(Eigen::Index first) const {
    const Eigen::Index hour = from_ + first / rows_;
    const Eigen::Index row = first % rows_;
    const auto index = static_cast<std::size_t>(hour);
    const auto within = static_cast<std::size_t>(hour - from_);
    const auto of_array = [&](const Eigen::ArrayXXd& values, Eigen::Index at) {
      const double* column = values.data() + at * values.rows();
      if (values.rows() == rows_) return Real::load(column + row);
      return Real::Constant(*column);
    };
    const auto of_weather = [&](const Eigen::ArrayXXd& values) { return of_array(values, hour); };
    const auto of_terms = [&](const Eigen::ArrayXXd& values) { return of_array(values, hour - from_); };
    const auto of_hour = [&](const std::vector<double>& values, std::size_t at) {
      return rows_ == 1 ? Real::load(&values[at]) : Real::Constant(values[at]);
    };
    OpenAir<Real> open;
    open.air_c = of_weather(ambient_.air_c);
    open.vapour_kpa = of_weather(ambient_.vapour_kpa);
    open.wind_m_s = of_weather(ambient_.wind_m_s);
    open.global_w_m2 = of_weather(ambient_.global_w_m2);
    open.diffuse_w_m2 = of_weather(ambient_.diffuse_w_m2);
    open.beam_w_m2 = of_weather(ambient_.beam_w_m2);
    open.sky_emissivity = of_weather(ambient_.sky_emissivity);
    open.pressure_kpa = of_hour(ambient_.pressure_kpa, index);
    open.conductivity_w_m_k = of_terms(terms_.conductivity_w_m_k);
    open.viscosity_m2_s = of_terms(terms_.viscosity_m2_s);
    open.fluid_factor = of_terms(terms_.fluid_factor);
    open.cosine_elevation = of_hour(terms_.cosine_elevation, within);
    open.night = of_hour(terms_.night, within);
    open.beam_reaches = of_hour(beam_reaches_, within);
    // Only buds have an aspect, and they never come in single rows; a row keeps its sector all hours.
    const auto sector = static_cast<std::size_t>(row % aspect_sectors);
    open.cosine_to_aspect = rows_ == 1 ? Real::Zero() : Real::load(&terms_.cosine_to_aspect[within][sector]);
    return open;
  }

  template <class Real>
  void settle_fixed_climate(OpenAir<Real>& open) const {
    const Spot::Climate& room = *exposure_.spot.climate;
    open.air_c = Real::Constant(room.air_temperature_c);
    open.vapour_kpa = Real::Constant(raw::saturation_vapour_pressure_kpa(room.air_temperature_c) *
                                     room.relative_humidity_pct / 100.0);
    open.wind_m_s = open.global_w_m2 = open.diffuse_w_m2 = open.beam_w_m2 = Real::Zero();
    open.sky_emissivity = Real::Ones();
  }

  template <class Real>
  Light<Real> light_at_spot(const OpenAir<Real>& open) const {
    const double share = exposure_.spot.sun_share * (1.0 - exposure_.shade);
    const Real diffuse = open.diffuse_w_m2 * share;
    const Real beam = open.beam_w_m2 * share * open.beam_reaches;
    const Real global = open.global_w_m2 * share * open.beam_reaches + diffuse * (1.0 - open.beam_reaches);
    const Real scattered = constant_.sky_view.value * diffuse + constant_.ground_reflection.value * global;
    const Real abeam = beam * open.cosine_elevation;
    return {abeam / std::numbers::pi + scattered, abeam * open.cosine_to_aspect + scattered};
  }

  template <class Real>
  Real sky_term(const OpenAir<Real>& open) const {
    if (exposure_.spot.climate) return Real::Zero();
    const double view = constant_.sky_view * (1.0 - exposure_.shade) *
                        std::min(1.0, exposure_.spot.sun_share + constant_.sky_view_sun_offset);
    const Real black_body = raw::black_body_w_m2(open.air_c);
    return view * constant_.tissue_emissivity * (open.sky_emissivity - 1.0) * black_body;
  }

  template <class Real>
  Real long_wave_exchange(const Real& air_c) const {
    return raw::radiative_coefficient_w_m2_k(constant_.tissue_emissivity, air_c);
  }

  template <class Real>
  static Real wind_exchange(const Real& wind, double diameter_m, const OpenAir<Real>& open) {
    const Real reynolds = wind * diameter_m / open.viscosity_m2_s;
    const Real nusselt = 0.3 + open.fluid_factor * raw::cylinder_flow_factor(reynolds);
    return open.conductivity_w_m_k / diameter_m * nusselt;
  }

  /// Short wave absorbed by the tissue; for a bud the wood of the stem evens out what its sides receive.
  template <class Real>
  Real absorbed(const Light<Real>& light, const Real& exchange) const {
    const double share = exposure_.absorptance * (exposure_.cover.wall ? exposure_.cover.light_passed : 1.0);
    if (exposure_.organ == Organ::stick) return share * light.mean_w_m2;
    const Real biot = exchange * (0.5 * exposure_.diameter_m / constant_.wood_conductivity_w_m_k);
    return share * (light.mean_w_m2 + biot / (1.0 + biot) * (light.local_w_m2 - light.mean_w_m2));
  }

  template <class Real>
  void in_the_open(Eigen::Index first, const OpenAir<Real>& open, const Light<Real>& light,
                   const Real& wind) {
    const Real air_c = open.air_c + exposure_.night_gain_k * open.night;
    const Real convection = wind_exchange(wind, exposure_.diameter_m, open);
    const Real exchange = convection + long_wave_exchange(air_c);
    const Real boundary = raw::vapour_conductance_mol_m2_s(convection);
    settle<Real>(first, open,
                 {absorbed(light, exchange), sky_term(open), air_c, open.vapour_kpa, open.pressure_kpa,
                  exchange, in_series<Real>(Real::Constant(exposure_.bark_conductance_mol), boundary)},
                 boundary);
  }

  template <class Real>
  void under_cover(Eigen::Index first, const OpenAir<Real>& open, const Light<Real>& light,
                   const Real& wind) {
    const CoverOptics& cover = exposure_.cover;
    const Real air_c = open.air_c + exposure_.night_gain_k * open.night;
    const Real wall_exchange =
        wind_exchange(wind, constant_.bag_diameter_mm * 1e-3, open) + long_wave_exchange(air_c);
    const Real wall_absorbed =
        (cover.light_absorbed + constant_.bag_content_share * cover.light_passed) * light.mean_w_m2;
    const Real wall_c = air_c + (wall_absorbed + sky_term(open)) / wall_exchange;
    const Real inner_air_c = air_c + cover.heat_kept * (wall_c - air_c);
    const Real wall_vapour = constant_.bag_saturation.value * raw::saturation_vapour_pressure_kpa(wall_c);
    const Real inner_vapour = open.vapour_kpa + cover.vapour_kept * (wall_vapour - open.vapour_kpa);
    const Real exchange = constant_.bag_inner_coefficient_w_m2_k.value + long_wave_exchange(inner_air_c);
    const Real boundary =
        Real::Constant(raw::vapour_conductance_mol_m2_s(constant_.bag_inner_coefficient_w_m2_k.value));
    settle<Real>(first, open,
                 {absorbed(light, exchange), Real::Zero(), inner_air_c, inner_vapour, open.pressure_kpa,
                  exchange, in_series<Real>(Real::Constant(exposure_.bark_conductance_mol), boundary)},
                 boundary);
  }

  template <class Real>
  void settle(Eigen::Index first, const OpenAir<Real>& open, const TissueBalance<Real>& balance,
              const Real& boundary) {
    const Real air_vapour = raw::saturation_vapour_pressure_kpa(balance.air_c);
    const Real tissue_c = surface_temperature_c(balance, air_vapour);
    const Real tissue_vapour = raw::saturation_vapour_pressure_kpa(tissue_c);
    const Real doses = (tissue_c - heat_.reference_c.value) * (std::numbers::ln10 / heat_.slope_k);
    const Real warmth = (tissue_c - stores_.reference_c.value) * (std::log(stores_.q10) / 10.0);
    const auto put = [&](Eigen::ArrayXXf& array, const Real& value) { value.store(array.data() + first); };
    put(result_.tissue_c, tissue_c);
    put(result_.surround_c, balance.air_c);
    put(result_.deficit_bark, ((tissue_vapour - balance.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.deficit_leaf, ((air_vapour - balance.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.opening_deficit_bark, ((tissue_vapour - open.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.boundary_mol, boundary);
    put(result_.heat_per_hour, 6.0 * doses.exp());
    put(result_.respiration, warmth.exp());
  }

  const Ambient& ambient_;
  const OpenAirTerms& terms_;
  Eigen::Index from_, to_;
  const Exposure& exposure_;
  const ClimateConstants& constant_;
  const HeatConstants& heat_;
  const StoresConstants& stores_;
  const std::vector<double> beam_reaches_;
  Eigen::Index rows_ = 1;
  ScionClimate result_;
};

}  // namespace

CoverOptics cover_optics(const Cover& cover) {
  CoverOptics optics;
  optics.wall = cover.wall > 0;
  optics.light_passed = cover.light_passed;
  optics.light_absorbed = cover.light_absorbed;
  // A paper bag keeps the wall's warmth but lets vapour out; a vented bag loses half of both.
  optics.vapour_kept = cover.closed;
  optics.heat_kept = cover.vapour == Vapour::half ? cover.closed : 1.0;
  return optics;
}

std::string Exposure::key() const {
  // Within a cover nothing of a stick's climate depends on how thick it is.
  const double diameter_that_counts_m = cover.wall && organ == Organ::stick ? 0 : diameter_m;
  return fmt::format("{}|{:.3f}|{}{:.4f}{:.4f}{:.3f}{:.3f}|{}|{:.5f}|{:.3f}|{:.7f}|{:.2f}", spot_name, shade,
                     cover.wall, cover.light_passed, cover.light_absorbed, cover.heat_kept, cover.vapour_kept,
                     organ == Organ::bud ? 'b' : 's', diameter_that_counts_m, absorptance,
                     bark_conductance_mol, night_gain_k);
}

std::size_t ScionClimate::bytes() const {
  constexpr std::size_t arrays = 8;
  return arrays * static_cast<std::size_t>(tissue_c.size()) * sizeof(float) +
         coldest_c.size() * sizeof(double);
}

OpenAirTerms open_air_terms(const Ambient& ambient, std::size_t from, std::size_t to) {
  OpenAirTerms terms;
  terms.from = from;
  terms.to = to;
  for (auto* array : {&terms.conductivity_w_m_k, &terms.viscosity_m2_s, &terms.fluid_factor})
    array->resize(ambient.courses(), static_cast<Eigen::Index>(to - from));
  over_widest_lanes(FilmRun{ambient, terms});
  for (const SunHour& sun : std::span(ambient.sun).subspan(from, to - from)) {
    terms.cosine_elevation.push_back(std::sqrt(std::max(0.0, 1.0 - sun.sine_elevation * sun.sine_elevation)));
    terms.night.push_back(sun.sine_elevation > 0 ? 0.0 : 1.0);
    terms.cosine_to_aspect.push_back(cosines_to_sectors(sun));
  }
  return terms;
}

ScionClimate scion_climate(const Ambient& ambient, const OpenAirTerms& terms, const Exposure& exposure,
                           const Models& models) {
  return ClimateAtScion(ambient, terms, exposure, models).computed();
}

ScionClimate scion_climate(const Ambient& ambient, const Exposure& exposure, const Models& models) {
  return scion_climate(ambient, open_air_terms(ambient, 0, ambient.hours()), exposure, models);
}

}  // namespace graftcast
