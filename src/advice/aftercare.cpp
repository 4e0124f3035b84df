#include "advice/aftercare.hpp"

#include <algorithm>

#include "advice/when.hpp"

namespace graftcast {

namespace {

constexpr std::chrono::days half_a_year{182};
constexpr std::chrono::days a_year{365};

DateBand single_day(std::optional<LocalDay> day) {
  return {day, day, day};
}

DateBand shifted(DateBand band, std::chrono::days by) {
  for (auto* day : {&band.median, &band.p10, &band.p90})
    if (*day) **day += by;
  return band;
}

/// The tasks of one graft, one after another.
class CareOfGraft {
 public:
  explicit CareOfGraft(const CareInput& in) : in_(in), numbers_(in.models.aftercare) {}

  std::vector<CareTask> listed() {
    if (in_.graft.open_count() == 0 && in_.graft.taken == 0) return {};
    rub_suckers();
    harden_off();
    slit_wrap();
    remove_wrap();
    head_back();
    stake();
    thin();
    const auto given_up = days(numbers_.given_up_days);
    std::erase_if(tasks_, [&](const CareTask& task) {
      return !task.done && (!task.is_open() || (task.due.median && *task.due.median + given_up < in_.today));
    });
    return std::move(tasks_);
  }

 private:
  static std::chrono::days days(double number) { return std::chrono::days(static_cast<int>(number)); }
  bool is_bud() const { return in_.graft.organ == Organ::bud; }
  bool is_evergreen() const { return in_.graft.species->growth != LeafHabit::deciduous; }
  bool stays_rooted() const { return in_.graft.method->scion_stays_rooted; }

  /// The last day on which any of `events` was noted.
  std::optional<LocalDay> noted(std::initializer_list<Event> events) const {
    std::optional<LocalDay> last;
    for (const DiaryLine& line : in_.lines)
      if (std::ranges::find(events, line.event) != events.end()) last = in_.clock.day_of(line.when);
    return last;
  }

  /// The same where no later note undoes it.
  std::optional<LocalDay> standing(std::initializer_list<Event> events) const {
    const DiaryLine* line = last_standing(in_.lines, events);
    return line == nullptr ? std::nullopt : std::optional(in_.clock.day_of(line->when));
  }

  CareTask& add(CareWork work, const DateBand& due, std::optional<LocalDay> done) {
    CareTask& task = tasks_.emplace_back();
    task.id = in_.row.id;
    task.work = work;
    task.due = due;
    task.done = done;
    return task;
  }

  CareTask& add_once(CareWork work, const DateBand& due, std::optional<LocalDay> done) {
    return add(work, done ? DateBand{} : due, done);
  }

  void rub_suckers() {
    if (!in_.dates.stock_pushes.median) return;
    const LocalDay first =
        std::max(in_.row.grafted_on + days(numbers_.suckers_from_days), *in_.dates.stock_pushes.median);
    const auto done = noted({Event::suckers_rubbed});
    const auto every = days(numbers_.suckers_every_days);
    LocalDay next = done ? std::max(first, *done + every) : first;
    // Who missed some rounds owes the latest.
    if (next < in_.today) next += (in_.today - next) / every * every;
    if (std::max(next, in_.today) > in_.row.grafted_on + days(numbers_.suckers_last_days)) return;
    CareTask& task = add(CareWork::rub_suckers, single_day(next), done);
    task.at_bud = is_bud();
    task.every_days = static_cast<int>(every.count());
  }

  void harden_off() {
    for (const HardeningStep& step : in_.hardening) {
      CareTask& task = add(step.work, single_day(step.day), {});
      task.put_off_days = step.put_off_days;
      task.put_off_for = step.put_off_for;
    }
    add_done(CareWork::open_corner, Event::bag_vented);
    add_done(CareWork::take_bag_off, Event::bag_off);
  }

  void add_done(CareWork work, Event event) {
    const bool planned = std::ranges::find(tasks_, work, &CareTask::work) != tasks_.end();
    if (const auto done = noted({event}); done && !planned) add(work, {}, done);
  }

  bool is_tied() const {
    return std::ranges::any_of(in_.graft.settings, [](const Setting& setting) {
      return setting.wrap == "film" || setting.wrap == "film-bud-out" || setting.wrap == "film-waxed-tip";
    });
  }

  void slit_wrap() {
    if (!is_tied()) return;
    add_once(CareWork::slit_wrap, in_.dates.slit_wrap, standing({Event::wrap_slit, Event::wrap_off})).at_bud =
        is_bud();
  }

  void remove_wrap() {
    if (!is_tied()) return;
    const auto slit = standing({Event::wrap_slit});
    add_once(CareWork::remove_wrap,
             shifted(slit ? single_day(slit) : in_.dates.slit_wrap, days(numbers_.remove_wrap_after_days)),
             standing({Event::wrap_off}));
  }

  /// A deciduous bud made in the later half of the year sleeps until spring.
  bool sleeps() const {
    return is_bud() && !is_evergreen() &&
           in_.row.grafted_on - midwinter_before(in_.row.grafted_on, in_.latitude_deg) > half_a_year;
  }

  void head_back() {
    if (in_.graft.method->stock_head != StockHead::full || stays_rooted()) return;
    if (is_bud() && is_evergreen()) {
      add_once(CareWork::lop, in_.dates.slit_wrap, noted({Event::headed_back, Event::lopped, Event::bent}));
      return;
    }
    CareTask& task =
        add_once(CareWork::head_back, sleeps() ? spring() : in_.dates.drinking, noted({Event::headed_back}));
    task.at_bud = is_bud();
    task.wakes_bud = sleeps();
  }

  DateBand spring() const {
    return single_day(midwinter_before(in_.row.grafted_on + a_year, in_.latitude_deg) +
                      days(numbers_.spring_heading_days));
  }

  void stake() {
    const auto& gusts = in_.dates.gusts;
    const DateBand& can_be_tied = in_.dates.shoot_to_tie;
    // Wind only hurries what there is something to tie for.
    const bool is_hurried = gusts && (!can_be_tied.median || *can_be_tied.median > gusts->day);
    const DateBand due =
        is_hurried ? single_day(std::max(in_.today, gusts->day - std::chrono::days(1))) : can_be_tied;
    CareTask& task = add_once(CareWork::stake, due, noted({Event::staked}));
    if (is_hurried) task.gusts = gusts;
  }

  void thin() {
    if (is_bud() || in_.graft.buds < 2) return;
    add_once(CareWork::thin, in_.dates.shoots_to_thin, noted({Event::thinned}));
  }

  const CareInput& in_;
  const AftercareConstants& numbers_;
  std::vector<CareTask> tasks_;
};

bool is_same_work(const CareTask& one, const CareTask& other) {
  return one.work == other.work && one.at_bud == other.at_bud;
}

}  // namespace

std::vector<CareTask> aftercare(const CareInput& input) {
  std::vector<CareTask> tasks = CareOfGraft(input).listed();
  const auto day_of = [](const CareTask& task) {
    return task.due.median.value_or(task.due.p10.value_or(LocalDay::max()));
  };
  std::ranges::stable_sort(tasks, {}, day_of);
  return tasks;
}

std::vector<DueTask> due_tasks(std::span<const CareTask> tasks, LocalDay today) {
  std::vector<DueTask> due;
  for (const CareTask& task : tasks) {
    if (!task.is_due(today)) continue;
    const auto same =
        std::ranges::find_if(due, [&](const DueTask& other) { return is_same_work(other.first, task); });
    DueTask& place = same != due.end() ? *same : due.emplace_back(DueTask{task, {}, *task.due.median});
    place.ids.push_back(task.id);
    place.due = std::min(place.due, *task.due.median);
  }
  std::ranges::stable_sort(due, {}, &DueTask::due);
  return due;
}

}  // namespace graftcast
