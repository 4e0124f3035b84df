#pragma once
// Everything the grafts of one site share in one answer: place, weather past and ahead, members, climates.

#include <cstdint>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <unordered_map>
#include <vector>

#include "ensemble/ensemble.hpp"
#include "ensemble/outlook.hpp"
#include "plant/graft_case.hpp"
#include "plant/stock_water.hpp"

namespace graftcast {

/// A ledger row with the diary lines that concern it.
struct GraftRecord {
  GraftRow row;
  std::vector<DiaryLine> lines;
  bool operator==(const GraftRecord&) const = default;
};

/// A local calendar day within a series of hours.
struct DaySpan {
  LocalDay day{};
  std::size_t begin = 0, end = 0;  ///< Hours of the series.
};

/// Local days that overlap [start, start + hours); the first and last may be cut.
std::vector<DaySpan> local_days(const Clock& clock, Hour start, std::size_t hours);

/// Climates of the distinct exposures, each worked out once and shared by all grafts under it. Thread-safe.
/// Where together they take more than `most_bytes`, those that nobody holds are let go, the longest unused
/// first; asked for again they are worked out again, to the same bits.
class SiteClimates {
 public:
  static constexpr std::size_t unlimited = static_cast<std::size_t>(-1);
  /// Of the ambient's hours [from, to).
  SiteClimates(const Ambient& ambient, std::size_t from, std::size_t to, const Models& models,
               std::size_t most_bytes = unlimited);
  std::shared_ptr<const ScionClimate> of(const Exposure& exposure);

 private:
  struct Slot {
    std::once_flag once;
    ScionClimate climate;
  };
  struct Held {
    std::shared_ptr<Slot> slot;
    std::list<std::string>::iterator turn;
    std::size_t bytes = 0;
  };
  std::shared_ptr<Slot> slot_of(const std::string& key);
  void count_and_let_go(const std::string& key, const std::shared_ptr<Slot>& slot);

  const Ambient& ambient_;
  std::size_t from_, to_;
  const Models& models_;
  std::size_t most_bytes_, bytes_ = 0;
  std::once_flag terms_once_;
  OpenAirTerms terms_;
  std::mutex mutex_;
  std::unordered_map<std::string, Held> held_;
  std::list<std::string> turns_;  ///< Keys, the longest unused first.
};

struct SeasonSettings {
  Instant as_of{};
  std::uint64_t seed = 1;
  int members = 64;
  int horizon_days = 7;   ///< Of the risk.
  int outlook_days = 21;  ///< How far ahead the run goes at all.
  bool weather_spread = true;
  bool monthly_climate = false;             ///< Stands in before the last week does, where the log knows it.
  std::vector<LeadSpread> own_errors = {};  ///< Of the site's past forecasts, see with_own_errors.
};

/// Shared input of all answers. Not copyable: parts refer to each other.
class Season {
 public:
  /// `earliest` is the first moment that any graft needs. Errors: RangeError where no weather is known at
  /// all.
  Season(const Site& site, const Clock& clock, const Models& models, const HourlyWeather& weather,
         Instant earliest, const SeasonSettings& settings, const WeatherCourses& courses = {});
  /// Of weather that is put together already; `settings.outlook_days` plays no part.
  Season(const Site& site, const Clock& clock, const Models& models, Outlook outlook,
         const SeasonSettings& settings);
  Season(const Season&) = delete;
  Season& operator=(const Season&) = delete;

  const Site& site;
  const Clock& clock;
  const Models& models;
  SeasonSettings settings;  ///< Set once, but for move_within_hour.
  const Outlook outlook;
  const MemberQuantiles quantiles;
  const Ambient past, ahead;  ///< One course; one a member.
  const UnionConstants constants;
  const std::vector<DaySpan> days;
  const std::vector<double> daylight;  ///< Per hour of the series.
  const std::vector<double> et0_mm;    ///< Per hour, mean over members.

  std::size_t now() const { return outlook.now; }
  /// Another moment within the same hour: the weather behind and ahead stays what it is. Error:
  /// RangeError beyond it.
  void move_within_hour(Instant as_of);
  std::size_t hours() const { return outlook.weather.size(); }
  Hour hour(std::size_t index) const { return outlook.weather.hour(index); }
  /// Index of the first full hour from `when` on, held within the series.
  std::size_t index_of(Instant when) const;
  /// First hour beyond the horizon of the risk.
  std::size_t horizon() const;
  const ScionClimate& past_climate(const Exposure& exposure) const { return *past_climates_->of(exposure); }
  /// From now to the horizon, and from there to the end of the outlook: actions need only the former.
  std::shared_ptr<const ScionClimate> near_climate(const Exposure& exposure) const {
    return near_climates_->of(exposure);
  }
  std::shared_ptr<const ScionClimate> far_climate(const Exposure& exposure) const {
    return far_climates_->of(exposure);
  }

 private:
  std::unique_ptr<SiteClimates> past_climates_, near_climates_, far_climates_;
};

}  // namespace graftcast
