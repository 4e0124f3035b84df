// Wait or graft again, on grafts whose lives are drawn from the model over real weather: to follow the
// verdict from week to week costs less than always to wait, and than to graft again at six weeks whatever has
// not moved.

#include <gtest/gtest.h>

#include <memory>
#include <numeric>
#include <random>

#include "advice/graft_window.hpp"
#include "advice/since.hpp"
#include "ensemble/distributions.hpp"
#include "model/synthetic_truth.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

constexpr int weeks_followed = 18;
constexpr int grafts_a_year = 24;
constexpr int shrivels_after_weeks = 4;  // a dead scion looks it only then
constexpr int six_weeks = 6;

/// One graft's true life, week by week from its making.
struct TrueLife {
  GraftRecord record;
  Instant made{};
  int dies_in_week = 1000;   ///< First weekly visit at which it is dead, though it need not look it.
  int moves_in_week = 1000;  ///< First weekly visit at which its buds are seen to move.
  bool moved(int week) const { return week >= moves_in_week && moves_in_week < dies_in_week; }
  bool dead(int week) const { return week >= dies_in_week; }
  bool looks_dead(int week) const { return week >= dies_in_week + shrivels_after_weeks; }
};

/// What a way of deciding paid, in grafts that take.
struct Bill {
  double looks = 0, regrafts = 0, idle = 0, not_taken = 0;
  double total() const { return looks + regrafts + idle + not_taken; }
};

const RegraftConstants& rule() {
  return published_models().regraft;
}

class SpringOfGrafts {
 public:
  explicit SpringOfGrafts(int year)
      : random_(static_cast<std::uint64_t>(year)),
        begin_(std::chrono::sys_days{std::chrono::year{year} / std::chrono::March / 1} +
               std::chrono::hours(14)),
        clock_("America/Los_Angeles") {
    const Hour end = begin_ + std::chrono::hours(24 * 7 * (weeks_followed + 8));
    SeasonSettings settings;
    settings.as_of = end;
    settings.members = true_members;
    settings.seed = 4000 + static_cast<std::uint64_t>(year);
    settings.outlook_days = settings.horizon_days = 1;
    settings.weather_spread = false;
    truth_ = std::make_unique<MadeSeason>(
        davis_site(), hours_between(davis_hours(), begin_, end + std::chrono::hours(24)), begin_, settings);
    for (int i = 0; i < grafts_a_year; ++i) lives_.push_back(drawn(i));
  }

  Bill waiting() const {
    Bill bill;
    for (const TrueLife& life : lives_) settle_at_the_end(life, bill);
    return bill;
  }

  Bill at_six_weeks() const {
    Bill bill;
    for (const TrueLife& life : lives_) {
      if (life.moved(six_weeks)) {
        settle_at_the_end(life, bill);
      } else {
        graft_again(life, six_weeks, bill);
      }
    }
    return bill;
  }

  Bill by_verdict() {
    Bill bill;
    std::vector<TrueLife> open = lives_;
    for (int week = 0; week < weeks_followed + 6 && !open.empty(); ++week) follow(week, open, bill);
    for (const TrueLife& life : open) settle_at_the_end(life, bill);
    return bill;
  }

 private:
  double real() { return std::uniform_real_distribution(0.0, 1.0)(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  LocalDay day_of(Instant when) const { return clock_.day_of(when); }
  static int week_of(const TrueLife& life, Instant when) {
    return static_cast<int>((when - life.made) / std::chrono::hours(24 * 7));
  }

  GraftRow row(int number, Instant made) {
    const std::array<std::pair<const char*, const char*>, 5> kinds{{{"apple", "cleft"},
                                                                    {"citrus", "chip"},
                                                                    {"citrus", "cleft"},
                                                                    {"peach", "chip"},
                                                                    {"avocado", "cleft"}}};
    const std::array<const char*, 3> wraps{"film", "film-bud-out", "wax"};
    const auto& [species, method] = kinds[static_cast<std::size_t>(whole(0, 4))];
    GraftRow row = made_row("G" + std::to_string(number), day_of(made), species, method, "none",
                            wraps[static_cast<std::size_t>(whole(0, 2))]);
    row.grafted_at = made;
    row.shade = 0.5;
    return row;
  }

  GraftRun true_run(const GraftRow& row) const {
    return {truth_->season, graft_case(row, {}, truth_->site, truth_->clock, published_models(),
                                       truth_->season.settings.as_of)};
  }

  /// Chance that a graft of that row made at `made` is spared by the weather that came, over its members.
  double spared(GraftRow row, Instant made) const {
    row.grafted_at = made;
    row.grafted_on = day_of(made);
    GraftRun run = true_run(row);
    const std::vector<std::size_t> marks{
        truth_->season.index_of(made + std::chrono::hours(24 * 7 * weeks_followed))};
    std::vector<UnionStates> at;
    run.to_now(marks, at);
    const std::vector<double> chances = survival(run.limits(), at.front());
    return std::accumulate(chances.begin(), chances.end(), 0.0) / static_cast<double>(chances.size());
  }

  TrueLife drawn(int number) {
    TrueLife life;
    life.made = begin_ + std::chrono::hours(24 * 7 * whole(0, 5));
    life.record.row = row(number, life.made);
    GraftRun run = true_run(life.record.row);
    std::vector<std::size_t> marks;
    for (int week = 0; week <= weeks_followed; ++week)
      marks.push_back(truth_->season.index_of(life.made + std::chrono::hours(24 * 7 * week)));
    std::vector<UnionStates> at;
    run.to_now(marks, at);
    const auto member = static_cast<std::size_t>(whole(0, true_members - 1));
    const HardLimits limits = drawn_limits(run.limits(), static_cast<std::uint64_t>(number), 77);
    const Method& method = *run.graft().method;
    const bool well_made = real() < method.take_share;
    // The hand's failures die one after another until the method's failed days.
    const double fails_on = method.failed_days * (0.3 + 0.7 * real());
    for (int week = weeks_followed; week >= 0; --week) {
      const UnionStates& then = at[static_cast<std::size_t>(week)];
      const bool fails = !well_made && 7 * week >= fails_on;
      if (!limits.stands(then, member) || fails) life.dies_in_week = week;
      const bool pushes = then.bud_clock[static_cast<Eigen::Index>(member)] >= 1;
      if (well_made && pushes) life.moves_in_week = week;
    }
    return life;
  }

  /// A graft made anew in `week` of this one's life, or when the season for it opens.
  void graft_again(const TrueLife& life, int week, Bill& bill) const {
    const LocalDay day = day_of(life.made + std::chrono::hours(24 * 7 * week));
    const Models& models = published_models();
    const GraftWindow window =
        graft_window(models.species.at(life.record.row.species), davis_site().location.latitude_deg, day);
    const double waits_weeks = window.open ? 0 : static_cast<double>((window.opens - day).count()) / 7;
    const double died_before = std::max(0, week - life.dies_in_week);
    bill.idle += rule().stock_week_cost * (died_before + waits_weeks);
    bill.regrafts += rule().graft_cost;
    // One that waits for the next season lives under weather like that of the first.
    const Instant anew = window.open ? life.made + std::chrono::hours(24 * 7 * week) : life.made;
    bill.not_taken +=
        1 - models.methods.at(life.record.row.method).take_share * spared(life.record.row, anew);
  }

  /// When the season is over everyone sees what lives, and grafts again what does not.
  void settle_at_the_end(const TrueLife& life, Bill& bill) const {
    if (life.dead(weeks_followed)) graft_again(life, weeks_followed, bill);
  }

  SinceReport verdicts(Instant now, const std::vector<TrueLife>& open) const {
    SeasonSettings settings;
    settings.as_of = now;
    settings.members = 16;
    settings.outlook_days = 45;
    const MadeSeason known(
        davis_site(),
        hours_between(davis_hours(), begin_,
                      std::chrono::floor<std::chrono::hours>(now) + std::chrono::hours(72)),
        begin_, settings);
    std::vector<GraftRecord> records;
    for (const TrueLife& life : open) records.push_back(life.record);
    return since(known.season, records, {}, 1);
  }

  /// A weekly visit: signs that are seen at a glance are noted, then the verdict is followed.
  void follow(int calendar_week, std::vector<TrueLife>& open, Bill& bill) {
    const Instant now = begin_ + std::chrono::hours(24 * 7 * calendar_week + 1);
    std::vector<TrueLife> visited, later;
    for (TrueLife& life : open) {
      const int week = week_of(life, now);
      const bool young = now < life.made || week < 3;
      if (!young && life.moved(week) && life.moves_in_week == week)
        life.record.lines.push_back(made_line(now, "buds-moving"));
      if (!young && life.looks_dead(week) && week <= weeks_followed)
        life.record.lines.push_back(made_line(now, "shrivelled"));
      (young || week > weeks_followed ? later : visited).push_back(life);
    }
    open = std::move(later);
    if (visited.empty()) return;
    const SinceReport report = verdicts(now, visited);
    for (std::size_t i = 0; i < visited.size(); ++i) {
      TrueLife& life = visited[i];
      const int week = week_of(life, now);
      Verdict verdict = report.grafts[i].verdict();
      if (verdict == Verdict::check) {
        bill.looks += rule().look_cost;
        life.record.lines.push_back(made_line(now, life.dead(week) ? "dead" : "green"));
        if (life.dead(week)) verdict = Verdict::regraft;
      }
      if (verdict == Verdict::regraft) {
        EXPECT_TRUE(life.dead(week)) << "a living graft was cut off";
        graft_again(life, week, bill);
      } else {
        open.push_back(life);
      }
    }
  }

  std::mt19937_64 random_;
  Hour begin_;
  Clock clock_;
  std::unique_ptr<MadeSeason> truth_;
  std::vector<TrueLife> lives_;
};

TEST(WaitOrRegraft, CostsLessThanAlwaysToWaitAndThanToGraftAgainAtSixWeeks) {
  double verdict = 0, waiting = 0, at_six_weeks = 0;
  Bill paid;
  for (const int year : sanitized ? std::vector{2002} : std::vector{2001, 2002, 2003}) {
    SpringOfGrafts spring(year);
    const Bill bill = spring.by_verdict();
    verdict += bill.total();
    paid.looks += bill.looks;
    waiting += spring.waiting().total();
    at_six_weeks += spring.at_six_weeks().total();
  }
  std::cout << "cost in grafts that take: by the verdict " << verdict << " (" << paid.looks
            << " of it for looking), always waiting " << waiting << ", again at six weeks " << at_six_weeks
            << '\n';
  EXPECT_LT(verdict, waiting);
  EXPECT_LT(verdict, at_six_weeks);
  EXPECT_GT(paid.looks, 0);
}

}  // namespace
}  // namespace graftcast::testing
