#include "graftcast/when.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "bark_slip.hpp"
#include "graftcast/graft_run.hpp"
#include "parallel.hpp"
#include "season_warnings.hpp"
#include "wording.hpp"

namespace graftcast {

namespace {

constexpr int first_week_days = 7;

double healing_of(const UnionStates& states, std::size_t member) {
  return states[member / pack_size].healing[static_cast<Eigen::Index>(member % pack_size)];
}

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
    UnionStates states = run_.fresh();
    run_.run(run_.as_it_is(), run_.begin(), marks_.back(), states, marks_, at_);
    weights_.assign(states.size() * pack_size, 1.0 / static_cast<double>(states.size() * pack_size));
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

  /// First mark at which a member's healing is at `healing`; the number of marks where none is.
  std::size_t first_at(std::size_t member, double healing) const {
    const auto found = std::ranges::find_if(
        at_, [&](const UnionStates& states) { return healing_of(states, member) >= healing; });
    return static_cast<std::size_t>(found - at_.begin());
  }

  void put_take(WhenDay& told) {
    const double hand = run_.graft().method->value("take_share");
    std::vector<double> takes;
    for (std::size_t i = 0; i < weights_.size(); ++i) {
      const std::size_t drinks = first_at(i, run_.stages().drinking_from);
      ends_.push_back(std::min(drinks, at_.size() - 1));
      slow_ += drinks == at_.size() ? weights_[i] : 0;
      takes.push_back(hand * survival_parts(run_.limits(), at_[ends_.back()], i).all());
      told.take += weights_[i] * takes.back();
    }
    told.low = weighted_quantile(takes, weights_, 0.1);
    told.high = weighted_quantile(takes, weights_, 0.9);
  }

  std::optional<double> median_days(double healing) const {
    std::vector<double> firsts;
    for (std::size_t i = 0; i < weights_.size(); ++i)
      firsts.push_back(static_cast<double>(first_at(i, healing)));
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
    const double worth_naming = season_.models.hazards.at("urgency").value("watch_p");
    SurvivalParts lost{0, 0, 0, 0};
    for (std::size_t i = 0; i < weights_.size(); ++i) {
      const SurvivalParts parts = survival_parts(run_.limits(), at_[ends_[i]], i);
      lost.water += weights_[i] * (1 - parts.water);
      lost.heat += weights_[i] * (1 - parts.heat);
      lost.cold += weights_[i] * (1 - parts.cold);
      lost.stores += weights_[i] * (1 - parts.stores);
    }
    const std::vector<std::pair<double, const char*>> losses{{lost.water, "drying"},
                                                             {lost.heat, "heat"},
                                                             {lost.cold, "cold"},
                                                             {lost.stores, "spent-stores"},
                                                             {slow_ > 0.5 ? slow_ : 0, "slow-callus"}};
    const auto most = std::ranges::max_element(losses, {}, &std::pair<double, const char*>::first);
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

  std::string source() const {
    const std::size_t end = std::min(season_.hours(), run_.begin() + 24 * first_week_days);
    StandIn weakest = StandIn::none;
    for (std::size_t hour = run_.begin(); hour < end; ++hour)
      weakest = std::max(weakest, season_.outlook.stand_in[hour]);
    return weakest == StandIn::none ? "forecast" : std::string(stand_in_name(weakest));
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

/// All candidates and their mornings, tried in parallel, then judged.
class Trial {
 public:
  Trial(const Season& season, int days, const std::map<std::string, bool>& slips,
        const std::map<std::string, LocalDay>& bleeding)
      : season_(season),
        slips_(slips),
        bleeding_(bleeding),
        today_(season.clock.day_of(season.settings.as_of)) {
    for (int k = 0; k < days; ++k) mornings_.push_back(today_ + std::chrono::days(k));
    // Today counts while the morning of grafting is still ahead.
    if (season.index_of(season.clock.begin_of(today_) + std::chrono::hours(12)) < season.now())
      mornings_.erase(mornings_.begin());
  }

  WhenReport tried(const std::vector<WhenAsk>& asked, int threads) {
    std::vector<WhenCandidate*> candidates;
    for (const WhenAsk& ask : asked) answers_.push_back(started(ask));
    for (WhenAnswer& answer : answers_) {
      candidates.push_back(&answer.usual);
      if (answer.covered) candidates.push_back(&*answer.covered);
    }
    for (WhenCandidate* candidate : candidates) candidate->days.resize(mornings_.size());
    for_each_parallel(candidates.size() * mornings_.size(), threads, [&](std::size_t i) {
      WhenCandidate& candidate = *candidates[i / mornings_.size()];
      const std::size_t day = i % mornings_.size();
      candidate.days[day] = PlannedGraft(season_, candidate.graft, mornings_[day]).followed();
    });
    for (WhenCandidate* candidate : candidates) finish(*candidate);
    for (WhenAnswer& answer : answers_) judge(answer);
    std::ranges::stable_sort(answers_, {}, [&](const WhenAnswer& answer) { return -best_this_week(answer); });
    return {std::move(answers_), season_warnings(season_)};
  }

 private:
  WhenAnswer started(const WhenAsk& ask) const {
    WhenAnswer answer;
    answer.usual.graft = ask;
    const Entry& method = season_.models.method_named(ask.method);
    const Entry& species = season_.models.species_named(ask.species);
    const bool evergreen = species.word("growth") != "deciduous";
    std::string& cover = answer.usual.graft.cover;
    if (cover.empty()) cover = method.word(evergreen ? "usual_cover_evergreen" : "usual_cover");
    if (answer.usual.graft.wrap.empty()) answer.usual.graft.wrap = method.word("usual_wrap");
    put_bark(answer.usual, method, species);
    if (!ask.cover.empty()) return answer;  // The asker has chosen.
    WhenCandidate covered = answer.usual;
    covered.is_covered = true;
    covered.graft.cover = "paper-over-bag";
    covered.graft.shade = std::max(ask.shade, season_.site.shade_cloth_share);
    answer.covered = std::move(covered);
    return answer;
  }

  void put_bark(WhenCandidate& candidate, const Entry& method, const Entry& species) const {
    if (method.word("needs_slip") != "yes") return;
    candidate.needs_slip = true;
    if (const auto noted = slips_.find(candidate.graft.species); noted != slips_.end()) {
      candidate.bark_slips_now = noted->second;
      if (noted->second) candidate.bark_slips_from = today_;
      return;
    }
    const auto from = bark_slips_from(season_, species);
    if (!from) return;
    candidate.bark_slips_now = *from <= season_.now();
    if (*from < season_.hours())
      candidate.bark_slips_from = std::max(today_, season_.clock.day_of(season_.hour(*from)));
  }

  static bool bark_allows(const WhenCandidate& candidate, LocalDay day) {
    if (!candidate.bark_slips_now) return true;  // Not needed, or not known: said elsewhere.
    return candidate.bark_slips_from && day >= *candidate.bark_slips_from;
  }

  static void finish(WhenCandidate& candidate) {
    for (std::size_t k = 0; k < candidate.days.size(); ++k) {
      WhenDay& day = candidate.days[k];
      if (!bark_allows(candidate, day.day)) {
        day.limiting = "bark";
        continue;
      }
      if (!candidate.best || day.take > candidate.days[*candidate.best].take + 0.005) candidate.best = k;
    }
  }

  double best_within(const WhenCandidate& candidate, int days) const {
    double best = 0;
    for (const WhenDay& day : candidate.days)
      if (day.day < today_ + std::chrono::days(days) && bark_allows(candidate, day.day))
        best = std::max(best, day.take);
    return best;
  }

  double best_this_week(const WhenAnswer& answer) const {
    return std::max(best_within(answer.usual, first_week_days),
                    answer.covered ? best_within(*answer.covered, first_week_days) : 0);
  }

  void judge(WhenAnswer& answer) const {
    const Entry& rule = season_.models.shared.at("when");
    const double possible = season_.models.method_named(answer.usual.graft.method).value("take_share");
    const double good = rule.value("good_share") * possible;
    const double plain = best_within(answer.usual, first_week_days);
    const double covered = answer.covered ? best_within(*answer.covered, first_week_days) : 0;
    const double later = std::max(best_within(answer.usual, when_days),
                                  answer.covered ? best_within(*answer.covered, when_days) : 0);
    const double near_enough = rule.value("near_best_share") * later;
    if (const auto seen = bleeding_.find(answer.usual.graft.species); seen != bleeding_.end()) {
      answer.verdict = "wait";
      answer.reason = fmt::format(
          "its stock was seen bleeding on {}: wait until the leaves are open, or relieve it "
          "with a drain cut below the graft",
          weekday_text(seen->second));
    } else if (plain >= good && plain >= near_enough) {
      answer.verdict = "graft";
      answer.reason = fmt::format("{:.0f} % take this week with the usual aftercare", 100 * plain);
    } else if (covered >= good && covered >= near_enough) {
      answer.verdict = "graft with cover";
      answer.reason = fmt::format("{:.0f} % take this week with paper over a bag and shade, {:.0f} % without",
                                  100 * covered, 100 * plain);
    } else {
      answer.verdict = "wait";
      answer.reason = reason_to_wait(answer, std::max(plain, covered), later, good);
    }
  }

  std::string reason_to_wait(const WhenAnswer& answer, double now, double later, double good) const {
    if (answer.usual.bark_slips_now == false && later <= 0) return "the bark does not slip yet";
    const WhenCandidate& better =
        answer.covered && best_within(*answer.covered, when_days) > best_within(answer.usual, when_days)
            ? *answer.covered
            : answer.usual;
    if (later >= good && better.best)
      return fmt::format("{:.0f} % take this week at best, {:.0f} % from {} on", 100 * now, 100 * later,
                         day_text(better.days[*better.best].day));
    return fmt::format("no day of the coming fortnight gives more than {:.0f} %", 100 * later);
  }

  const Season& season_;
  const std::map<std::string, bool>& slips_;
  const std::map<std::string, LocalDay>& bleeding_;
  LocalDay today_;
  std::vector<LocalDay> mornings_;
  std::vector<WhenAnswer> answers_;
};

}  // namespace

WhenReport when_to_graft(const Season& season, const std::vector<WhenAsk>& asked, int days,
                         const std::map<std::string, bool>& slips, int threads,
                         const std::map<std::string, LocalDay>& bleeding) {
  return Trial(season, days, slips, bleeding).tried(asked, threads);
}

}  // namespace graftcast
