// What results teach: the fit against published and brute-force figures, and against sites whose truth is
// known because it was put in.

#include "advice/learn.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <iostream>
#include <random>

#include <fmt/format.h>

#include "model/synthetic_truth.hpp"
#include "outcome_rows.hpp"
#include "repetitions.hpp"

namespace graftcast::testing {
namespace {

// Gelman et al., Bayesian Data Analysis (3rd ed. 2013), section 3.7: the bioassay data (Racine et al. 1986)
// and its mode (0.8, 7.7) with standard errors 1.0 and 4.9 (recalled).
TEST(NewtonMode, FindsThePublishedModeOfABioassay) {
  const std::array<double, 4> dose{-0.86, -0.30, -0.05, 0.73}, deaths{0, 1, 3, 5};
  const NormalPosterior fit = newton_mode(
      [&](const Eigen::VectorXd& x) {
        PosteriorAt sum{0, Eigen::VectorXd::Zero(2), Eigen::MatrixXd::Identity(2, 2) * 1e-12};
        for (std::size_t i = 0; i < dose.size(); ++i) {
          const double p = 1 / (1 + std::exp(-x[0] - x[1] * dose[i]));
          const Eigen::Vector2d by(1, dose[i]);
          sum.log_density += deaths[i] * std::log(p) + (5 - deaths[i]) * std::log1p(-p);
          sum.gradient += (deaths[i] - 5 * p) * by;
          sum.information += 5 * p * (1 - p) * by * by.transpose();
        }
        return sum;
      },
      Eigen::VectorXd::Zero(2));
  EXPECT_TRUE(fit.converged);
  EXPECT_NEAR(fit.mean[0], 0.8, 0.06);
  EXPECT_NEAR(fit.mean[1], 7.7, 0.06);
  EXPECT_NEAR(std::sqrt(fit.covariance(0, 0)), 1.0, 0.06);
  EXPECT_NEAR(std::sqrt(fit.covariance(1, 1)), 4.9, 0.06);
}

ChanceSurface flat(double chance) {
  std::array<std::array<double, 3>, 3> all{};
  for (auto& row : all) row.fill(chance);
  return {all, 0.4, 0.7};
}

TEST(ChanceSurface, GoesThroughItsRunsAndKnowsItsSlopes) {
  const std::array<std::array<double, 3>, 3> chances{{{0.2, 0.1, 0.05}, {0.6, 0.4, 0.3}, {0.9, 0.8, 0.5}}};
  const ChanceSurface surface(chances, 0.4, 0.7);
  for (std::size_t i = 0; i < 3; ++i)
    for (std::size_t j = 0; j < 3; ++j)
      EXPECT_NEAR(surface.at(0.4 * (static_cast<double>(i) - 1), 0.7 * (static_cast<double>(j) - 1)).chance,
                  chances[i][j], 1e-12);
  constexpr double h = 1e-6;
  for (const auto& [pace, drying] : {std::pair{0.1, -0.2}, {-0.3, 0.5}, {0.35, 0.0}}) {
    const auto at = surface.at(pace, drying);
    EXPECT_NEAR(at.by_pace,
                (surface.at(pace + h, drying).chance - surface.at(pace - h, drying).chance) / (2 * h), 1e-7);
    EXPECT_NEAR(at.by_drying,
                (surface.at(pace, drying + h).chance - surface.at(pace, drying - h).chance) / (2 * h), 1e-7);
  }
  EXPECT_EQ(surface.at(5, 0).chance, surface.at(0.6, 0).chance);
}

constexpr ShiftPrior prior{{0.15, 0.25, 0.5}, {0.15, 0.25, 0.5}};

TEST(ShiftFit, OfOneSpeciesIsTheModeOnAFineGrid) {
  // Weather takes nothing and no shift of pace or drying shows, so only the failure of both groups moves.
  const std::vector<OutcomeRow> rows{{0, 0, 9, 11, 0, 0.8, flat(1 - 1e-4), flat(1 - 1e-4)}};
  const ShiftGroups groups{1, 1};
  const NormalPosterior fit = fit_shifts(rows, groups, prior, Eigen::VectorXd::Zero(groups.size()));
  double best = -1e300, best_shift = 0;
  for (double shift = -2; shift < 3; shift += 1e-4) {  // of both groups together: variance 2 * 0.25
    const double p = (1 - 1e-4) / (1 + 0.25 * std::exp(shift));
    const double log_density = 9 * std::log(p) + 11 * std::log(1 - p) - 0.5 * shift * shift / 0.5;
    if (log_density > best) best = log_density, best_shift = shift;
  }
  EXPECT_NEAR(fit.mean[2] + fit.mean[5], best_shift, 2e-3);
  EXPECT_NEAR(fit.mean[2], fit.mean[5], 1e-9);
  EXPECT_NEAR(fit.mean[0], 0, 1e-9);
  EXPECT_NEAR(std::sqrt(fit.covariance(0, 0)), 0.15, 1e-9);
}

/// Rows of a real spring, each with chances of its own.
struct SpringOfRows {
  std::unique_ptr<MadeSeason> made;
  std::vector<GraftRecord> grafts;
  OutcomeTable table;
};

SpringOfRows spring_of_rows(int rows) {
  SpringOfRows spring;
  SeasonSettings settings;
  const Hour begin = std::chrono::sys_days{std::chrono::year{2002} / 2 / 20};
  settings.as_of = std::chrono::sys_days{std::chrono::year{2002} / 9 / 1};
  settings.members = sanitized ? 16 : 32;
  settings.weather_spread = false;
  settings.outlook_days = settings.horizon_days = 1;
  spring.made = std::make_unique<MadeSeason>(davis_site(), davis_hours(), begin, settings);
  constexpr std::array species{"citrus", "avocado", "apple", "peach"};
  constexpr std::array methods{"cleft", "chip", "bark"};
  constexpr std::array covers{"none", "paper-over-bag", "none", "clear-bag"};
  constexpr std::array wraps{"film", "film-bud-out", "wax"};
  for (int i = 0; i < rows; ++i) {
    const auto n = static_cast<std::size_t>(i);
    GraftRow row =
        made_row(fmt::format("R{}", i),
                 std::chrono::local_days{std::chrono::year{2002} / 3 / 1} + std::chrono::days(i * 97 % 90),
                 species[n % 4], methods[n % 3], covers[n / 2 % 4], wraps[n / 3 % 3]);
    row.shade = i % 2 == 0 ? 0.5 : 0.0;
    row.count = 8;
    spring.grafts.push_back({row, {made_line(settings.as_of - std::chrono::hours(24), "taken", "8")}});
  }
  spring.table = outcome_table(spring.made->season, spring.grafts, 2);
  return spring;
}

class SyntheticSites {
 public:
  explicit SyntheticSites(const OutcomeTable& table) : rows_(table.rows), groups_(table.groups()) {}

  Eigen::VectorXd draw_truth(std::mt19937_64& random, double scale) const {
    Eigen::VectorXd truth(groups_.size());
    for (Eigen::Index i = 0; i < truth.size(); ++i)
      truth[i] = scale * std::array{0.15, 0.25, 0.5}[static_cast<std::size_t>(i % 3)] *
                 std::normal_distribution(0.0, 1.0)(random);
    return truth;
  }

  /// `outcomes` spread over the rows, in turn.
  void draw_outcomes(const Eigen::VectorXd& truth, int outcomes, std::mt19937_64& random) {
    for (OutcomeRow& row : rows_) row.taken = row.lost = row.alive = 0;
    for (int k = 0; k < outcomes; ++k) {
      OutcomeRow& row = rows_[static_cast<std::size_t>(k * 7) % rows_.size()];
      const bool takes = std::bernoulli_distribution(take_chance(row, groups_, truth))(random);
      ++(takes ? row.taken : row.lost);
    }
  }

  NormalPosterior fit() const {
    return fit_shifts(rows_, groups_, prior, Eigen::VectorXd::Zero(groups_.size()));
  }

  /// Brier score of rows held back, learned from the others, less that of the published numbers.
  double gain() const {
    const Eigen::VectorXd none = Eigen::VectorXd::Zero(groups_.size());
    double sum = 0, count = 0;
    const NormalPosterior all = fit();
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const OutcomeRow& row = rows_[i];
      if (row.taken + row.lost == 0) continue;
      const double learned = take_chance(row, groups_, fit_shifts(rows_, groups_, prior, all.mean, i).mean);
      const double plain = take_chance(row, groups_, none);
      const auto score = [&](double p) { return row.taken * (1 - p) * (1 - p) + row.lost * p * p; };
      sum += score(learned) - score(plain);
      count += row.taken + row.lost;
    }
    return sum / count;
  }

 private:
  std::vector<OutcomeRow> rows_;
  ShiftGroups groups_;
};

TEST(Learn, RecoversShiftsPutIntoSyntheticSitesWithinItsIntervals) {
  const SpringOfRows spring = spring_of_rows(sanitized ? 8 : 42);
  SyntheticSites sites(spring.table);
  std::mt19937_64 random(20);
  const int repeats = repetitions(200);
  int inside = 0, all = 0;
  double with_many = 0, without_truth = 0, with_few = 0, few_sd = 0;
  double found = 0, truths = 0, cross = 0, left_variance = 0, shifts = 0;
  for (int repeat = 0; repeat < repeats; ++repeat) {
    const Eigen::VectorXd truth = sites.draw_truth(random, 1);
    sites.draw_outcomes(truth, 300, random);
    const NormalPosterior fit = sites.fit();
    EXPECT_TRUE(fit.converged) << repeat;
    for (Eigen::Index i = 0; i < truth.size(); ++i) {
      inside += std::abs(fit.mean[i] - truth[i]) < 1.645 * std::sqrt(fit.covariance(i, i));
      ++all;
      if (i % 3 != 2) continue;
      found += fit.mean[i] * fit.mean[i];
      truths += truth[i] * truth[i];
      cross += fit.mean[i] * truth[i];
      left_variance += fit.covariance(i, i);
      ++shifts;
    }
    if (repeat % 4 == 0) with_many += sites.gain();
    sites.draw_outcomes(0 * truth, 300, random);
    if (repeat % 4 == 0) without_truth += sites.gain();
    sites.draw_outcomes(truth, 12, random);
    if (repeat % 4 == 0) with_few += sites.gain();
    const NormalPosterior few = sites.fit();
    for (Eigen::Index i = 2; i < truth.size(); i += 3) few_sd += std::sqrt(few.covariance(i, i)) / 0.5;
  }
  const double share = static_cast<double>(inside) / all;
  const int scored = (repeats + 3) / 4;
  few_sd /= repeats * static_cast<double>(spring.table.species.size() + spring.table.methods.size());
  const double correlation = cross / std::sqrt(found * truths);
  // What outcomes can tell of truths drawn from the prior (sd 0.5) is what they take off its variance.
  const double can_be_found = std::sqrt(1 - left_variance / shifts / (0.5 * 0.5));
  std::cout << fmt::format(
      "{} repeats: 90 % intervals hold {:.3f}; failure shifts found with correlation {:.2f} of {:.2f}; "
      "change of "
      "the Brier score held back: {:.4f} with shifts, {:.4f} without any, {:.4f} with 12 outcomes; sd left "
      "then "
      "{:.2f}\n",
      repeats, share, correlation, can_be_found, with_many / scored, without_truth / scored,
      with_few / scored, few_sd);
  if (sanitized) return;
  EXPECT_GE(share, 0.85);
  EXPECT_LE(share, 0.95);
  EXPECT_NEAR(correlation, can_be_found, 3.3 * (1 - can_be_found * can_be_found) / std::sqrt(shifts));
  EXPECT_GT(can_be_found, 0.45);  // 0.49 to 0.56 in the springs of this log, by how many the weather leaves.
  EXPECT_LT(with_many / scored, 0);
  EXPECT_LT(without_truth / scored, 0.005);
  EXPECT_LT(with_few / scored, 0.005);
  EXPECT_GT(few_sd, 0.85);
}

TEST(Learn, ItsSurfaceIsWhatTheModelGivesUnderShifts) {
  SpringOfRows spring = spring_of_rows(6);
  Models shifted = published_models();
  shifted.learned.species["citrus"].mean = {0.1, -0.2, 0};
  shifted.learned.methods["cleft"].mean = {0.05, 0.1, 0.4};
  const GraftRow& row = spring.grafts[0].row;
  const GraftCase graft =
      graft_case(row, {}, spring.made->site, spring.made->clock, shifted, spring.made->season.settings.as_of);
  EXPECT_DOUBLE_EQ(graft.shifts.pace, 0.15);
  EXPECT_DOUBLE_EQ(graft.shifts.drying, -0.1);
  EXPECT_LT(graft.take_share(), graft.method->take_share);
  for (const OutcomeRow& outcome : spring.table.rows) {
    // More drying never helps, a faster union never harms.
    EXPECT_GE(outcome.weather.at(0.2, 0).chance, outcome.weather.at(-0.2, 0).chance - 0.01);
    EXPECT_LE(outcome.weather.at(0, 0.3).chance, outcome.weather.at(0, -0.3).chance + 0.01);
  }
}

TEST(Learn, ChangesNothingFromFewOutcomesAndCountsNoOpenGraftAsTaken) {
  SpringOfRows spring = spring_of_rows(3);
  spring.grafts[0].lines = {
      made_line(spring.made->season.settings.as_of - std::chrono::hours(48), "taken", "5"),
      made_line(spring.made->season.settings.as_of - std::chrono::hours(40), "dead", "1")};
  spring.grafts[1].lines = {
      made_line(spring.made->season.settings.as_of - std::chrono::hours(48), "dead", "2")};
  spring.grafts[2].lines.clear();
  const LearnReport report =
      learn(spring.made->season, spring.grafts, {GroupBy::species, GroupBy::method}, 1);
  EXPECT_EQ(report.outcomes, 8);
  EXPECT_EQ(report.open, 2 + 6 + 8);
  EXPECT_EQ(report.batches, 2);
  EXPECT_FALSE(report.changed());
  ASSERT_FALSE(report.groups.empty());
  int taken = 0, lost = 0;
  for (const TakeGroup& group : report.groups) {
    if (group.by != GroupBy::species) continue;
    taken += group.taken;
    lost += group.lost;
    EXPECT_LE(group.interval.low, group.rate);
    EXPECT_GE(group.interval.high, group.rate);
    EXPECT_GE(group.through_weather, group.expected);
  }
  EXPECT_EQ(taken, 5);
  EXPECT_EQ(lost, 3);
}

TEST(Learn, IsTheSameOnAnyNumberOfThreads) {
  const SpringOfRows spring = spring_of_rows(6);
  const auto one = learn(spring.made->season, spring.grafts, {GroupBy::spot}, 1);
  const auto three = learn(spring.made->season, spring.grafts, {GroupBy::spot}, 3);
  EXPECT_EQ(one.held_back.brier, three.held_back.brier);
  EXPECT_EQ(one.learned.species.at("citrus").mean.pace, three.learned.species.at("citrus").mean.pace);
}

}  // namespace
}  // namespace graftcast::testing
