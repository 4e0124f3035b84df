#pragma once
// What is odd about the hours of one source, though each value is possible. Nothing is changed.

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/daily_to_hourly.hpp"
#include "weather/reading.hpp"
#include "weather/resample.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// One check on the weather: those of the readers, of single hours and days, and of `check_quality`.
struct QualityCheck {
  std::string_view kind;   ///< As in QualityNote.
  std::string_view about;  ///< What it finds, in a few words; marked with `tr_later`.
  bool is_impossible;      ///< True: what it finds is not used. False: it is told only.
};
/// All checks in the order in which they are shown.
std::span<const QualityCheck> quality_checks();

/// Checks the measured hours of `hours` (not those filled) and gives a note, with count and examples, for
/// each finding, by these kinds:
/// - `spike`: an hour departs from both its neighbours, by more than 8 K, or 1.5 kPa.
/// - `stuck-sensor`: the same value for a day (humidity below 98 %, wind above 0; calm for four days;
///   pressure for two days; radiation above 0 for five hours). Hours filled between equal readings count.
/// - `night-sunshine`: more than 10 W/m2 with the sun down the hour before, in it and after.
/// - `no-radiation-day`: a local day without any radiation though the sun would give 5 MJ/m2.
/// - `dew-above-air`: a dew point more than 0.5 K above the air beside a humidity, which is taken.
/// - `radiation-late`, `radiation-early`: 0.4 h or more behind or ahead of the sun, with more light than can
/// be
///   about sunset or sunrise on most bright days: stamps of the wrong end of the hour, or a clock an hour
///   off.
/// `latest` of a note is the end of the latest hour concerned. The thresholds are common practice in station
/// networks, no published source. The checks against the sun look at the last 800 days.
std::vector<QualityNote> check_quality(const QuantityHours& hours, const std::string& source,
                                       const Location& location, const Clock& clock);

/// The same for the days of a daily log, rising:
/// - `spike`: a day departs from both its neighbours, by more than 25 K (extremes) or 5 kPa (mean).
/// - `stuck-sensor`: the same value day upon day: extremes of temperature and mean pressure for 20 days;
///   humidity below 98 %, wind above 0 and rain above 0 for 10; radiation above 0 for 5.
/// Temperature: Durre et al. 2010, J. Appl. Meteorol. Climatol. 49, 1615; others: common practice, no
/// published source.
std::vector<QualityNote> check_quality(std::span<const DayReading> days, const std::string& source,
                                       const Clock& clock);

/// Of `findings` those that spoil this morning's answer: a sensor stuck within the three days before
/// `measured_until`, and radiation out of step with the sun within thirty days before.
std::vector<QualityNote> serious_findings(const std::vector<QualityNote>& findings,
                                          std::optional<Instant> measured_until);

}  // namespace graftcast
