#include "graftcast/convection.hpp"

#include "graftcast/error.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

AirFilm air_film(double temperature_c, double pressure_kpa) {
  require_within(temperature_c, valid::temperature);
  require_within(pressure_kpa, valid::pressure);
  return {.conductivity_w_m_k = raw::air_conductivity_w_m_k(temperature_c),
          .kinematic_viscosity_m2_s = raw::air_kinematic_viscosity_m2_s(temperature_c, pressure_kpa),
          .prandtl = raw::air_prandtl(temperature_c)};
}

double cylinder_nusselt(double reynolds, double prandtl) {
  require_within(reynolds, {tr_later("Reynolds number"), 0, 1e7, tr_later("(dimensionless)")});
  require_within(prandtl, {tr_later("Prandtl number"), 0.1, 1000, tr_later("(dimensionless)")});
  if (reynolds * prandtl < 0.2) {
    throw RangeError(tr("Reynolds times Prandtl number is {product}", "product"_a = reynolds * prandtl),
                     tr("valid: at least 0.2; in stiller air free convection rules"));
  }
  return raw::cylinder_nusselt(reynolds, prandtl);
}

double cylinder_heat_transfer_w_m2_k(double wind_m_s, double diameter_m, double film_c, double pressure_kpa) {
  require_within(wind_m_s, {tr_later("wind speed"), 0.01, 60, "m/s"});
  require_within(diameter_m, {tr_later("diameter"), 0.0005, 2, "m"});
  const AirFilm film = air_film(film_c, pressure_kpa);
  const double reynolds = wind_m_s * diameter_m / film.kinematic_viscosity_m2_s;
  return film.conductivity_w_m_k / diameter_m * cylinder_nusselt(reynolds, film.prandtl);
}

double vapour_conductance_mol_m2_s(double heat_transfer_w_m2_k) {
  require_within(heat_transfer_w_m2_k, {tr_later("heat transfer coefficient"), 0, 10000, "W m-2 K-1"});
  return raw::vapour_conductance_mol_m2_s(heat_transfer_w_m2_k);
}

double radiative_coefficient_w_m2_k(double emissivity, double temperature_c) {
  require_within(emissivity, {tr_later("emissivity"), 0, 1, tr_later("(dimensionless)")});
  require_within(temperature_c, valid::temperature);
  return raw::radiative_coefficient_w_m2_k(emissivity, temperature_c);
}

}  // namespace graftcast
