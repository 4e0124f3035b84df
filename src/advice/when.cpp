#include "advice/when.hpp"

#include <algorithm>

#include "bark_slip.hpp"
#include "parallel.hpp"
#include "planned_graft.hpp"
#include "season_notices.hpp"

namespace graftcast {

namespace {

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
    if (season.index_of(season.clock.noon_of(today_)) < season.now()) mornings_.erase(mornings_.begin());
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
      candidate.days[day] = planned_graft(season_, candidate.graft, mornings_[day]);
    });
    for (WhenCandidate* candidate : candidates) finish(*candidate);
    for (WhenAnswer& answer : answers_) judge(answer);
    std::ranges::stable_sort(answers_, {}, [&](const WhenAnswer& answer) { return -best_this_week(answer); });
    return {std::move(answers_), season_notices(season_)};
  }

 private:
  WhenAnswer started(const WhenAsk& ask) const {
    WhenAnswer answer;
    answer.usual = usual_way(season_.models, ask);
    put_bark(answer.usual, season_.models.species_named(ask.species));
    if (ask.cover.empty()) answer.covered = covered_way(season_.site, answer.usual, ask);
    return answer;
  }

  void put_bark(WhenCandidate& candidate, const Species& species) const {
    if (!candidate.needs_slip) return;
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
        day.limiting = Cause::bark;
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
    const auto seen = bleeding_.find(answer.usual.graft.species);
    answer.ground = seen == bleeding_.end() ? ground_of(answer) : StockBleeds{seen->second};
  }

  WhenGround ground_of(const WhenAnswer& answer) const {
    const WhenConstants& rule = season_.models.when;
    const double possible = season_.models.method_named(answer.usual.graft.method).take_share;
    const double good = rule.good_share * possible;
    const double plain = best_within(answer.usual, first_week_days);
    const double covered = answer.covered ? best_within(*answer.covered, first_week_days) : 0;
    const double later = std::max(best_within(answer.usual, when_days),
                                  answer.covered ? best_within(*answer.covered, when_days) : 0);
    const double near_enough = rule.near_best_share * later;
    if (plain >= good && plain >= near_enough) return TakesThisWeek{plain};
    if (covered >= good && covered >= near_enough) return TakesUnderCover{covered, plain};
    return ground_to_wait(answer, std::max(plain, covered), later, good);
  }

  WhenGround ground_to_wait(const WhenAnswer& answer, double now, double later, double good) const {
    if (answer.usual.bark_slips_now == false && later <= 0) return BarkIsTight{};
    const WhenCandidate& better =
        answer.covered && best_within(*answer.covered, when_days) > best_within(answer.usual, when_days)
            ? *answer.covered
            : answer.usual;
    if (later >= good && better.best) return BetterLater{now, later, better.days[*better.best].day};
    return NoGoodDay{later};
  }

  const Season& season_;
  const std::map<std::string, bool>& slips_;
  const std::map<std::string, LocalDay>& bleeding_;
  LocalDay today_;
  std::vector<LocalDay> mornings_;
  std::vector<WhenAnswer> answers_;
};

}  // namespace

WhenVerdict verdict_of(const WhenGround& ground) {
  if (std::holds_alternative<TakesThisWeek>(ground)) return WhenVerdict::graft;
  return std::holds_alternative<TakesUnderCover>(ground) ? WhenVerdict::graft_with_cover : WhenVerdict::wait;
}

WhenReport when_to_graft(const Season& season, const std::vector<WhenAsk>& asked, int days,
                         const std::map<std::string, bool>& slips, int threads,
                         const std::map<std::string, LocalDay>& bleeding) {
  return Trial(season, days, slips, bleeding).tried(asked, threads);
}

}  // namespace graftcast
