// The weather at hand and how fresh it is.

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

std::string measured_words(const ReportBasis& basis) {
  const auto& until = basis.weather.measured_until;
  if (!until) return tr("no weather measured");
  const std::string moment = moment_words(*basis.clock, *until, basis.as_of);
  const auto age = basis.as_of - *until;
  if (age < std::chrono::hours(1)) return tr("measured until {moment}", "moment"_a = moment);
  return tr("measured until {moment} ({age} old)", "moment"_a = moment, "age"_a = duration_words(age));
}

std::string forecast_words(const ReportBasis& basis) {
  const auto& until = basis.weather.forecast_until;
  if (!until || *until <= basis.as_of) return tr("no forecast");
  return tr("forecast until {moment}", "moment"_a = moment_words(*basis.clock, *until, basis.as_of));
}

/// What stands in for weather ahead that nobody gave.
std::string ahead_words(const BasisGap& gap) {
  switch (gap.stand_in) {
    case StandIn::past_years:
      return tr("the site's own past years at this date");
    case StandIn::monthly_climate:
      return tr("days made up from the log's monthly climate");
    case StandIn::last_week:
      return tr("the last known week again");
    case StandIn::neighbouring_days:
      return tr("the nearest days known");
    default:
      return printable(gap.bridged_by);
  }
}

const BasisGap* gap_ahead(const ReportBasis& basis) {
  for (const BasisGap& gap : basis.weather.gaps)
    if (gap.to > basis.as_of && !gap.is_open()) return &gap;
  return nullptr;
}

}  // namespace

std::string freshness(const ReportBasis& basis) {
  const std::string measured = measured_words(basis);
  const std::string forecast = forecast_words(basis);
  const BasisGap* gap = gap_ahead(basis);
  if (gap == nullptr) return tr("{measured}; {forecast}.", "measured"_a = measured, "forecast"_a = forecast);
  const std::string ahead = ahead_words(*gap);
  if (gap->from <= basis.as_of)
    return tr("{measured}; {forecast}; from now on: {ahead}.", "measured"_a = measured,
              "forecast"_a = forecast, "ahead"_a = ahead);
  return tr("{measured}; {forecast}; from {moment} on: {ahead}.", "measured"_a = measured,
            "forecast"_a = forecast, "moment"_a = moment_words(*basis.clock, gap->from, basis.as_of),
            "ahead"_a = ahead);
}

}  // namespace graftcast
