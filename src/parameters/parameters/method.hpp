#pragma once
// Ways of grafting, and the state of the scion wood.

#include <optional>
#include <string>
#include <string_view>

#include "parameters/entry.hpp"

namespace graftcast {

/// What is grafted.
enum class Organ { stick, bud };
constexpr std::string_view choices_of(Organ) {
  return "stick bud";
}

/// Whether the stock is cut back when it is grafted or keeps its leaves.
enum class StockHead { headed, full };
constexpr std::string_view choices_of(StockHead) {
  return "headed full";
}

/// A method; what each number means stands in its table (method.cpp).
struct Method : KeyedEntry<Method> {
  static const KeyTable table;

  Organ organ = Organ::stick;
  bool needs_slip = false;
  StockHead stock_head = StockHead::headed;
  std::string usual_wrap, usual_cover, usual_cover_evergreen;
  bool scion_stays_rooted = false;

  Parameter rate_factor;
  Parameter diameter_mm, length_mm, bark_area_cm2, water_store_g, buds;
  Parameter take_share;
  std::optional<Parameter> bag_off_days;
  Parameter wrap_slit_days, doubtful_days, failed_days;
  Parameter break_gust_m_s;
  std::optional<Parameter> sever_days;
};

/// How the scion wood is when it is grafted: dormant, leafless evergreen or leafy.
struct ScionState : KeyedEntry<ScionState> {
  static const KeyTable table;

  bool leaves = false;

  Parameter bark_conductance_mmol;
  Parameter water_share_fresh, stops_callus_water, full_callus_water, lost_water, lost_water_sd;
  Parameter stores_days;
  Parameter own_leaf_area_cm2;
};

}  // namespace graftcast
