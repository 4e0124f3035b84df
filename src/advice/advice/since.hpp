#pragma once
// Degree-days, healing and release dates since grafting.

#include <optional>
#include <string>
#include <vector>

#include "advice/aftercare.hpp"
#include "advice/date_band.hpp"
#include "advice/stock_history.hpp"
#include "advice/wait_or_regraft.hpp"
#include "advice/wood_in_store.hpp"
#include "ensemble/season.hpp"
#include "graftcast/degree_days.hpp"
#include "plant/stage.hpp"

namespace graftcast {

struct SinceDay {
  LocalDay day{};
  bool ahead = false;  ///< From the outlook, not from the log.
  double degree_days = 0, cumulative = 0;
  double healing = 0, healing_low = 0, healing_high = 0;  ///< Median, 10 % and 90 % at the day's end.
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
  double degree_days = 0;
};

struct GraftSince {
  std::string id, scion, species, method, spot;
  int count = 1;
  LocalDay grafted_on{};
  double age_days = 0;
  double degree_days = 0;
  DegreeDayRule rule;
  std::string method_word, cutoff_word;
  double healing = 0;
  Stage stage = Stage::fresh;
  bool bagged = false;  ///< Under a cover that holds vapour, so that vent_bag_from has a meaning.
  DateBand bridged_on, drinking_from, vent_bag_from, slit_wrap_from, buds_expected;
  double alive = 1;          ///< Chance that the weather so far has spared it.
  double still_to_take = 1;  ///< Chance that it will drink, plain failure included.
  bool overdue = false;
  std::optional<WaitOrRegraft> worth;  ///< Absent where none is open.
  std::string verdict;                 ///< `wait`, `check`, `re-graft`
  std::string verdict_text;            ///< What would settle it.
  std::vector<CareTask> aftercare;     ///< Those still to come, and those that notes say are done.
  std::vector<DegreeDayCount> counts;  ///< By every way of counting that was asked for; the first is `rule`.
  std::vector<SinceDay> days;
  std::optional<SinceHours> hours;  ///< Where they were asked for.
};

struct SinceReport {
  std::vector<GraftSince> grafts;
  std::optional<StockHistory> stock;  ///< Where one tree was asked for.
  std::vector<WoodInStore> wood;      ///< What is left of it.
  std::vector<std::string> warnings;
  std::vector<std::string> cautions;
};

/// What to count degree-days by; absent members take the site's, then the species'. `also` are further ways
/// of counting, to be shown beside it. With `hours_to` each graft has its hours up to the end of that local
/// day.
SinceReport since(const Season& season, const std::vector<GraftRecord>& grafts,
                  const DegreeDaySettings& asked, int threads,
                  const std::vector<DegreeDaySettings>& also = {},
                  const std::optional<LocalDay>& hours_to = {});

/// The rule for a species at this site.
DegreeDayRule degree_day_rule(const Species& species, const DegreeDaySettings& site,
                              const DegreeDaySettings& asked);

}  // namespace graftcast
