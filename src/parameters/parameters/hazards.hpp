#pragma once
// Limits from which a day is hard on a graft or on people, urgency, signs of a loss and texts of cautions.

#include <array>
#include <string>
#include <string_view>

#include "parameters/entry.hpp"

namespace graftcast {

/// Limits by stage of the union: fresh, callusing, bridged, drinking, firm.
using LimitsByStage = std::array<double, 5>;

struct HeatDay : KeyedEntry<HeatDay> {
  static const KeyTable table;
  Parameter fresh_c, callusing_c, bridged_c, drinking_c, firm_c, warm_species_k;
  LimitsByStage by_stage() const { return {fresh_c, callusing_c, bridged_c, drinking_c, firm_c}; }
};

struct DryingDay : KeyedEntry<DryingDay> {
  static const KeyTable table;
  Parameter fresh_share_per_day, callusing_share_per_day, bridged_share_per_day, drinking_share_per_day,
      firm_share_per_day;
  LimitsByStage by_stage() const {
    return {fresh_share_per_day, callusing_share_per_day, bridged_share_per_day, drinking_share_per_day,
            firm_share_per_day};
  }
};

struct ColdDay : KeyedEntry<ColdDay> {
  static const KeyTable table;
  Parameter fresh_c, callusing_c, bridged_c, drinking_c, firm_c;
  LimitsByStage by_stage() const { return {fresh_c, callusing_c, bridged_c, drinking_c, firm_c}; }
};

struct MouldDay : KeyedEntry<MouldDay> {
  static const KeyTable table;
  Parameter hours, low_c, high_c, damp_air_share, wet_share;
};

struct SoakedDay : KeyedEntry<SoakedDay> {
  static const KeyTable table;
  Parameter rain_mm;
};

struct WindDay : KeyedEntry<WindDay> {
  static const KeyTable table;
  Parameter fresh_m_s, callusing_m_s, bridged_m_s, drinking_m_s, firm_m_s, shoot_share, stake_factor;
  LimitsByStage by_stage() const { return {fresh_m_s, callusing_m_s, bridged_m_s, drinking_m_s, firm_m_s}; }
};

struct UrgencyLimits : KeyedEntry<UrgencyLimits> {
  static const KeyTable table;
  Parameter now_p, soon_p, watch_p, now_h, likely_lost_p;
};

struct HeatIndexLimits : KeyedEntry<HeatIndexLimits> {
  static const KeyTable table;
  Parameter caution_c, extreme_caution_c, danger_c, extreme_danger_c, sun_adds_k;
};

/// How likely a sign is seen after each cause of a loss.
struct SignChances : KeyedEntry<SignChances> {
  static const KeyTable table;
  explicit SignChances(std::string_view event) { name = "sign-" + std::string(event); }
  Parameter heat, dry_air, wind, cover_sun, missing_cover, dry_stock, cold, slow_callus, early_push, match,
      not_weather;
  /// The chance given `cause`, which is the name of one of its numbers.
  const Parameter& given(std::string_view cause) const { return *numbers().at(cause); }
};

struct CautionTexts : KeyedEntry<CautionTexts> {
  static const KeyTable table;
  std::string heat_illness, knives, hygiene, quarantine, products, local_rules, sap, disease, model;
};

}  // namespace graftcast
