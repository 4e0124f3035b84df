#pragma once
// Heat and vapour between the air and a stem: forced convection across a cylinder and long wave radiation.
//
// `raw` checks nothing and also takes Lanes. What is of radiation and conductance takes Eigen arrays as well
// (the result is then an expression: assign it to an array before the arguments go away).

#include <cmath>

namespace graftcast {

/// Stefan-Boltzmann constant [W m-2 K-4], CODATA 2018.
inline constexpr double stefan_boltzmann_w_m2_k4 = 5.670374e-8;

namespace raw {

/// Kelvin of `temperature_c` [degC].
template <class T>
auto kelvin(const T& temperature_c) {
  return temperature_c + 273.15;
}

/// Thermal conductivity of air [W m-1 K-1] at `temperature_c` [degC]: Sutherland's law with the constants of
/// White 2006 (Viscous Fluid Flow, 3rd ed., table 1-3).
template <class T>
auto air_conductivity_w_m_k(const T& temperature_c) {
  using std::sqrt;
  return 0.0241 * ((273.0 + 194.0) / (273.0 * std::sqrt(273.0))) * kelvin(temperature_c) *
         sqrt(kelvin(temperature_c)) / (kelvin(temperature_c) + 194.0);
}

/// Dynamic viscosity of air [Pa s] at `temperature_c` [degC]: Sutherland's law, White 2006, table 1-2.
template <class T>
auto air_viscosity_pa_s(const T& temperature_c) {
  using std::sqrt;
  return 1.716e-5 * ((273.0 + 111.0) / (273.0 * std::sqrt(273.0))) * kelvin(temperature_c) *
         sqrt(kelvin(temperature_c)) / (kelvin(temperature_c) + 111.0);
}

/// Kinematic viscosity of air [m2/s] at `temperature_c` [degC] and `pressure_kpa` [kPa]: dynamic viscosity
/// over the density of an ideal gas, 287.05 J kg-1 K-1.
template <class T, class P>
auto air_kinematic_viscosity_m2_s(const T& temperature_c, const P& pressure_kpa) {
  return air_viscosity_pa_s(temperature_c) * 287.05 * kelvin(temperature_c) / (1000.0 * pressure_kpa);
}

/// Prandtl number of air at `temperature_c` [degC]: viscosity times 1005 J kg-1 K-1 over conductivity.
template <class T>
auto air_prandtl(const T& temperature_c) {
  return air_viscosity_pa_s(temperature_c) * 1005.0 / air_conductivity_w_m_k(temperature_c);
}

/// What the fluid alone gives to the Nusselt number below: 0.62 Pr^(1/3) / (1 + (0.4 / Pr)^(2/3))^(1/4).
template <class P>
auto cylinder_fluid_factor(const P& prandtl) {
  using std::exp;
  using std::log;
  using std::sqrt;
  // exp(y log x) is done for all lanes at once, which pow is not; roots of roots cost less still.
  const P root = exp(1.0 / 3.0 * log(prandtl));
  const double share = std::cbrt(0.4) * std::cbrt(0.4);  // (0.4 / Pr)^(2/3) = share / (Pr^(1/3))^2
  return P(0.62 * root / sqrt(sqrt(1.0 + share / (root * root))));
}

/// What the flow gives to it: Re^(1/2) (1 + (Re / 282000)^(5/8))^(4/5).
template <class R>
auto cylinder_flow_factor(const R& reynolds) {
  using std::exp;
  using std::log;
  using std::sqrt;
  const R ratio = reynolds / 282000.0;
  const R turbulent = 1.0 + sqrt(ratio) * sqrt(sqrt(sqrt(ratio)));  // ratio^(1/2 + 1/8)
  return R(sqrt(reynolds) * exp(0.8 * log(turbulent)));
}

/// Mean Nusselt number of a cylinder in cross flow with film properties: Churchill & Bernstein 1977 (J. Heat
/// Transfer 99, 300). Stated for reynolds * prandtl > 0.2; tends to 0.3 in still air.
template <class R, class P>
auto cylinder_nusselt(const R& reynolds, const P& prandtl) {
  return 0.3 + cylinder_fluid_factor(prandtl) * cylinder_flow_factor(reynolds);
}

/// Heat transfer coefficient [W m-2 K-1] of a cylinder of `diameter_m` [m] across a wind of `wind_m_s` [m/s],
/// in a film at `film_c` [degC], the mean of air and surface, and `pressure_kpa` [kPa].
template <class U, class D, class T, class P>
auto cylinder_heat_transfer_w_m2_k(const U& wind_m_s, const D& diameter_m, const T& film_c,
                                   const P& pressure_kpa) {
  return air_conductivity_w_m_k(film_c) / diameter_m *
         cylinder_nusselt(wind_m_s * diameter_m / air_kinematic_viscosity_m2_s(film_c, pressure_kpa),
                          air_prandtl(film_c));
}

/// Boundary layer conductance to water vapour [mol m-2 s-1] that goes with a forced heat transfer coefficient
/// [W m-2 K-1]: h / (29.3 J mol-1 K-1) * (Dv/Dh)^(2/3), diffusivities 21.2 and 18.9 mm2/s (Campbell & Norman
/// 1998, table A.3; the ratio agrees within 1 % with that of their eq. 7.30 for leaves, 0.147 to 0.135).
template <class H>
auto vapour_conductance_mol_m2_s(const H& heat_transfer_w_m2_k) {
  constexpr double diffusivity_ratio_to_two_thirds = 1.0795664;  // (21.2 / 18.9)^(2/3)
  return heat_transfer_w_m2_k * (diffusivity_ratio_to_two_thirds / 29.3);
}

/// Long wave heat exchange about `temperature_c` [degC], linearised [W m-2 K-1]: 4 emissivity sigma T^3.
template <class E, class T>
auto radiative_coefficient_w_m2_k(const E& emissivity, const T& temperature_c) {
  return 4.0 * stefan_boltzmann_w_m2_k4 * emissivity * kelvin(temperature_c) * kelvin(temperature_c) *
         kelvin(temperature_c);
}

/// Black body radiation [W/m2] at `temperature_c` [degC].
template <class T>
auto black_body_w_m2(const T& temperature_c) {
  return stefan_boltzmann_w_m2_k4 * kelvin(temperature_c) * kelvin(temperature_c) * kelvin(temperature_c) *
         kelvin(temperature_c);
}

}  // namespace raw

/// Properties of the air in the film between a surface and the wind.
struct AirFilm {
  double conductivity_w_m_k;
  double kinematic_viscosity_m2_s;
  double prandtl;
};
/// Film properties at `temperature_c` [degC, -80..100] and `pressure_kpa` [kPa, 40..110]; sources under
/// `raw`.
AirFilm air_film(double temperature_c, double pressure_kpa);

/// Nusselt number of a cylinder, Churchill & Bernstein 1977. Valid: reynolds 0..1e7, prandtl 0.1..1000,
/// product at least 0.2.
double cylinder_nusselt(double reynolds, double prandtl);

/// Heat transfer coefficient [W m-2 K-1] as in `raw`. Valid: wind 0.01..60 m/s, diameter 0.0005..2 m, film
/// -80..100 degC, pressure 40..110 kPa, Reynolds times Prandtl number at least 0.2. Still air is free
/// convection: no answer.
double cylinder_heat_transfer_w_m2_k(double wind_m_s, double diameter_m, double film_c, double pressure_kpa);

/// Boundary layer conductance [mol m-2 s-1] as in `raw`. Valid: 0..10000 W m-2 K-1.
double vapour_conductance_mol_m2_s(double heat_transfer_w_m2_k);

/// Linearised long wave coefficient [W m-2 K-1] as in `raw`. Valid: emissivity 0..1, -80..100 degC.
double radiative_coefficient_w_m2_k(double emissivity, double temperature_c);

}  // namespace graftcast
