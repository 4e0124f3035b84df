#include "graftcast/since.hpp"

#include <algorithm>
#include <array>

#include "degree_day_sum.hpp"
#include "graftcast/graft_run.hpp"
#include "parallel.hpp"
#include "release_dates.hpp"
#include "season_warnings.hpp"

namespace graftcast {

namespace {

double member_value(const UnionStates& states, std::size_t member, Pack UnionState<Pack>::*field) {
  return (states[member / pack_size].*field)[static_cast<Eigen::Index>(member % pack_size)];
}

/// One graft since grafting, step by step.
class SinceGrafting {
 public:
  SinceGrafting(const Season& season, const GraftRecord& record, const DegreeDaySettings& asked)
      : season_(season),
        row_(record.row),
        run_(season, graft_case(record.row, record.lines, season.site, season.clock, season.models,
                                season.settings.as_of)) {
    s_.rule = degree_day_rule(*run_.graft().species, season.site.degree_days, asked);
  }

  GraftSince described() {
    describe_row();
    run_through();
    describe_days();
    describe_dates();
    judge();
    return std::move(s_);
  }

 private:
  void describe_row() {
    s_.id = row_.id;
    s_.scion = row_.scion;
    s_.species = row_.species;
    s_.method = row_.method;
    s_.spot = run_.graft().settings.back().spot;
    s_.count = row_.count;
    s_.grafted_on = row_.grafted_on;
    s_.age_days = std::max(
        0.0, std::chrono::duration<double>(season_.settings.as_of - run_.graft().grafted).count() / 86400.0);
    s_.method_word = degree_day_method_word(s_.rule.method);
    s_.cutoff_word = cutoff_word(s_.rule.cutoff);
    s_.degree_days = degree_days_between(season_, run_.begin(), season_.now(), s_.rule);
  }

  void run_through() {
    course_.marks.push_back(run_.begin());
    for (const DaySpan& day : season_.days) {
      if (day.begin > run_.begin()) course_.marks.push_back(day.begin);
    }
    if (course_.marks.back() < season_.hours()) course_.marks.push_back(season_.hours());
    std::vector<UnionStates> none;
    now_ = run_.to_now({}, none);
    UnionStates states = fresh_states_now();
    run_.run(run_.as_it_is(), run_.begin(), season_.hours(), states, course_.marks, course_.states);
    course_.weights = now_.alive_weights;
    for (std::size_t i = 0; i < course_.weights.size(); ++i) course_.weights[i] *= now_.survival[i];
  }

  UnionStates fresh_states_now() const {
    return UnionStates(static_cast<std::size_t>(season_.quantiles.packs()),
                       fresh_union<Pack>(run_.graft().first_water));
  }

  void describe_days() {
    double cumulated = 0;
    for (std::size_t k = 0; k + 1 < course_.marks.size(); ++k) {
      const DaySpan span{season_.clock.day_of(season_.hour(course_.marks[k])), course_.marks[k],
                         course_.marks[k + 1]};
      const UnionDay lived =
          run_.day(run_.as_it_is(), span, course_.states[k], course_.states[k + 1], now_.weights);
      SinceDay day;
      day.day = span.day;
      day.ahead = span.begin >= season_.now();
      day.degree_days = degree_days_between(season_, span.begin, span.end, s_.rule);
      day.cumulative = cumulated += day.degree_days;
      day.tissue_max_c = lived.tissue_max_c;
      day.air_max_c = lived.air_max_c;
      day.flags = day_flags(lived, season_.models);
      put_bands(course_.states[k + 1], day);
      s_.days.push_back(std::move(day));
    }
  }

  void put_bands(const UnionStates& states, SinceDay& day) const {
    const auto healing = members_of(states, &UnionState<Pack>::healing);
    const auto water = members_of(states, &UnionState<Pack>::water);
    const auto at = [&](const std::vector<double>& values, double p) {
      return weighted_quantile(values, now_.weights, p);
    };
    day.healing = at(healing, 0.5);
    day.healing_low = at(healing, 0.1);
    day.healing_high = at(healing, 0.9);
    day.water = at(water, 0.5);
    day.water_low = at(water, 0.1);
    day.water_high = at(water, 0.9);
  }

  DateBand when(double healing) const {
    return band([&, healing](const UnionStates& states, std::size_t member) {
      return member_value(states, member, &UnionState<Pack>::healing) >= healing;
    });
  }

  DateBand band(const std::function<bool(const UnionStates&, std::size_t)>& reached) const {
    return date_band(season_, course_, first_marks(course_, reached));
  }

  void describe_dates() {
    const Entry& healing = season_.models.shared.at("healing");
    s_.healing = weighted_mean(now_.states, now_.weights, &UnionState<Pack>::healing);
    s_.stage = stage_of(run_.stages(), s_.healing);
    s_.bridged_on = when(run_.stages().bridged_from);
    s_.drinking_from = when(run_.stages().drinking_from);
    s_.bagged = season_.models.covers.at(run_.graft().settings.back().cover).value("closed") > 0;
    if (s_.bagged) s_.vent_bag_from = s_.drinking_from;
    s_.slit_wrap_from = not_before(when(run_.stages().drinking_from * healing.value("slit_wrap_factor")),
                                   s_.grafted_on + std::chrono::days(static_cast<int>(
                                                       run_.graft().method->number("wrap_slit_days").low)));
    s_.buds_expected = band([](const UnionStates& states, std::size_t member) {
      return member_value(states, member, &UnionState<Pack>::bud_clock) >= 1;
    });
  }

  static DateBand not_before(DateBand dates, LocalDay earliest) {
    for (auto* date : {&dates.median, &dates.p10, &dates.p90}) {
      if (*date) *date = std::max(**date, earliest);
    }
    return dates;
  }

  bool seen(std::initializer_list<std::string_view> events) const {
    return std::any_of(run_.graft().observations.begin(), run_.graft().observations.end(),
                       [&](const Observation& o) {
                         return std::find(events.begin(), events.end(), o.event) != events.end();
                       });
  }

  void judge() {
    s_.alive = 0;
    double drinks = 0;
    for (std::size_t i = 0; i < now_.weights.size(); ++i) {
      s_.alive += now_.alive_weights[i] * now_.survival[i];
      const auto first =
          std::find_if(course_.states.begin(), course_.states.end(), [&](const UnionStates& states) {
            return member_value(states, i, &UnionState<Pack>::healing) >= run_.stages().drinking_from;
          });
      const UnionStates& then = first == course_.states.end() ? course_.states.back() : *first;
      drinks +=
          now_.alive_weights[i] * std::min(now_.survival[i], survival_parts(run_.limits(), then, i).all());
    }
    s_.still_to_take = drinks * run_.graft().take_share();
    const LocalDay today = season_.clock.day_of(season_.settings.as_of);
    const bool moved = seen({"buds-moving", "leafed-out", "taken"});
    s_.overdue = !moved && s_.buds_expected.p90 && today > *s_.buds_expected.p90;
    give_verdict();
  }

  void give_verdict() {
    // Never by date alone: only what was seen settles it.
    if (seen({"dead"}) && run_.graft().open_count() == 0) {
      s_.verdict = "re-graft";
      s_.verdict_text = "noted dead; the stock is free for another graft";
    } else if (seen({"shrivelled"})) {
      s_.verdict = "re-graft";
      s_.verdict_text = "a shrivelled scion does not come back";
    } else if (s_.overdue) {
      s_.verdict = "check";
      s_.verdict_text = run_.graft().organ == Organ::bud ? "look under the wrap: a plump bud waits, a brown "
                                                           "or shrivelled one is lost; never scratch a bud"
                        : s_.age_days < 21
                            ? "wait for week three, then scratch the bark once, away from the buds"
                            : "scratch the bark once, away from the buds: green waits, brown is lost";
    } else {
      s_.verdict = "wait";
      s_.verdict_text = "nothing is overdue";
    }
  }

  const Season& season_;
  const GraftRow& row_;
  GraftRun run_;
  UnionCourse course_;
  UnionNow now_;
  GraftSince s_;
};

}  // namespace

SinceReport since(const Season& season, const std::vector<GraftRecord>& grafts,
                  const DegreeDaySettings& asked, int threads) {
  SinceReport report;
  report.grafts.resize(grafts.size());
  for_each_parallel(grafts.size(), threads, [&](std::size_t i) {
    report.grafts[i] = SinceGrafting(season, grafts[i], asked).described();
  });
  report.warnings = season_warnings(season);
  return report;
}

}  // namespace graftcast
