#include "advice/since.hpp"

#include <algorithm>
#include <iterator>
#include <span>

#include "card_of.hpp"
#include "care_of_graft.hpp"
#include "degree_day_sum.hpp"
#include "ensemble/graft_run.hpp"
#include "grafts_by_exposure.hpp"
#include "hours_of_union.hpp"
#include "lived_union.hpp"
#include "parallel.hpp"
#include "plant/cover_parts.hpp"
#include "release_dates.hpp"
#include "season_notices.hpp"
#include "verdict.hpp"

namespace graftcast {

namespace {

/// One graft since grafting, step by step.
class SinceGrafting {
 public:
  SinceGrafting(const Season& season, const GraftRecord& record, GraftRun& run,
                const DegreeDaySettings& asked, const std::vector<DegreeDaySettings>& also,
                const std::optional<LocalDay>& hours_to)
      : season_(season), row_(record.row), lines_(record.lines), run_(run), hours_to_(hours_to) {
    s_.rule = degree_day_rule(*run_.graft().species, season.site.degree_days, asked);
    s_.counts.push_back({s_.rule, 0});
    for (const DegreeDaySettings& other : also)
      s_.counts.push_back({degree_day_rule(*run_.graft().species, season.site.degree_days, other), 0});
  }

  GraftSince described() {
    describe_row();
    run_through();
    describe_days();
    describe_dates();
    judge();
    list_work();
    return std::move(s_);
  }

  /// After `described`.
  LivedUnion lived() {
    LivedUnion lived;
    for (std::size_t k = 0; k < course_.marks.size(); ++k) {
      if (k > 0 && course_.marks[k] >= season_.now()) break;
      lived.past.marks.push_back(course_.marks[k]);
      lived.past.states.push_back(std::move(course_.states[k]));
    }
    if (season_.now() > run_.begin()) {
      lived.past.marks.push_back(season_.now());
      lived.past.states.push_back(now_.states);
    }
    lived.now = std::move(now_);
    return lived;
  }

 private:
  void describe_row() {
    static_cast<GraftCard&>(s_) = card_of(row_);
    s_.spot = run_.graft().settings.back().spot;
    s_.age_days = std::max(
        0.0, std::chrono::duration<double>(season_.settings.as_of - run_.graft().grafted).count() / 86400.0);
    for (DegreeDayCount& count : s_.counts)
      count.degree_days = degree_days_between(season_, run_.begin(), season_.now(), count.rule);
    s_.degree_days = s_.counts.front().degree_days;
  }

  void run_through() {
    course_.marks.push_back(run_.begin());
    for (const DaySpan& day : season_.days) {
      if (day.begin > run_.begin()) course_.marks.push_back(day.begin);
    }
    if (course_.marks.back() < season_.hours()) course_.marks.push_back(season_.hours());
    follow(hours_to_ ? hour_after(season_, *hours_to_) : run_.begin());
    course_.weights = now_.alive_weights;
    for (std::size_t i = 0; i < course_.weights.size(); ++i) course_.weights[i] *= now_.survival[i];
  }

  /// One life from grafting to the end of the outlook, looked at where a day begins and at every hour before
  /// `hourly_to`.
  void follow(std::size_t hourly_to) {
    const std::vector<std::size_t> looks = hours_and_marks(run_.begin(), hourly_to, course_.marks);
    const auto ahead = std::ranges::upper_bound(looks, season_.now());
    std::vector<UnionStates> states, states_ahead;
    now_ = run_.to_now({looks.begin(), ahead}, states);
    UnionStates last = now_.states;
    run_.run(run_.as_it_is(), season_.now(), season_.hours(), last, {ahead, looks.end()}, states_ahead);
    std::ranges::move(states_ahead, std::back_inserter(states));
    if (hourly_to > run_.begin())
      s_.hours = hours_of_union(run_, now_.weights, std::span(states).first(hourly_to - run_.begin() + 1));
    for (const std::size_t mark : course_.marks)
      course_.states.push_back(
          std::move(states[static_cast<std::size_t>(std::ranges::lower_bound(looks, mark) - looks.begin())]));
  }

  void describe_days() {
    double cumulated = 0;
    for (std::size_t k = 0; k + 1 < course_.marks.size(); ++k) {
      const DaySpan span{season_.clock.day_of(season_.hour(course_.marks[k])), course_.marks[k],
                         course_.marks[k + 1]};
      const UnionDay lived =
          run_.day(run_.as_it_is(), span, course_.states[k], course_.states[k + 1], now_.weights);
      if (span.end > season_.now() && span.begin < season_.horizon()) coming_.push_back(lived);
      SinceDay day;
      day.day = span.day;
      day.ahead = span.begin >= season_.now();
      day.degree_days = degree_days_between(season_, span.begin, span.end, s_.rule);
      day.cumulative = cumulated += day.degree_days;
      day.tissue_max_c = lived.tissue_max_c;
      day.tissue_min_c = lived.tissue_min_c;
      day.air_max_c = lived.air_max_c;
      day.flags = day_flags(lived, season_.models);
      put_bands(course_.states[k + 1], day);
      s_.days.push_back(std::move(day));
    }
  }

  void put_bands(const UnionStates& states, SinceDay& day) const {
    const auto at = [&](const Eigen::ArrayXd& values, double p) {
      return weighted_quantile({values.data(), now_.weights.size()}, now_.weights, p);
    };
    day.healing = at(states.healing, 0.5);
    day.healing_low = at(states.healing, 0.1);
    day.healing_high = at(states.healing, 0.9);
    day.water = at(states.water, 0.5);
    day.water_low = at(states.water, 0.1);
    day.water_high = at(states.water, 0.9);
  }

  void describe_dates() {
    s_.healing = weighted_mean(now_.states.healing, now_.weights);
    s_.stage = stage_of(run_.stages(), s_.healing);
    s_.bridged_on = healing_band(season_, course_, run_.stages().bridged_from);
    s_.drinking_from = healing_band(season_, course_, run_.stages().drinking_from);
    s_.bagged = is_bag(run_.graft().settings.back().cover, season_.models);
    if (s_.bagged) s_.vent_bag_from = s_.drinking_from;
    s_.slit_wrap_from = slit_wrap_band(run_, course_, s_.grafted_on);
    s_.buds_expected = bud_band(season_, course_);
  }

  void judge() {
    const GraftCase& graft = run_.graft();
    const bool all_dead = graft.open_count() == 0 && graft.taken == 0 && graft.lost > 0;
    s_.alive = all_dead ? 0 : now_.alive();
    const SignsOfLife signs = signs_of_life(run_);
    const Workmanship work = workmanship(run_, signs, s_.age_days);
    s_.still_to_take = std::min(s_.alive, chance_to_drink() * work.hand);
    give_verdict(run_, row_, signs, work, s_);
  }

  /// Chance that the weather lets it live until it drinks.
  double chance_to_drink() const {
    const UntilDrinking until = until_drinking(run_.limits(), course_.states, run_.stages().drinking_from);
    double drinks = 0;
    for (std::size_t i = 0; i < now_.weights.size(); ++i)
      drinks += now_.alive_weights[i] * std::min(now_.survival[i], until.survival[i]);
    return drinks;
  }

  void list_work() { s_.aftercare = care_tasks(run_, row_, lines_, now_, course_, coming_, season_.hours()); }

  const Season& season_;
  const GraftRow& row_;
  const std::vector<DiaryLine>& lines_;
  GraftRun& run_;
  const std::optional<LocalDay>& hours_to_;
  UnionCourse course_;
  std::vector<UnionDay> coming_;
  UnionNow now_;
  GraftSince s_;
};

}  // namespace

GraftSince since_of_graft(const Season& season, const GraftRecord& record, GraftRun& run,
                          const DegreeDaySettings& asked, const std::vector<DegreeDaySettings>& also,
                          const std::optional<LocalDay>& hours_to, LivedUnion* lived) {
  SinceGrafting grafting(season, record, run, asked, also, hours_to);
  GraftSince described = grafting.described();
  if (lived != nullptr) *lived = grafting.lived();
  return described;
}

SinceReport since(const Season& season, const std::vector<GraftRecord>& grafts,
                  const DegreeDaySettings& asked, int threads, const std::vector<DegreeDaySettings>& also,
                  const std::optional<LocalDay>& hours_to) {
  SinceReport report;
  report.grafts.resize(grafts.size());
  const std::vector<std::size_t> order = grafts_by_exposure(grafts);
  for_each_parallel(grafts.size(), threads, [&](std::size_t k) {
    const std::size_t i = order[k];
    GraftRun run(season, graft_case(grafts[i].row, grafts[i].lines, season.site, season.clock, season.models,
                                    season.settings.as_of));
    report.grafts[i] = since_of_graft(season, grafts[i], run, asked, also, hours_to);
  });
  report.notices = season_notices(season);
  return report;
}

}  // namespace graftcast
