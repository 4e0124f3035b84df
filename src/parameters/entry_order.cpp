// Orders between numbers of one entry without which the model would divide by zero or answer nonsense.

#include <fmt/format.h>

#include "entry_reader.hpp"

namespace graftcast {

namespace {

using model_keys::Section;

/// `greater` must lie at least `gap` above `lesser`. `entry` empty: in every entry of the section.
struct Order {
  Section section;
  std::string_view entry, lesser, greater;
  double gap;
};

// The gaps of six and four degrees keep the callus curve's exponent finite over the sampled range.
constexpr auto orders = std::to_array<Order>({
    {Section::species, "", "callus_lower_c", "callus_optimum_c", 6},
    {Section::species, "", "callus_optimum_c", "callus_upper_c", 4},
    {Section::species, "", "bridge_days", "vascular_days", 0.5},
    {Section::species, "", "degree_day_base_c", "degree_day_upper_c", 1},
    {Section::methods, "", "doubtful_days", "failed_days", 1},
    {Section::scion_states, "", "stops_callus_water", "full_callus_water", 0.01},
    {Section::shared, "healing", "fresh_until", "bridged_at", 0.1},
    {Section::shared, "healing", "bridged_at", "firm_at", 0.1},
    {Section::hazards, "heat-day", "fresh_c", "callusing_c", 0},
    {Section::hazards, "heat-day", "callusing_c", "bridged_c", 0},
    {Section::hazards, "heat-day", "bridged_c", "drinking_c", 0},
    {Section::hazards, "heat-day", "drinking_c", "firm_c", 0},
    {Section::hazards, "drying-day", "fresh_share_per_day", "callusing_share_per_day", 0},
    {Section::hazards, "drying-day", "callusing_share_per_day", "bridged_share_per_day", 0},
    {Section::hazards, "drying-day", "bridged_share_per_day", "drinking_share_per_day", 0},
    {Section::hazards, "drying-day", "drinking_share_per_day", "firm_share_per_day", 0},
    {Section::hazards, "cold-day", "callusing_c", "fresh_c", 0},
    {Section::hazards, "cold-day", "bridged_c", "callusing_c", 0},
    {Section::hazards, "cold-day", "drinking_c", "bridged_c", 0},
    {Section::hazards, "cold-day", "firm_c", "drinking_c", 0},
    {Section::hazards, "wind-day", "fresh_m_s", "callusing_m_s", 0},
    {Section::hazards, "wind-day", "callusing_m_s", "bridged_m_s", 0},
    {Section::hazards, "wind-day", "bridged_m_s", "drinking_m_s", 0},
    {Section::hazards, "wind-day", "drinking_m_s", "firm_m_s", 0},
    {Section::hazards, "mould-day", "low_c", "high_c", 1},
    {Section::hazards, "urgency", "watch_p", "soon_p", 0},
    {Section::hazards, "urgency", "soon_p", "now_p", 0},
    {Section::hazards, "heat-index", "caution_c", "extreme_caution_c", 0.1},
    {Section::hazards, "heat-index", "extreme_caution_c", "danger_c", 0.1},
    {Section::hazards, "heat-index", "danger_c", "extreme_danger_c", 0.1},
});

}  // namespace

void check_order(const JsonNode& node, Section section, const Entry& entry) {
  for (const auto& order : orders) {
    if (order.section != section || (!order.entry.empty() && order.entry != entry.name)) continue;
    const double lesser = entry.value(order.lesser);
    const double greater = entry.value(order.greater);
    if (greater - lesser < order.gap) {
      node.fail(fmt::format("{}: {} is {} and {} is {}", node.label(), order.lesser, lesser, order.greater,
                            greater),
                fmt::format("keep {} at least {} above {}", order.greater, order.gap, order.lesser));
    }
  }
}

}  // namespace graftcast
