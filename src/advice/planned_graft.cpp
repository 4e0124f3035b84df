#include "planned_graft.hpp"

#include <algorithm>
#include <array>
#include <iterator>
#include <span>

#include "ensemble/graft_run.hpp"

namespace graftcast {

namespace {

constexpr std::size_t span_days = 15;

GraftRow row_of(const WhenAsk& ask, LocalDay day) {
  GraftRow row;
  row.id = "planned";
  row.grafted_on = day;
  row.species = ask.species;
  row.method = ask.method;
  row.wrap = ask.wrap;
  row.cover = ask.cover;
  row.spot = ask.spot;
  row.shade = ask.shade;
  row.pot_litres = ask.pot_litres;
  return row;
}

/// A graft made on one morning, followed until it drinks or the run ends.
class PlannedGraft {
 public:
  PlannedGraft(const Season& season, const WhenAsk& ask, LocalDay day)
      : season_(season), day_(day), run_(season, planned_case(season, ask, day), GraftRun::Start::when_made) {
    const Instant last = season.clock.begin_of(day + std::chrono::days(when_follow_days));
    for (const DaySpan& span : season.days)
      if (span.begin > run_.begin() && season.hour(span.begin) <= last) marks_.push_back(span.begin);
  }

  WhenDay followed() {
    run_until_all_drink();
    const std::size_t members = at_.front().members();
    weights_.assign(members, 1.0 / static_cast<double>(members));
    WhenDay told;
    told.day = day_;
    told.source = source();
    put_take(told);
    told.bridge_days = median_days(run_.stages().bridged_from);
    put_limits(told);
    return told;
  }

 private:
  static GraftCase planned_case(const Season& season, const WhenAsk& ask, LocalDay day) {
    return graft_case(row_of(ask, day), {}, season.site, season.clock, season.models,
                      season.clock.begin_of(day + std::chrono::days(1)));
  }

  /// What comes after the last member drinks changes nothing, so the run goes on by spans and ends there.
  void run_until_all_drink() {
    UnionStates states = run_.fresh();
    std::size_t from = run_.begin();
    for (std::size_t done = 0; done < marks_.size() && !all_drink();) {
      const std::size_t next = std::min(marks_.size(), done + span_days);
      const std::span marks(marks_.begin() + static_cast<std::ptrdiff_t>(done), next - done);
      std::vector<UnionStates> at;
      run_.run(run_.as_it_is(), from, marks.back(), states, marks, at);
      std::ranges::move(at, std::back_inserter(at_));
      from = marks.back();
      done = next;
    }
    marks_.resize(at_.size());
  }

  bool all_drink() const { return !at_.empty() && (at_.back().healing >= run_.stages().drinking_from).all(); }

  void put_take(WhenDay& told) {
    const double hand = run_.graft().take_share();
    const UntilDrinking until = until_drinking(run_.limits(), at_, run_.stages().drinking_from);
    std::vector<double> takes;
    for (std::size_t i = 0; i < weights_.size(); ++i) {
      ends_.push_back(std::min(until.first[i], at_.size() - 1));
      slow_ += until.first[i] == at_.size() ? weights_[i] : 0;
      takes.push_back(hand * until.survival[i]);
      told.take += weights_[i] * takes.back();
    }
    told.low = weighted_quantile(takes, weights_, 0.1);
    told.high = weighted_quantile(takes, weights_, 0.9);
  }

  std::optional<double> median_days(double healing) const {
    std::vector<double> firsts;
    for (std::size_t i = 0; i < weights_.size(); ++i)
      firsts.push_back(static_cast<double>(first_healed(at_, i, healing)));
    const auto mark = static_cast<std::size_t>(weighted_quantile(firsts, weights_, 0.5));
    if (mark >= marks_.size()) return std::nullopt;
    return static_cast<double>(marks_[mark] - run_.begin()) / 24;
  }

  double mean_survival(std::size_t mark) const {
    double mean = 0;
    for (std::size_t i = 0; i < weights_.size(); ++i)
      mean += weights_[i] * survival_parts(run_.limits(), at_[std::min(mark, ends_[i])], i).all();
    return mean;
  }

  void put_limits(WhenDay& told) const {
    const double worth_naming = season_.models.urgency.watch_p;
    SurvivalParts lost{0, 0, 0, 0};
    for (std::size_t i = 0; i < weights_.size(); ++i) {
      const SurvivalParts parts = survival_parts(run_.limits(), at_[ends_[i]], i);
      lost.water += weights_[i] * (1 - parts.water);
      lost.heat += weights_[i] * (1 - parts.heat);
      lost.cold += weights_[i] * (1 - parts.cold);
      lost.stores += weights_[i] * (1 - parts.stores);
    }
    const std::array<std::pair<double, Cause>, 5> losses{{{lost.water, Cause::drying},
                                                          {lost.heat, Cause::heat},
                                                          {lost.cold, Cause::cold},
                                                          {lost.stores, Cause::spent_stores},
                                                          {slow_ > 0.5 ? slow_ : 0, Cause::slow_callus}}};
    const auto most = std::ranges::max_element(losses, {}, &std::pair<double, Cause>::first);
    if (most->first >= worth_naming) told.limiting = most->second;
    double before = 1, most_taken = worth_naming;
    for (std::size_t mark = 0; mark < marks_.size(); ++mark) {
      const double then = mean_survival(mark);
      if (before - then > most_taken) {
        most_taken = before - then;
        told.worst_day = season_.clock.day_of(season_.hour(marks_[mark] - 1));
      }
      before = then;
    }
  }

  StandIn source() const {
    const std::size_t end = std::min(season_.hours(), run_.begin() + 24 * first_week_days);
    StandIn weakest = StandIn::none;
    for (std::size_t hour = run_.begin(); hour < end; ++hour)
      weakest = std::max(weakest, season_.outlook.stand_in[hour]);
    return weakest;
  }

  const Season& season_;
  LocalDay day_;
  GraftRun run_;
  std::vector<std::size_t> marks_;
  std::vector<UnionStates> at_;
  std::vector<double> weights_;
  std::vector<std::size_t> ends_;  // Of each member, the mark at which it drinks, or the last.
  double slow_ = 0;                // Share of members that do not drink within the run.
};

}  // namespace

WhenDay planned_graft(const Season& season, const WhenAsk& ask, LocalDay day) {
  return PlannedGraft(season, ask, day).followed();
}

WhenCandidate usual_way(const Models& models, const WhenAsk& ask) {
  WhenCandidate usual;
  usual.graft = ask;
  const Method& method = models.method_named(ask.method);
  const bool evergreen = models.species_named(ask.species).growth != LeafHabit::deciduous;
  std::string& cover = usual.graft.cover;
  if (cover.empty()) cover = evergreen ? method.usual_cover_evergreen : method.usual_cover;
  if (usual.graft.wrap.empty()) usual.graft.wrap = method.usual_wrap;
  usual.needs_slip = method.needs_slip;
  return usual;
}

WhenCandidate covered_way(const Site& site, const WhenCandidate& usual, const WhenAsk& ask) {
  WhenCandidate covered = usual;
  covered.is_covered = true;
  covered.graft.cover = "paper-over-bag";
  covered.graft.shade = std::max(ask.shade, site.shade_cloth_share);
  return covered;
}

}  // namespace graftcast
