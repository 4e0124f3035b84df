#pragma once
// Climate at the scion: light through the spot and the cover, the bag's air, the tissue's temperature and how
// hard the air pulls on its water.

#include <array>
#include <string>
#include <vector>

#include <Eigen/Core>

#include "parameters/models.hpp"
#include "plant/ambient.hpp"
#include "records/site.hpp"

namespace graftcast {

/// What a cover does to light, heat and vapour.
struct CoverOptics {
  bool wall = false;          ///< Has a wall that light and air must pass.
  double light_passed = 1;    ///< Share of short wave that reaches the scion.
  double light_absorbed = 0;  ///< Share absorbed in the wall.
  double heat_kept = 1;       ///< 1 closed, 0.5 vented: share of the wall's excess found in the air within.
  double vapour_kept = 0;     ///< 1 closed, 0.5 vented, 0 as outside.
};
CoverOptics cover_optics(const Cover& cover);

/// Everything that decides the climate at one scion; grafts with equal exposures share one climate.
struct Exposure {
  std::string spot_name;  ///< Only to tell exposures apart.
  Spot spot;
  double shade = 0;  ///< 0..0.95.
  CoverOptics cover;
  Organ organ = Organ::stick;
  double diameter_m = 0.007;        ///< Of the stick, or of the stem under a bud.
  double absorptance = 0.6;         ///< Of short wave.
  double bark_conductance_mol = 0;  ///< With wrap, for the latent heat.
  double night_gain_k = 0;          ///< A frost cover's gain in hours without sun.
  /// Equal keys mean equal climates.
  std::string key() const;
};

/// Number of compass sectors over which an unknown aspect of a bud is spread.
inline constexpr int aspect_sectors = 8;

/// Rows x hours. Rows: the ambient's courses of weather; for a bud in weather of one course its eight sides.
/// Kept in single precision, worked out in double: a run of the ensemble is mostly a matter of how
/// fast these arrays come from memory, and 1e-7 of a value is far below what the model knows.
struct ScionClimate {
  Eigen::ArrayXXf tissue_c;
  Eigen::ArrayXXf surround_c;            ///< Air around the scion (inside the cover).
  Eigen::ArrayXXf deficit_bark;          ///< (es(Ts) - e) / P, >= 0.
  Eigen::ArrayXXf deficit_leaf;          ///< (es(surround) - e) / P, >= 0.
  Eigen::ArrayXXf boundary_mol;          ///< mol m-2 s-1.
  Eigen::ArrayXXf heat_per_hour;         ///< Median lethal doses an hour at HeatConstants::reference_c.
  Eigen::ArrayXXf respiration;           ///< Q10 factor.
  Eigen::ArrayXXf opening_deficit_bark;  ///< deficit_bark in the first hour after closing a cover: vapour
                                         ///< still as outside.
  std::vector<double> coldest_c;         ///< Per hour: the lowest tissue temperature of its rows.
  Eigen::Index rows() const { return tissue_c.rows(); }
  std::size_t bytes() const;  ///< What it takes of memory, about.
};

/// What the hours [from, to) of an ambient give to every exposure alike, worked out once for all of them.
struct OpenAirTerms {
  std::size_t from = 0, to = 0;
  // Courses x hours: conductivity [W m-1 K-1] and kinematic viscosity [m2/s] of the film, and
  // raw::cylinder_fluid_factor.
  Eigen::ArrayXXd conductivity_w_m_k, viscosity_m2_s, fluid_factor;
  std::vector<double> cosine_elevation, night;
  /// Cosines between the sun's azimuth and the aspects of the sectors, 0 when behind them.
  std::vector<std::array<double, aspect_sectors>> cosine_to_aspect;
};
OpenAirTerms open_air_terms(const Ambient& ambient, std::size_t from, std::size_t to);

/// Climate of the hours of `terms`, which are of `ambient`.
ScionClimate scion_climate(const Ambient& ambient, const OpenAirTerms& terms, const Exposure& exposure,
                           const Models& models);
/// Climate of all of the ambient's hours.
ScionClimate scion_climate(const Ambient& ambient, const Exposure& exposure, const Models& models);

}  // namespace graftcast
