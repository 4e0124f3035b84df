#include "parameters/species.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

constexpr auto species_numbers = std::to_array<NumberRow>({
    number<&Species::callus_lower_c>("degC", "below it no useful callus forms"),
    number<&Species::callus_optimum_c>("degC", "fastest sound callus"),
    number<&Species::callus_upper_c>("degC", "above it no callus forms"),
    above_zero<&Species::bridge_days>("d", "at the optimum, from grafting to the bridge of callus"),
    above_zero<&Species::vascular_days>("d", "at the optimum, from grafting to joined vessels"),
    number<&Species::bud_base_c>("degC", "above it the buds' clock runs"),
    above_zero<&Species::bud_push_degree_days>("degC d", "from stored wood to bud push"),
    number<&Species::heat_reference_c>("degC", "kills half of the tissue in ten minutes"),
    number<&Species::degree_day_base_c>("degC", "base of degree-days since grafting"),
    number<&Species::degree_day_upper_c>("degC", "upper limit of degree-days since grafting"),
    number<&Species::window_start_doy_north>("day of year",
                                             "first day of the main season, north of the equator"),
    number<&Species::window_end_doy_north>("day of year", "last day of the main season"),
    number<&Species::second_window_start_doy_north>("day of year", "first day of a second season"),
    number<&Species::second_window_end_doy_north>("day of year", "last day of a second season"),
    above_zero<&Species::bark_slip_degree_days>("degC d", "from midwinter until the stock's bark slips"),
    number<&Species::bark_slip_base_c>("degC", "base of those degree-days"),
});

constexpr auto species_words = std::to_array<WordRow>({
    text<&Species::scion_state>("usual state of its scion wood", "dormant leafless-evergreen leafy"),
    word<&Species::growth>("whether it drops its leaves"),
    word<&Species::bleeds>("whether a cut stock bleeds sap in spring"),
    reference<&Species::cold_table>("cold_tables", "what frost kills"),
    word<&Species::climate>("where it comes from: heat limits of days are higher for the last two"),
    text<&Species::quarantine>("caution when its wood is moved; empty for the general one"),
});

// The gaps of six and four degrees keep the callus curve's exponent finite over the sampled range.
constexpr auto species_orders = std::to_array<Order>({
    below<&Species::callus_lower_c, &Species::callus_optimum_c>(6),
    below<&Species::callus_optimum_c, &Species::callus_upper_c>(4),
    below<&Species::bridge_days, &Species::vascular_days>(0.5),
    below<&Species::degree_day_base_c, &Species::degree_day_upper_c>(1),
    together<&Species::second_window_start_doy_north, &Species::second_window_end_doy_north>(),
});

}  // namespace

constinit const KeyTable Species::table{{}, species_numbers, species_words, species_orders};

std::vector<Species::Window> Species::windows_north() const {
  std::vector<Window> windows{{window_start_doy_north, window_end_doy_north}};
  if (second_window_start_doy_north)
    windows.push_back({*second_window_start_doy_north, *second_window_end_doy_north});
  return windows;
}

}  // namespace graftcast
