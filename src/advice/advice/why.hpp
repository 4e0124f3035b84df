#pragma once
// Why was it lost? What harmed a graft, day by day, whose share it was, and what would have saved it.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ensemble/counterfactual.hpp"
#include "graftcast/act.hpp"
#include "graftcast/date_band.hpp"
#include "graftcast/day_flag.hpp"
#include "graftcast/graft_card.hpp"
#include "graftcast/stage.hpp"

namespace graftcast {

/// What is not one of the factors: plain failure, and what is left of the loss with all of them harmless.
inline constexpr std::string_view not_weather = "not_weather";

/// A cause in words: "sun on the cover" for `cover_sun`, "not the weather" for `not_weather`.
std::string_view cause_title(std::string_view cause);

/// One cause and what speaks for it.
struct CauseShare {
  std::string cause;              ///< A factor's name, or `not_weather`.
  double share = 0;               ///< Of the loss; below 0 where it did good.
  double chance = 0;              ///< With what was seen; all chances add up to 1.
  std::optional<double> without;  ///< Loss with it alone made harmless; absent for `not_weather`.
  std::optional<double> alone;    ///< Loss with it alone as it was, all others harmless; likewise.
  std::string fact;               ///< The figures behind it, for people.
};

/// Something in the diary that tells causes apart.
struct SeenSign {
  Event event{};
  std::string title;  ///< "Bark wrinkled, light brown, buds shut".
  Instant when{};
};

/// One local day (the first and last may be cut), in the open and as the graft had it.
struct WhyDay {
  LocalDay day{};
  double air_max_c = 0, air_min_c = 0, vpd_max_kpa = 0, wind_max_m_s = 0;  ///< In the open; wind at 2 m.
  double tissue_max_c = 0, tissue_min_c = 0;
  double own_vpd_max_kpa = 0;   ///< Between the tissue and the air around it, within its cover.
  double stock_stress_min = 1;  ///< Least Ks of the stock, 1: as much water as it asks for.
  double water = 1;             ///< Share of the full store at the day's end, mean of the members.
  double healing = 0, bud_clock = 0, leaf_share = 0;  ///< Likewise; 1: bridged, buds pushed, full leaves.
  double lost = 0;  ///< Chance that the weather had lost it by the day's end.
  DayFlags flags;
  std::vector<std::string> notes;  ///< Events of the diary.
};

/// One thing done once, that would have kept it with a fair chance.
struct SavingAction {
  Act act;
  Instant from{};                    ///< First moment that it could be done.
  Instant by{};                      ///< Latest moment at which it still gets most of what it gets at best.
  double p_after = 0;                ///< Loss with it done at `from`.
  double minutes = 0;                ///< Work for one graft.
  std::map<std::string, int> needs;  ///< Supplies of one graft.
};

/// A step of the reasoning with the sources of its numbers.
struct LessonStep {
  std::string title;
  std::string text;
  std::vector<std::string> sources;
};

struct GraftWhy : GraftCard {
  int lost = 0, taken = 0;
  std::string outcome;       ///< `lost`, `lost-in-part`, `open` or `taken`.
  Instant until{};           ///< The last note of loss; else the moment of the answer.
  double age_days = 0;       ///< Then.
  double loss = 0;           ///< Chance of loss to weather by then; no note weighs it.
  DateBand when;             ///< When that fell, if it did; after the last day on which it was seen alive.
  double loss_harmless = 0;  ///< Of it, what is left with every factor harmless.
  double plain_failure = 0;  ///< Of the method, in any weather.
  bool explained = false;    ///< The factors move the loss by enough.
  std::vector<CauseShare> shares;  ///< The one to name first is first; then by chance.
  std::vector<SeenSign> signs;
  Stage stage = Stage::fresh;
  double healing = 0, bud_clock = 0, leaf_share = 0, water = 1;  ///< At the end.
  DateBand bridged_on, drinking_from, buds_moved_on;             ///< Absent where not by the end.
  std::vector<WhyDay> days;
  std::vector<SavingAction> would_have_saved;  ///< The cheapest first.
  std::vector<LessonStep> lesson;              ///< Only where asked for.
  std::vector<std::string> assumed;            ///< Cells that were empty and matter.
};

struct WhyAsk {
  bool actions = true;
  bool lesson = false;
};

/// Explains one graft. `climates` are of the same season. Error: none beyond those of graft_case.
GraftWhy why(const Season& season, const HarmlessClimates& climates, const GraftRecord& record,
             const WhyAsk& ask, int threads);

/// The grafts that were lost for one cause.
struct LossGroup {
  std::string cause;
  int grafts = 0;       ///< Lost ones of the rows for which it is named first.
  double expected = 0;  ///< Lost grafts by the chances of all rows.
  std::vector<std::string> ids;
};

/// Something done at every lost graft that it could be done to.
struct PracticeChange {
  Act act;
  double saved = 0;  ///< Of the lost grafts, by itself.
  double adds = 0;   ///< To those listed before it.
  std::vector<std::string> ids;
};

/// A season's losses.
struct WhyLosses {
  std::string season;  ///< `2025/26`, from midwinter to midwinter.
  int lost = 0;
  std::vector<GraftWhy> grafts;         ///< In the order of the ledger.
  std::vector<LossGroup> groups;        ///< Greatest first.
  std::vector<PracticeChange> changes;  ///< The two that together would have saved most.
};

/// Explains every row made in the season of the season's moment, of which some graft is noted dead by then.
WhyLosses why_losses(const Season& season, const std::vector<GraftRecord>& grafts, int threads);

/// Those rows.
std::vector<GraftRecord> lost_this_season(const Site& site, const Clock& clock, Instant as_of,
                                          const std::vector<GraftRecord>& grafts);

}  // namespace graftcast
