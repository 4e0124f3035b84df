#include "advice/graft_window.hpp"

#include <algorithm>

#include "advice/when.hpp"

namespace graftcast {

namespace {

constexpr int days_of_year = 365;
constexpr std::chrono::days adjoining_days{7};  // windows that follow each other like this are one
constexpr int midwinter_to_new_year_days =
    10;  // 21 December is the 0th; 1 January, day 1 of the year, the 11th

int days_since_midwinter(double day_of_year) {
  return (static_cast<int>(day_of_year) + midwinter_to_new_year_days) % days_of_year;
}

/// The run of one window that ends last on or after `day`.
GraftWindow next_of(const Species::Window& window, LocalDay midwinter, LocalDay day) {
  const int start = days_since_midwinter(window.start_doy);
  const int length = (days_since_midwinter(window.end_doy) - start + days_of_year) % days_of_year;
  LocalDay opens = midwinter + std::chrono::days(start - days_of_year);
  while (opens + std::chrono::days(length) < day) opens += std::chrono::days(days_of_year);
  return {opens <= day, opens + std::chrono::days(length), opens};
}

}  // namespace

GraftWindow graft_window(const Species& species, double latitude_deg, LocalDay day) {
  const LocalDay midwinter = midwinter_before(day, latitude_deg);
  const std::vector<Species::Window> usual = species.windows_north();
  const GraftWindow window = next_of(usual.front(), midwinter, day);
  if (usual.size() == 1) return window;
  const GraftWindow second = next_of(usual.back(), midwinter, day);
  const bool first_leads = window.open ? !second.open || window.opens <= second.opens
                                       : !second.open && window.opens <= second.opens;
  GraftWindow lead = first_leads ? window : second;
  const GraftWindow& other = first_leads ? second : window;
  if (other.opens <= lead.closes + adjoining_days) lead.closes = std::max(lead.closes, other.closes);
  return lead;
}

}  // namespace graftcast
