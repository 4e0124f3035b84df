#include "graftcast/scion_climate.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "graftcast/convection.hpp"
#include "graftcast/tissue_balance.hpp"
#include "graftcast/union_hour.hpp"

namespace graftcast {

namespace {

constexpr double radians_per_degree = std::numbers::pi / 180.0;

/// Air and light in the open at eight neighbouring places of the lanes x hours array.
struct OpenAir {
  Pack air_c, vapour_kpa, wind_m_s, global_w_m2, diffuse_w_m2, beam_w_m2, sky_emissivity, pressure_kpa;
  Pack cosine_elevation;
  Pack cosine_to_aspect;  ///< Cosine between the sun's azimuth and the bud's aspect, 0 when behind it.
  Pack night;             ///< 1 without sun.
  Pack beam_reaches;      ///< 0 where the spot's hours or horizon hide the sun's disc.
};

/// What reaches the place after spot and shade.
struct Light {
  Pack mean_w_m2;   ///< On an upright cylinder, averaged around it.
  Pack local_w_m2;  ///< On the patch that faces the aspect.
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

class ClimateAtScion {
 public:
  ClimateAtScion(const Ambient& ambient, std::size_t from, std::size_t to, const Exposure& exposure,
                 const ClimateConstants& constants, const RateConstants& rates)
      : ambient_(ambient),
        from_(static_cast<Eigen::Index>(from)),
        to_(static_cast<Eigen::Index>(to)),
        exposure_(exposure),
        constant_(constants),
        rates_(rates) {
    reaches_.reserve(ambient.hours());
    for (const SunHour& sun : ambient.sun)
      reaches_.push_back(graftcast::beam_reaches(exposure.spot, sun) ? 1.0 : 0.0);
  }

  ScionClimate computed() {
    const bool spread_aspect = exposure_.organ == Organ::bud && ambient_.lanes() == 1;
    lanes_ = spread_aspect ? aspect_sectors : ambient_.lanes();
    const Eigen::Index hours = to_ - from_;
    for (auto* array : {&result_.tissue_c, &result_.surround_c, &result_.deficit_bark, &result_.deficit_leaf,
                        &result_.boundary_mol, &result_.heat_per_hour, &result_.respiration,
                        &result_.opening_deficit_bark}) {
      array->resize(lanes_, hours);
    }
    const Eigen::Index places = lanes_ * hours;
    for (Eigen::Index first = 0; first < places; first += pack_size) {
      place_pack(first, std::min<Eigen::Index>(pack_size, places - first));
    }
    return std::move(result_);
  }

 private:
  void place_pack(Eigen::Index first, Eigen::Index count) {
    OpenAir open = gathered(first, count);
    if (exposure_.spot.climate) settle_fixed_climate(open);
    const Light light = light_at_spot(open);
    const Pack wind =
        (open.wind_m_s * exposure_.spot.wind_share * (1.0 - constant_.shade_wind_reduction * exposure_.shade))
            .max(constant_.wind_floor_m_s);
    if (exposure_.cover.wall) {
      under_cover(first, count, open, light, wind);
    } else {
      in_the_open(first, count, open, light, wind);
    }
  }

  OpenAir gathered(Eigen::Index first, Eigen::Index count) const {
    OpenAir open;
    for (Eigen::Index i = 0; i < pack_size; ++i) {
      const Eigen::Index place = first + std::min(i, count - 1);
      const Eigen::Index hour = from_ + place / lanes_;
      const Eigen::Index lane = place % lanes_;
      const Eigen::Index from = ambient_.lanes() == 1 ? 0 : lane;
      const SunHour& sun = ambient_.sun[static_cast<std::size_t>(hour)];
      open.air_c[i] = ambient_.air_c(from, hour);
      open.vapour_kpa[i] = ambient_.vapour_kpa(from, hour);
      open.wind_m_s[i] = ambient_.wind_m_s(from, hour);
      open.global_w_m2[i] = ambient_.global_w_m2(from, hour);
      open.diffuse_w_m2[i] = ambient_.diffuse_w_m2(from, hour);
      open.beam_w_m2[i] = ambient_.beam_w_m2(from, hour);
      open.sky_emissivity[i] = ambient_.sky_emissivity(from, hour);
      open.pressure_kpa[i] = ambient_.pressure_kpa[static_cast<std::size_t>(hour)];
      open.cosine_elevation[i] = std::sqrt(std::max(0.0, 1.0 - sun.sine_elevation * sun.sine_elevation));
      open.cosine_to_aspect[i] = cosine_to_aspect(sun, lane);
      open.night[i] = sun.sine_elevation > 0 ? 0.0 : 1.0;
      open.beam_reaches[i] = reaches_[static_cast<std::size_t>(hour)];
    }
    return open;
  }

  /// Sector s faces azimuth (s + 1/2) 360/8 degrees; a lane keeps its sector through all hours.
  static double cosine_to_aspect(const SunHour& sun, Eigen::Index lane) {
    const double aspect_deg = (static_cast<double>(lane % aspect_sectors) + 0.5) * 360.0 / aspect_sectors;
    return std::max(0.0, std::cos((sun.azimuth_deg - aspect_deg) * radians_per_degree));
  }

  void settle_fixed_climate(OpenAir& open) const {
    const Spot::Climate& room = *exposure_.spot.climate;
    open.air_c.setConstant(room.air_temperature_c);
    open.vapour_kpa.setConstant(raw::saturation_vapour_pressure_kpa(room.air_temperature_c) *
                                room.relative_humidity_pct / 100.0);
    open.wind_m_s.setZero();
    open.global_w_m2.setZero();
    open.diffuse_w_m2.setZero();
    open.beam_w_m2.setZero();
    open.sky_emissivity.setOnes();
  }

  Light light_at_spot(const OpenAir& open) const {
    const double share = exposure_.spot.sun_share * (1.0 - exposure_.shade);
    const Pack diffuse = open.diffuse_w_m2 * share;
    const Pack beam = open.beam_w_m2 * share * open.beam_reaches;
    const Pack global = open.global_w_m2 * share * open.beam_reaches + diffuse * (1.0 - open.beam_reaches);
    const Pack scattered = constant_.sky_view * diffuse + constant_.ground_reflection * global;
    const Pack abeam = beam * open.cosine_elevation;
    return {abeam / std::numbers::pi + scattered, abeam * open.cosine_to_aspect + scattered};
  }

  Pack sky_term(const OpenAir& open) const {
    if (exposure_.spot.climate) return Pack::Zero();
    const double view = constant_.sky_view * (1.0 - exposure_.shade) *
                        std::min(1.0, exposure_.spot.sun_share + constant_.sky_view_sun_offset);
    const Pack black_body = raw::black_body_w_m2(open.air_c);
    return view * constant_.tissue_emissivity * (open.sky_emissivity - 1.0) * black_body;
  }

  Pack long_wave_exchange(const Pack& air_c) const {
    return raw::radiative_coefficient_w_m2_k(constant_.tissue_emissivity, air_c);
  }

  static Pack wind_exchange(const Pack& wind, double diameter_m, const OpenAir& open) {
    const Pack reynolds =
        wind * diameter_m / raw::air_kinematic_viscosity_m2_s(open.air_c, open.pressure_kpa);
    const Pack prandtl = raw::air_prandtl(open.air_c);
    const Pack nusselt = raw::cylinder_nusselt(reynolds, prandtl);
    return raw::air_conductivity_w_m_k(open.air_c) / diameter_m * nusselt;
  }

  /// Short wave absorbed by the tissue; for a bud the wood of the stem evens out what its sides receive.
  Pack absorbed(const Light& light, const Pack& exchange) const {
    const double share = exposure_.absorptance * (exposure_.cover.wall ? exposure_.cover.light_passed : 1.0);
    if (exposure_.organ == Organ::stick) return share * light.mean_w_m2;
    const Pack biot = exchange * (0.5 * exposure_.diameter_m / constant_.wood_conductivity_w_m_k);
    return share * (light.mean_w_m2 + biot / (1.0 + biot) * (light.local_w_m2 - light.mean_w_m2));
  }

  void in_the_open(Eigen::Index first, Eigen::Index count, const OpenAir& open, const Light& light,
                   const Pack& wind) {
    const Pack air_c = open.air_c + exposure_.night_gain_k * open.night;
    const Pack convection = wind_exchange(wind, exposure_.diameter_m, open);
    const Pack exchange = convection + long_wave_exchange(air_c);
    const Pack boundary = raw::vapour_conductance_mol_m2_s(convection);
    settle(first, count, open,
           {absorbed(light, exchange), sky_term(open), air_c, open.vapour_kpa, open.pressure_kpa, exchange,
            in_series<Pack>(Pack::Constant(exposure_.bark_conductance_mol), boundary)},
           boundary);
  }

  void under_cover(Eigen::Index first, Eigen::Index count, const OpenAir& open, const Light& light,
                   const Pack& wind) {
    const CoverOptics& cover = exposure_.cover;
    const Pack air_c = open.air_c + exposure_.night_gain_k * open.night;
    const Pack wall_exchange =
        wind_exchange(wind, constant_.bag_diameter_m, open) + long_wave_exchange(air_c);
    const Pack wall_absorbed =
        (cover.light_absorbed + constant_.bag_content_share * cover.light_passed) * light.mean_w_m2;
    const Pack wall_c = air_c + (wall_absorbed + sky_term(open)) / wall_exchange;
    const Pack inner_air_c = air_c + cover.heat_kept * (wall_c - air_c);
    const Pack wall_vapour = constant_.bag_saturation * raw::saturation_vapour_pressure_kpa(wall_c);
    const Pack inner_vapour = open.vapour_kpa + cover.vapour_kept * (wall_vapour - open.vapour_kpa);
    const Pack exchange = constant_.bag_inner_w_m2_k + long_wave_exchange(inner_air_c);
    const Pack boundary = Pack::Constant(raw::vapour_conductance_mol_m2_s(constant_.bag_inner_w_m2_k));
    settle(first, count, open,
           {absorbed(light, exchange), Pack::Zero(), inner_air_c, inner_vapour, open.pressure_kpa, exchange,
            in_series<Pack>(Pack::Constant(exposure_.bark_conductance_mol), boundary)},
           boundary);
  }

  void settle(Eigen::Index first, Eigen::Index count, const OpenAir& open, const TissueBalance<Pack>& balance,
              const Pack& boundary) {
    const Pack tissue_c = surface_temperature_c(balance);
    const Pack tissue_vapour = raw::saturation_vapour_pressure_kpa(tissue_c);
    const Pack air_vapour = raw::saturation_vapour_pressure_kpa(balance.air_c);
    const auto put = [&](Eigen::ArrayXXd& array, const Pack& value) {
      Eigen::Map<Eigen::ArrayXd>(array.data() + first, count) = value.head(count);
    };
    put(result_.tissue_c, tissue_c);
    put(result_.surround_c, balance.air_c);
    put(result_.deficit_bark, ((tissue_vapour - balance.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.deficit_leaf, ((air_vapour - balance.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.opening_deficit_bark, ((tissue_vapour - open.vapour_kpa) / open.pressure_kpa).max(0.0));
    put(result_.boundary_mol, boundary);
    put(result_.heat_per_hour,
        6.0 * ((tissue_c - rates_.heat_reference_c) * (std::numbers::ln10 / rates_.heat_slope_k)).exp());
    put(result_.respiration, ((tissue_c - rates_.q10_reference_c) * (std::log(rates_.q10) / 10.0)).exp());
  }

  const Ambient& ambient_;
  Eigen::Index from_, to_;
  const Exposure& exposure_;
  const ClimateConstants& constant_;
  const RateConstants& rates_;
  std::vector<double> reaches_;
  Eigen::Index lanes_ = 1;
  ScionClimate result_;
};

}  // namespace

std::string Exposure::key() const {
  return fmt::format("{}|{:.3f}|{}{:.4f}{:.4f}{:.3f}{:.3f}|{}|{:.5f}|{:.3f}|{:.7f}|{:.2f}", spot_name, shade,
                     cover.wall, cover.light_passed, cover.light_absorbed, cover.heat_kept, cover.vapour_kept,
                     organ == Organ::bud ? 'b' : 's', diameter_m, absorptance, bark_conductance_mol,
                     night_gain_k);
}

ScionClimate scion_climate(const Ambient& ambient, std::size_t from, std::size_t to, const Exposure& exposure,
                           const ClimateConstants& constants, const RateConstants& rates) {
  return ClimateAtScion(ambient, from, to, exposure, constants, rates).computed();
}

ScionClimate scion_climate(const Ambient& ambient, const Exposure& exposure,
                           const ClimateConstants& constants, const RateConstants& rates) {
  return scion_climate(ambient, 0, ambient.hours(), exposure, constants, rates);
}

}  // namespace graftcast
