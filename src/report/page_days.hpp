#pragma once
// The days of a graft as its charts show them (private to the layer).

#include <span>
#include <string>
#include <vector>

#include "report/page.hpp"

namespace graftcast {

/// One day, or a few together where there are more than a narrow chart can show.
struct ChartDay {
  LocalDay day{};  ///< The last of them.
  int days = 1;
  bool ahead = false;
  double tissue_c = 0, air_c = 0;                   ///< Hottest hour.
  double limit_c = 0;                               ///< From which the tissue suffers at its stage.
  double coldest_c = 0;                             ///< Tissue, coldest hour.
  double cold_limit_c = -100;                       ///< Below which it suffers.
  double water = 1, water_low = 1, water_high = 1;  ///< At the end.
  double healing = 0, healing_low = 0, healing_high = 0;
  Stage stage = Stage::fresh;
  DayFlags flags;
};

/// More columns than this say nothing more on a chart 360 to 700 pixels wide.
inline constexpr std::size_t most_chart_days = 120;

/// From grafting to `page_chart_days` ahead of `today`; no more than most_chart_days of them.
std::vector<ChartDay> chart_days(const GraftSince& graft, const PageLevels& levels, LocalDay today);

/// Index of the first that lies ahead; their number where none does.
std::size_t first_ahead(std::span<const ChartDay> days);

}  // namespace graftcast
