#include "advice/when_season.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "ensemble/season_courses.hpp"
#include "graftcast/degree_days.hpp"
#include "graftcast/error.hpp"
#include "parallel.hpp"
#include "planned_graft.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr int season_days = 366, days_a_week = 7, middle_of_week = 3;
// Weeks that share one stretch of weather: the climates of a whole year at once would take much memory.
constexpr std::size_t weeks_a_block = 13;

Hour hour_of(Instant when) {
  return std::chrono::floor<std::chrono::hours>(when);
}

LocalDay next_midwinter(LocalDay midwinter) {
  const std::chrono::year_month_day date{midwinter};
  return LocalDay(date + std::chrono::years(1));
}

/// Hour of a course by which the bark of `species` slips; its end where it never does.
Eigen::Index bark_slips_at(const WeatherArrays& course, const Species& species) {
  const DegreeDayRule rule{DegreeDayMethod::hourly, Cutoff::none, species.bark_slip_base_c, 100};
  const double needed = species.bark_slip_degree_days;
  double sum = 0;
  for (Eigen::Index hour = 0; hour < course.air_c.cols(); ++hour) {
    sum += development_rate_c(course.air_c(0, hour), rule) / 24;
    if (sum >= needed) return hour;
  }
  return course.air_c.cols();
}

/// What `season_to_graft` works out, step by step.
class SeasonTrial {
 public:
  SeasonTrial(const Site& site, const Clock& clock, const Models& models, const HourlyWeather& weather,
              const SeasonSettings& settings, int threads)
      : site_(site),
        clock_(clock),
        models_(models),
        settings_(settings),
        threads_(threads),
        midwinter_(midwinter_before(clock.day_of(settings.as_of), site.location.latitude_deg)),
        courses_(courses_of(weather)) {}

  SeasonReport tried(const std::vector<WhenAsk>& asked) {
    report_.name = season_name(midwinter_);
    report_.midwinter = midwinter_;
    for (const long offset : courses_.offsets_h)
      report_.years.push_back(season_name(clock_.day_of(courses_.begin() + std::chrono::hours(offset + 12))));
    for (const WhenAsk& ask : asked) report_.answers.push_back(started(ask));
    const std::vector<LocalDay> weeks = weeks_known();
    for (SeasonAnswer& answer : report_.answers) put_weeks(answer, weeks);
    for (std::size_t first = 0; first < weeks.size(); first += weeks_a_block)
      try_block(first, std::min(weeks.size(), first + weeks_a_block));
    for (SeasonAnswer& answer : report_.answers) judge(answer);
    std::ranges::stable_sort(report_.answers, {}, [](const SeasonAnswer& answer) { return -most(answer); });
    if (!courses_.borrowed_months.empty())
      report_.notices.emplace_back(MonthsBorrowed{courses_.borrowed_months});
    return std::move(report_);
  }

 private:
  SeasonCourses courses_of(const HourlyWeather& weather) const {
    const Hour now = hour_of(settings_.as_of);
    const MonthlyClimate climate(weather, now, site_.location, models_.monthly_climate);
    const Hour end = hour_of(
        clock_.begin_of(midwinter_ + std::chrono::days(season_days + when_follow_days + days_a_week)));
    return season_courses(weather, climate, hour_of(clock_.begin_of(midwinter_)), end,
                          {now, models_.when.least_season_share, settings_.members, settings_.seed});
  }

  SeasonAnswer started(const WhenAsk& ask) const {
    SeasonAnswer answer;
    answer.usual = usual_way(models_, ask);
    if (ask.cover.empty()) answer.covered = covered_way(site_, answer.usual, ask);
    answer.usual_seasons =
        usual_seasons(models_.species_named(ask.species), midwinter_, site_.location.latitude_deg);
    return answer;
  }

  /// End of the weather that a graft of the week needs.
  Hour end_of(LocalDay first_day) const {
    return hour_of(clock_.begin_of(first_day + std::chrono::days(middle_of_week + when_follow_days + 1)));
  }

  std::vector<LocalDay> weeks_known() {
    std::vector<LocalDay> weeks;
    const LocalDay end = next_midwinter(midwinter_);
    for (LocalDay day = midwinter_; day + std::chrono::days(middle_of_week) < end;
         day += std::chrono::days(days_a_week)) {
      if (courses_.knows(hour_of(clock_.begin_of(day)), end_of(day))) {
        weeks.push_back(day);
      } else {
        ++report_.unknown_weeks;
      }
    }
    if (weeks.empty()) {
      throw RangeError(tr("the log knows too little of any season of the year"),
                       tr("bring in a longer log with 'graftcast weather add FILE'"));
    }
    return weeks;
  }

  void put_weeks(SeasonAnswer& answer, const std::vector<LocalDay>& weeks) const {
    std::vector<Eigen::Index> slips_at;
    if (answer.usual.needs_slip) {
      for (const WeatherArrays& course : courses_.courses)
        slips_at.push_back(bark_slips_at(course, models_.species_named(answer.usual.graft.species)));
    }
    for (const LocalDay day : weeks) {
      SeasonWeek week;
      week.first_day = day;
      const auto hour =
          (hour_of(clock_.begin_of(day + std::chrono::days(middle_of_week))) - courses_.begin()).count();
      const auto slipping = std::ranges::count_if(slips_at, [&](Eigen::Index at) { return at <= hour; });
      if (!slips_at.empty() && courses_.knows(courses_.begin(), hour_of(clock_.begin_of(day))))
        week.bark_slips = 2 * static_cast<std::size_t>(slipping) >= slips_at.size();
      answer.weeks.push_back(std::move(week));
    }
  }

  void try_block(std::size_t first, std::size_t last) {
    const LocalDay first_day = report_.answers.front().weeks[first].first_day;
    const LocalDay last_day = report_.answers.front().weeks[last - 1].first_day;
    SeasonSettings settings = settings_;
    settings.as_of = clock_.begin_of(first_day);
    // Most grafts drink within a month: the climate beyond is worked out only where one does not.
    settings.horizon_days = days_a_week * static_cast<int>(weeks_a_block) + 30;
    const Season season(site_, clock_, models_,
                        outlook_of(courses_, hour_of(settings.as_of), end_of(last_day)), settings);
    struct Try {
      const WhenAsk* ask;
      LocalDay day;
      WhenDay* told;
    };
    std::vector<Try> tries;
    for (SeasonAnswer& answer : report_.answers) {
      for (std::size_t k = first; k < last; ++k) {
        SeasonWeek& week = answer.weeks[k];
        const LocalDay day = week.first_day + std::chrono::days(middle_of_week);
        tries.push_back({&answer.usual.graft, day, &week.usual});
        if (answer.covered) tries.push_back({&answer.covered->graft, day, &week.covered.emplace()});
      }
    }
    for_each_parallel(tries.size(), threads_, [&](std::size_t i) {
      *tries[i].told = planned_graft(season, *tries[i].ask, tries[i].day);
    });
  }

  static double most(const SeasonAnswer& answer) {
    double most = 0;
    for (const SeasonWeek& week : answer.weeks) most = std::max(most, week.best_take());
    return most;
  }

  void judge(SeasonAnswer& answer) const {
    const WhenConstants& rule = models_.when;
    const double good = rule.good_share * models_.method_named(answer.usual.graft.method).take_share;
    for (SeasonWeek& week : answer.weeks) {
      const bool tight = week.bark_slips == false;
      if (tight) week.usual.limiting = Cause::bark;
      if (tight && week.covered) week.covered->limiting = Cause::bark;
      week.verdict = tight                                        ? WhenVerdict::wait
                     : week.usual.take >= good                    ? WhenVerdict::graft
                     : week.covered && week.covered->take >= good ? WhenVerdict::graft_with_cover
                                                                  : WhenVerdict::wait;
    }
    answer.best = best_stretch(answer.weeks, rule.near_best_share * most(answer));
  }

  /// The longest run of weeks with at least `enough`; of equal runs the first.
  static std::optional<SeasonStretch> best_stretch(const std::vector<SeasonWeek>& weeks, double enough) {
    std::optional<SeasonStretch> best;
    std::optional<SeasonStretch> run;
    for (const SeasonWeek& week : weeks) {
      if (week.verdict == WhenVerdict::wait || week.best_take() < enough) {
        run.reset();
        continue;
      }
      if (!run || run->to + std::chrono::days(1) != week.first_day)
        run = SeasonStretch{week.first_day, {}, 0, 1, 0, false};
      run->to = week.first_day + std::chrono::days(days_a_week - 1);
      ++run->weeks;
      run->low = std::min(run->low, week.best_take());
      run->high = std::max(run->high, week.best_take());
      run->needs_cover = run->needs_cover || week.verdict == WhenVerdict::graft_with_cover;
      if (!best || run->weeks > best->weeks || run->from == best->from) best = run;
    }
    return best;
  }

  const Site& site_;
  const Clock& clock_;
  const Models& models_;
  const SeasonSettings& settings_;
  int threads_;
  LocalDay midwinter_;
  SeasonCourses courses_;
  SeasonReport report_;
};

}  // namespace

double SeasonWeek::best_take() const {
  if (bark_slips == false) return 0;
  return std::max(usual.take, covered ? covered->take : 0);
}

std::string season_name(LocalDay midwinter) {
  const int year = static_cast<int>(std::chrono::year_month_day{midwinter}.year());
  return fmt::format("{}/{:02}", year, (year + 1) % 100);
}

std::vector<UsualSeason> usual_seasons(const Species& species, LocalDay midwinter, double latitude_deg) {
  constexpr int days_a_year = 365, half_a_year = 183;
  const std::chrono::days shift(latitude_deg < 0 ? half_a_year : 0);
  std::vector<UsualSeason> seasons;
  for (const Species::Window& window : species.windows_north()) {
    const int from = static_cast<int>(window.start_doy);
    const int to = static_cast<int>(window.end_doy);
    const auto year = std::chrono::year_month_day{midwinter}.year();
    for (const int later : {-1, 0, 1}) {
      const LocalDay first = LocalDay((year + std::chrono::years(later)) / std::chrono::January / 1) +
                             std::chrono::days(from - 1) + shift;
      if (first < midwinter || first >= next_midwinter(midwinter)) continue;
      seasons.push_back({first, first + std::chrono::days((to - from + days_a_year) % days_a_year)});
    }
  }
  std::ranges::sort(seasons, {}, &UsualSeason::from);
  return seasons;
}

SeasonReport season_to_graft(const Site& site, const Clock& clock, const Models& models,
                             const HourlyWeather& weather, const SeasonSettings& settings,
                             const std::vector<WhenAsk>& asked, int threads) {
  return SeasonTrial(site, clock, models, weather, settings, threads).tried(asked);
}

}  // namespace graftcast
