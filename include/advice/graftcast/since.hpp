#pragma once
// Degree-days, healing and release dates since grafting; whether to wait, to look or to graft again.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "graftcast/care.hpp"
#include "graftcast/date_band.hpp"
#include "graftcast/day_flag.hpp"
#include "graftcast/degree_days.hpp"
#include "graftcast/graft_card.hpp"
#include "graftcast/notice.hpp"
#include "graftcast/stage.hpp"
#include "graftcast/wood_limit.hpp"

namespace graftcast {

/// A local day of a union. Medians with their 10 % and 90 % over members at the day's end; healing 1:
/// bridged, water as share of the full store.
struct SinceDay {
  LocalDay day{};
  bool ahead = false;                      ///< From the outlook, not from the log.
  double degree_days = 0, cumulative = 0;  ///< [degC d]
  double healing = 0, healing_low = 0, healing_high = 0;
  double water = 1, water_low = 1, water_high = 1;
  double tissue_max_c = 0, air_max_c = 0;
  DayFlags flags;
  double tissue_min_c = 0;
};

/// The hours of a union from grafting on, for charts that show them; one value an hour in each.
struct SinceHours {
  Hour start{};
  std::vector<double> air_c;     ///< In the open.
  std::vector<double> tissue_c;  ///< Mean over members; of a bud whose side is not known, over all sides.
  std::vector<double> water, water_low, water_high;  ///< Median, 10 % and 90 % at the hour's end.
  std::vector<double> healing;                       ///< Median at the hour's end.
};

/// Degree-days since grafting by one way of counting them.
struct DegreeDayCount {
  DegreeDayRule rule;
  double degree_days = 0;  ///< [degC d]
};

/// The weeks of the year in which a species is grafted, as of some day.
struct GraftWindow {
  bool open = false;
  LocalDay closes{};  ///< Last day of the window that is open, or of the next one.
  LocalDay opens{};   ///< First day of the next window that is not open yet; of the one in force where it is.
};

/// What the owner pays, against the worth of one graft that takes: site.json's `costs`, else section
/// "regraft" of models/union.json.
struct OwnersCosts {
  double stock_week = 0, look = 0, graft = 0;
};

/// What each choice is worth, with one graft that takes as the unit.
struct WaitOrRegraft {
  double value_wait = 0;
  std::optional<double> value_look;  ///< Absent where no look is allowed.
  double value_regraft = 0;          ///< Now, and whether or not it lives.
  double shows_lost = 0;             ///< Chance that a look today would show it lost.
  double new_take = 0;               ///< Chance of a graft made tomorrow in its place ...
  std::optional<double> new_days;    ///< ... and the days until it drinks (median).
  int season_left_days = 0;          ///< 0 while the window is shut.
  LocalDay window_closes{}, window_opens{}, shows_by{};
  OwnersCosts costs;
  bool look_pays() const { return value_look && *value_look > value_wait; }
};

enum class Verdict : std::uint8_t { wait, check, regraft };
/// The code in JSON: `wait`, `check`, `re-graft`.
std::string_view verdict_name(Verdict verdict);

/// How to look whether it lives.
enum class WayToLook : std::uint8_t {
  under_wrap,            ///< A bud: plump or brown. It is never scratched.
  scratch,               ///< A stick: green or brown under the bark, once.
  scratch_in_week_three  ///< Likewise, and not yet.
};

/// What a verdict rests on: `re-graft` for the first two kinds, `check` for the next two, then `wait`.
struct NotedDead {
  GraftWindow season;
};
struct Shrivelled {
  int shrivelled = 0, open = 0;
  GraftWindow season;
};
struct LookIsOverdue {
  WayToLook way = WayToLook::scratch;
};
struct LookPays {
  double shows_lost = 0;  ///< Chance that it is lost and would show it.
  WayToLook way = WayToLook::scratch;
};
struct NotedTaken {
  int taken = 0, of = 0;
};
/// Removed: nothing is left to wait for.
struct TakenAway {};
struct BudsHaveMoved {};
struct ScratchedGreen {
  LocalDay day{};
};
struct LookedAtLately {};
struct NothingOverdue {};

using VerdictGround = std::variant<NothingOverdue, NotedDead, Shrivelled, LookIsOverdue, LookPays, NotedTaken,
                                   TakenAway, BudsHaveMoved, ScratchedGreen, LookedAtLately>;
Verdict verdict_of(const VerdictGround& ground);

struct GraftSince : GraftCard {
  double age_days = 0;
  double degree_days = 0;  ///< By `rule` [degC d].
  DegreeDayRule rule;
  double healing = 0;  ///< 1: bridged.
  Stage stage = Stage::fresh;
  bool bagged = false;  ///< Under a cover that holds vapour, so that vent_bag_from has a meaning.
  DateBand bridged_on, drinking_from, vent_bag_from, slit_wrap_from, buds_expected;
  double alive = 1;          ///< Chance that the weather so far has spared it.
  double still_to_take = 1;  ///< Chance that it will drink, plain failure included.
  bool overdue = false;
  std::optional<WaitOrRegraft> worth;  ///< Absent where none is open.
  VerdictGround ground;
  std::vector<CareTask> aftercare;     ///< Those still to come, and those that notes say are done.
  std::vector<DegreeDayCount> counts;  ///< By every way of counting that was asked for; the first is `rule`.
  std::vector<SinceDay> days;
  std::optional<SinceHours> hours;  ///< Where they were asked for.

  Verdict verdict() const { return verdict_of(ground); }
};

enum class AttemptOutcome : std::uint8_t { taken, lost, open, removed, part };
/// The code in JSON: `taken`, `lost`, `open`, `removed`, or `part` where a batch is none wholly.
std::string_view attempt_outcome_name(AttemptOutcome outcome);

/// One attempt on a tree, and what became of it.
struct Attempt : GraftCard {
  std::string position;               ///< On the tree.
  std::string replaces, replaced_by;  ///< Ids; empty: none.
  int taken = 0, dead = 0, open = 0, removed = 0;
  AttemptOutcome outcome = AttemptOutcome::open;
};

/// One tree: every graft that was tried on it.
struct StockHistory {
  std::string name;
  std::vector<Attempt> attempts;  ///< By date, then as in the ledger.
};

/// Scion wood that is left in store, and until when it is worth using.
struct WoodInStore {
  std::string id, scion, species;
  std::string stored;  ///< The way of storing, as in wood.csv.
  LocalDay cut_on{};
  std::optional<int> count;
  std::optional<double> water;     ///< Share of the full store today; absent where its species is not known.
  std::optional<LocalDay> use_by;  ///< Last day on which it is as good as fresh for callus.
  std::optional<WoodLimit> limit;  ///< What ends it.
};

struct SinceReport {
  std::vector<GraftSince> grafts;
  std::optional<StockHistory> stock;  ///< Where one tree was asked for.
  std::vector<WoodInStore> wood;      ///< What is left of it.
  std::vector<Notice> notices;
};

}  // namespace graftcast
