#include "report/answer_warnings.hpp"

#include <fmt/format.h>

#include "text/tr.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

std::string unknown_words(const WeatherUnknown& unknown, const std::string& from, const std::string& to) {
  switch (unknown.filled_by) {
    case StandIn::neighbouring_days:
      return tr("weather is not known from {from} to {to}: the same hours of the nearest known day stand in",
                "from"_a = from, "to"_a = to);
    case StandIn::past_years:
      return tr("weather is not known from {from} to {to}: the site's past years at that date stand in",
                "from"_a = from, "to"_a = to);
    case StandIn::monthly_climate:
      return tr(
          "weather is not known from {from} to {to}: days made up from the log's monthly means and spreads "
          "stand in",
          "from"_a = from, "to"_a = to);
    default:
      return tr(
          "weather is not known from {from} to {to}: the last known week is taken again, with growing errors",
          "from"_a = from, "to"_a = to);
  }
}

/// A sentence of one notice.
struct NoticeWords {
  const Clock& clock;

  std::string operator()(const WeatherUnknown& unknown) const {
    return unknown_words(unknown, dated_moment_words(clock, unknown.from),
                         dated_moment_words(clock, unknown.to));
  }
  std::string operator()(const MonthsBorrowed& borrowed) const {
    std::vector<std::string> months;
    for (const std::chrono::month month : borrowed.months) months.push_back(full_month_word(month));
    return tr("the log has too few days of {months}: days of the months beside stand in",
              "months"_a = fmt::to_string(fmt::join(months, ", ")));
  }
};

}  // namespace

std::vector<std::string> notice_warnings(const std::vector<Notice>& notices, const Clock& clock) {
  std::vector<std::string> warnings;
  for (const Notice& notice : notices) warnings.push_back(std::visit(NoticeWords{clock}, notice));
  return warnings;
}

std::vector<std::string> season_warnings(const SeasonReport& report, const Clock& clock) {
  std::vector<std::string> warnings;
  if (report.years.empty()) {
    warnings.push_back(
        tr("no season of the log is known for half of its hours: the weeks are of days made up from its "
           "monthly means and spreads"));
  } else if (report.years.size() == 1) {
    warnings.push_back(tr("the weeks rest on one season alone: another year may differ"));
  } else if (report.years.size() == 2) {
    warnings.push_back(tr("the weeks rest on two seasons alone: another year may differ"));
  }
  for (std::string& warning : notice_warnings(report.notices, clock)) warnings.push_back(std::move(warning));
  if (report.unknown_weeks > 0) {
    const auto weeks = static_cast<long>(report.unknown_weeks);
    warnings.push_back(trn("{weeks} weeks are left out, for the log knows nothing of what follows them",
                           "{weeks} weeks are left out, for the log knows nothing of what follows them",
                           weeks, "weeks"_a = weeks));
  }
  return warnings;
}

}  // namespace graftcast
