#pragma once
// One self-contained HTML page of a morning: the list, a card with charts a graft, notes to send.

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"
#include "graftcast/when.hpp"
#include "graftcast/why.hpp"
#include "plant/stage.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// Levels that a graft's charts are read against.
struct PageLevels {
  StageLimits stages;
  double lost_water = 0;                    ///< Share of the full store at which half are lost.
  std::array<double, 5> heat_limit_c = {};  ///< Tissue from which a day is a heat day, by stage.
  std::array<double, 5> cold_limit_c = {};  ///< Tissue down to which it is no cold day, by stage.
};

/// From the models, for a graft of the ledger.
PageLevels page_levels(const Season& season, const GraftRecord& graft);

/// What the page shows; `since` and `levels` have the grafts of `morning`, `since` with their hours up to
/// `page_chart_days` ahead.
struct PageContent {
  MorningReport morning;
  SinceReport since;
  std::map<std::string, PageLevels> levels;  ///< By id.
  std::vector<std::string> heat = {};        ///< Cautions to read before going out.
  std::optional<WhenReport> weeks = {};      ///< Grafting on the coming mornings; absent: not asked for.
  std::optional<WhyLosses> losses = {};      ///< Of the season; absent: not asked for.
  std::vector<EventNote> own_work = {};      ///< Putting on covers and wraps of the owner's own.
};

/// How many days ahead the charts reach, and the dates in words.
inline constexpr int page_chart_days = 14;
inline constexpr int page_outlook_days = 30;

/// The whole file. Nothing in it is loaded from elsewhere, every name is text and nothing else, and it works
/// without its script. Of `style` only the units count. `basis` must have a clock.
std::string page_html(const PageContent& content, const ReportBasis& basis, const TerminalStyle& style);

}  // namespace graftcast
