#pragma once
// Why was it lost? What harmed a graft, day by day, whose share it was, and what would have saved it.

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "graftcast/act.hpp"
#include "graftcast/date_band.hpp"
#include "graftcast/day_flag.hpp"
#include "graftcast/event.hpp"
#include "graftcast/factor.hpp"
#include "graftcast/graft_card.hpp"
#include "graftcast/stage.hpp"
#include "graftcast/why_lesson.hpp"

namespace graftcast {

/// One of the factors, or none of them: plain failure, and what is left of the loss with all of them
/// harmless.
using Culprit = std::optional<Factor>;
inline constexpr Culprit not_weather = std::nullopt;
/// The code in JSON: that of the factor, or `not_weather`.
std::string_view culprit_name(Culprit culprit);

/// What speaks for a culprit: the day that shows it best, in the open and at the graft.
struct HotTissue {
  LocalDay day{};
  std::string cover;  ///< That it stood under, a key of models/covers.json.
  double tissue_c = 0, air_c = 0;
};
struct SunHeatedCover {
  LocalDay day{};
  std::string cover;
  double tissue_c = 0, air_c = 0;
};
struct DryAir {
  LocalDay day{};
  double open_kpa = 0, own_kpa = 0;  ///< Deficits of vapour pressure in the open and at the graft.
  double least_water = 1;            ///< Of all its days, share of the full store.
};
struct StrongWind {
  LocalDay day{};
  double wind_m_s = 0;  ///< At 2 m.
};
/// What it lacked beside the method's usual wrap and cover; all absent: something came off too early.
struct LackOfCover {
  std::optional<std::string> wrap, usual_wrap;    ///< Keys of models/covers.json.
  bool tip_open = false, edges_open = false;      ///< The cut tip, the edges of a chip.
  std::optional<std::string> cover, usual_cover;  ///< Likewise.
};
struct ShortOfWater {
  std::size_t short_days = 0, days = 0;
  LocalDay worst_day{};
  double supplied_share = 1;      ///< On it, of what the stock asked for, 0..1.
  bool watering_assumed = false;  ///< None is noted.
};
struct ColdTissue {
  LocalDay day{};
  double tissue_c = 0, air_c = 0;
};
struct SlowCallus {
  double bridge_share = 0;  ///< Of the callus bridge, 0..1 ...
  double age_days = 0;      ///< ... at this age.
  double best_days = 0;     ///< That make the bridge at the optimum ...
  double optimum_c = 0;     ///< ... which is this.
};
/// When the buds moved and the vessels joined; absent: not by then.
struct BudsAhead {
  std::optional<LocalDay> buds_moved, vessels_joined;
};
struct PoorMatch {
  std::optional<double> share;  ///< Of the cambium that met, 0..1; absent: not noted.
  bool one_side = false;
};
struct PlainFailure {
  double share = 0;  ///< Of grafts that fail in any weather, 0..1.
  std::string method;
};
/// Nothing where it was lost on the day it was made.
using CulpritFact = std::variant<std::monostate, HotTissue, SunHeatedCover, DryAir, StrongWind, LackOfCover,
                                 ShortOfWater, ColdTissue, SlowCallus, BudsAhead, PoorMatch, PlainFailure>;

/// One culprit and what speaks for it.
struct CulpritShare {
  Culprit culprit;
  double share = 0;               ///< Of the loss; below 0 where it did good.
  double chance = 0;              ///< With what was seen, 0..1; all chances add up to 1.
  std::optional<double> without;  ///< Loss with it alone made harmless; absent for `not_weather`.
  std::optional<double> alone;    ///< Loss with it alone as it was, all others harmless; likewise.
  CulpritFact fact;
};

/// Something in the diary that tells culprits apart.
struct SeenSign {
  Event event{};
  std::string title;  ///< As in models/hazards.json: `Bark wrinkled, light brown, buds shut`.
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
  double lost = 0;  ///< Chance that the weather had lost it by the day's end, 0..1.
  DayFlags flags;
  std::vector<EventNote> notes;
};

/// One act done once, that would have kept it with a fair chance.
struct SavingAction {
  Act act;
  Instant from{};                    ///< First moment that it could be done.
  Instant by{};                      ///< Latest moment at which it still gets most of what it gets at best.
  double p_after = 0;                ///< Loss with it done at `from`, 0..1.
  double minutes = 0;                ///< Work for one graft.
  std::map<std::string, int> needs;  ///< Supplies of one graft.
};

enum class RowOutcome : std::uint8_t { lost, lost_in_part, removed, taken, open };
/// The code in JSON: `lost`, `lost-in-part`, `removed`, `taken`, `open`.
std::string_view row_outcome_name(RowOutcome outcome);

struct GraftWhy : GraftCard {  // `count`: all of the row; `spot`: where it stood last.
  int lost = 0, taken = 0;
  RowOutcome outcome = RowOutcome::open;
  Instant until{};           ///< The last note of loss; else the moment of the answer.
  double age_days = 0;       ///< Then.
  double loss = 0;           ///< Chance of loss to weather by then, 0..1; no note weighs it.
  DateBand when;             ///< When that fell, if it did; after the last day on which it was seen alive.
  double loss_harmless = 0;  ///< Of it, what is left with every factor harmless.
  double plain_failure = 0;  ///< Of the method, in any weather, 0..1.
  bool explained = false;    ///< The factors move the loss by enough.
  std::vector<CulpritShare> shares;  ///< The one to name first is first; then by chance.
  std::vector<SeenSign> signs;
  Stage stage = Stage::fresh;
  double healing = 0, bud_clock = 0, leaf_share = 0, water = 1;  ///< At the end.
  DateBand bridged_on, drinking_from, buds_moved_on;             ///< Absent where not by the end.
  std::vector<WhyDay> days;
  std::vector<SavingAction> would_have_saved;  ///< The cheapest first.
  std::optional<WhyLesson> lesson;             ///< Only where asked for.
  std::vector<std::string> assumed;  ///< Columns of grafts.csv that were empty and matter; `watering`.
};

/// The grafts that were lost for one cause.
struct LossGroup {
  Culprit culprit;
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

}  // namespace graftcast
