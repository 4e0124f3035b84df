#include "hardening.hpp"

#include <algorithm>
#include <utility>

#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

constexpr std::chrono::days one_day{1};

/// Steps of one graft, found day by day.
class Hardening {
 public:
  Hardening(const GraftRun& run, const UnionNow& now, std::span<const DiaryLine> lines, std::size_t end)
      : run_(run),
        season_(run.season()),
        numbers_(season_.models.aftercare),
        weights_(now.weights),
        end_(end),
        today_(season_.clock.day_of(season_.settings.as_of)),
        treatment_(run.as_it_is()),
        at_(now.states),
        at_hour_(season_.now()) {
    for (const DiaryLine& line : lines) count_note(line);
  }

  std::vector<HardeningStep> steps() {
    LocalDay from = today_;
    if (is_bagged()) {
      if (vented_ < 1 && !take(CareWork::open_corner, opened(), from)) return std::move(steps_);
      if (vented_ < 2 && !take(CareWork::open_half, opened(), from)) return std::move(steps_);
      if (!take(CareWork::take_bag_off, bare(), from)) return std::move(steps_);
      off_ = steps_.back().day;
    } else if (!off_ || *off_ + days(numbers_.keep_shade_days) < today_) {
      return {};
    }
    cover_again();
    from = std::max(today_, *off_ + days(numbers_.keep_shade_days));
    if (treatment_.settings.back().shade > first_shade()) take(CareWork::shade_off, unshaded(), from);
    return std::move(steps_);
  }

 private:
  static std::chrono::days days(double number) { return std::chrono::days(static_cast<int>(number)); }
  const Setting& stands() const { return run_.graft().settings.back(); }
  bool is_bagged() const { return is_bag(stands().cover, season_.models); }
  double first_shade() const { return run_.graft().settings.front().shade; }

  void count_note(const DiaryLine& line) {
    if (line.event == Event::bag_on) {
      vented_ = 0;
      off_.reset();
    }
    vented_ += line.event == Event::bag_vented ? 1 : 0;
    if (line.event == Event::bag_off) off_ = season_.clock.day_of(line.when);
  }

  Setting opened() const {
    Setting setting = treatment_.settings.back();
    setting.cover = cover_name({parts_of_cover(setting.cover, season_.models).bag, CoverParts::Over::vent});
    return setting;
  }
  Setting bare() const {
    Setting setting = treatment_.settings.back();
    setting.cover = "none";
    setting.shade = std::max(setting.shade, season_.site.shade_cloth_share);
    return setting;
  }
  Setting unshaded() const {
    Setting setting = treatment_.settings.back();
    setting.shade = first_shade();
    return setting;
  }

  std::size_t begin_of(LocalDay day) const {
    return std::max(season_.now(), season_.index_of(season_.clock.begin_of(day)));
  }

  void run_to(const Treatment& treatment, std::size_t hour, UnionStates& states, std::size_t& from) const {
    if (hour <= from) return;
    std::vector<UnionStates> none;
    run_.run(treatment, from, hour, states, {}, none);
    from = hour;
  }

  bool drinks() const { return weighted_mean(at_.healing, weights_) >= run_.stages().drinking_from; }

  /// Heat or drying where `day` or the next has that flag under `treatment`.
  std::optional<DayFlag> trouble(const Treatment& treatment, LocalDay day) const {
    UnionStates states = at_;
    std::size_t hour = at_hour_;
    for (const LocalDay tried : {day, day + one_day}) {
      const std::size_t begin = begin_of(tried), until = begin_of(tried + one_day);
      if (begin >= until) continue;
      run_to(treatment, begin, states, hour);
      const UnionStates before = states;
      run_to(treatment, until, states, hour);
      const DayFlags flags =
          day_flags(run_.day(treatment, {tried, begin, until}, before, states, weights_), season_.models);
      for (const DayFlag flag : {DayFlag::heat, DayFlag::drying})
        if (has(flags, flag)) return flag;
    }
    return std::nullopt;
  }

  Treatment with(Setting setting, LocalDay day) const {
    Treatment treatment = treatment_;
    setting.from = std::max(season_.hour(season_.now()), Hour(season_.hour(begin_of(day))));
    treatment.settings.push_back(std::move(setting));
    return treatment;
  }

  /// Puts the step on the first day from `from` on that allows it, and `from` to the first of the next step.
  bool take(CareWork work, const Setting& setting, LocalDay& from) {
    HardeningStep step{work, {}, 0, {}};
    const LocalDay last = today_ + days(numbers_.harden_search_days);
    for (LocalDay day = from;
         day <= last && begin_of(day + one_day + one_day) <= end_ && begin_of(day) < end_; day += one_day) {
      run_to(treatment_, begin_of(day), at_, at_hour_);
      if (!drinks()) continue;
      Treatment tried = with(setting, day);
      const auto held = trouble(tried, day);
      if (!held) {
        step.day = day;
        treatment_ = std::move(tried);
        steps_.push_back(std::move(step));
        from = day + days(numbers_.vent_step_days);
        return true;
      }
      if (step.put_off_days++ == 0) step.put_off_for = held;
    }
    return false;
  }

  /// The first day of the week in the open air that is too much for it even under its shade.
  void cover_again() {
    const LocalDay until = *off_ + days(numbers_.keep_shade_days);
    for (LocalDay day = std::max(today_, *off_ + one_day); day < until && begin_of(day + one_day) < end_;
         day += one_day) {
      run_to(treatment_, begin_of(day), at_, at_hour_);
      const auto held = trouble(treatment_, day);
      if (!held) continue;
      steps_.push_back({CareWork::cover_again, day, 0, held});
      return;
    }
  }

  const GraftRun& run_;
  const Season& season_;
  const AftercareConstants& numbers_;
  std::span<const double> weights_;
  std::size_t end_;
  LocalDay today_;
  Treatment treatment_;
  UnionStates at_;  // Under `treatment_` at hour `at_hour_`.
  std::size_t at_hour_;
  int vented_ = 0;  // Notes of a vented bag since it was put on.
  std::optional<LocalDay> off_;
  std::vector<HardeningStep> steps_;
};

}  // namespace

std::vector<HardeningStep> hardening_steps(const GraftRun& run, const UnionNow& now,
                                           std::span<const DiaryLine> lines, std::size_t end) {
  return Hardening(run, now, lines, end).steps();
}

}  // namespace graftcast
