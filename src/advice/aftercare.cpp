#include "advice/aftercare.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "advice/when.hpp"
#include "wording.hpp"

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

  /// A task to be done once.
  void add(std::string task, std::string text, const DateBand& due, std::string why,
           std::optional<LocalDay> done) {
    tasks_.push_back(
        {in_.row.id, std::move(task), std::move(text), done ? DateBand{} : due, std::move(why), done});
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
    tasks_.push_back(
        {in_.row.id, "rub-suckers",
         is_bud() ? "rub off the stock's own shoots below the bud" : "rub off the suckers below the union",
         single_day(next),
         fmt::format("what the stock pushes itself starves the scion, but a thick one keeps a nurse shoot; "
                     "every {} days",
                     every.count()),
         done});
  }

  void harden_off() {
    for (const HardeningStep& step : in_.hardening) {
      std::string why = step_reason(step.task);
      if (step.postponed_days > 0)
        why += fmt::format("; put off {} {} for {}", step.postponed_days,
                           step.postponed_days == 1 ? "day" : "days", day_flag_name(*step.held_by));
      add(step.task, step_text(step.task), single_day(step.day), std::move(why), {});
    }
    add_done("open-corner", Event::bag_vented);
    add_done("take-bag-off", Event::bag_off);
  }

  void add_done(const char* task, Event event) {
    const bool planned = std::ranges::find(tasks_, task, &CareTask::task) != tasks_.end();
    if (const auto done = noted({event}); done && !planned)
      add(task, step_text(task), {}, step_reason(task), done);
  }

  static std::string step_text(std::string_view task) {
    if (task == "open-corner") return "cut a corner off the bag in the evening; keep the shade";
    if (task == "open-half") return "open the bag by half in the evening; keep the shade";
    if (task == "take-bag-off") return "take the bag off in the evening; keep it shaded";
    if (task == "cover-again") return "shade it well and bag it again, or put paper over it, for that day";
    return "take the shade off in the evening";
  }
  static std::string step_reason(std::string_view task) {
    if (task == "open-corner")
      return "the union drinks: leaves grown in damp air are let into dry air by steps";
    if (task == "open-half") return "it bore the open corner";
    if (task == "take-bag-off") return "it bore the bag half open";
    if (task == "cover-again") return "heat or dry air is too much for leaves just let out";
    return "a week in the open air has hardened its leaves";
  }

  bool is_tied() const {
    return std::ranges::any_of(in_.graft.settings, [](const Setting& setting) {
      return setting.wrap == "film" || setting.wrap == "film-bud-out" || setting.wrap == "film-waxed-tip";
    });
  }

  void slit_wrap() {
    if (!is_tied()) return;
    add("slit-wrap",
        is_bud() ? "slit the tape on the side away from the bud" : "slit the wrap down one side of the union",
        in_.dates.slit_wrap, "the union holds, and a wrap left on strangles what thickens",
        standing({Event::wrap_slit, Event::wrap_off}));
  }

  void remove_wrap() {
    if (!is_tied()) return;
    const auto slit = standing({Event::wrap_slit});
    add("remove-wrap", "take off what is left of the wrap",
        shifted(slit ? single_day(slit) : in_.dates.slit_wrap, days(numbers_.remove_wrap_after_days)),
        "a slit wrap has done its work once the union firms", standing({Event::wrap_off}));
  }

  /// A deciduous bud made in the later half of the year sleeps until spring.
  bool sleeps() const {
    return is_bud() && !is_evergreen() &&
           in_.row.grafted_on - midwinter_before(in_.row.grafted_on, in_.latitude_deg) > half_a_year;
  }

  void head_back() {
    if (in_.graft.method->stock_head != StockHead::full || stays_rooted()) return;
    const auto done = noted({Event::headed_back});
    if (sleeps()) {
      const LocalDay spring = midwinter_before(in_.row.grafted_on + a_year, in_.latitude_deg) +
                              days(numbers_.spring_heading_days);
      add("head-back", "head the stock back to just above the bud", single_day(spring),
          "a late bud sleeps through the winter and is forced as the stock wakes", done);
    } else if (is_bud() && is_evergreen()) {
      add("head-back", "lop the stock 3/4 through, 4 to 6 cm above the bud", in_.dates.slit_wrap,
          "the bud has taken; without lopping the stock's tip keeps it asleep",
          noted({Event::headed_back, Event::lopped, Event::bent}));
    } else {
      add("head-back",
          is_bud() ? "head the stock back to just above the bud"
                   : "head the stock back above the union, in two steps",
          in_.dates.drinking, "the union drinks; the head of the stock keeps its buds asleep", done);
    }
  }

  void stake() {
    const auto done = noted({Event::staked});
    DateBand due = in_.dates.shoot_to_tie;
    std::string why = "a shoot on a young union breaks out at the first gust";
    // Wind only hurries what there is something to tie for.
    if (in_.dates.windy_day && (!due.median || *due.median > *in_.dates.windy_day)) {
      due = single_day(std::max(in_.today, *in_.dates.windy_day - std::chrono::days(1)));
      why = fmt::format("gusts of {:.0f} m/s are coming on {}", in_.dates.gust_m_s,
                        weekday_text(*in_.dates.windy_day));
    }
    add("stake", "tie it in, or to a stake or splint", due, std::move(why), done);
  }

  void thin() {
    if (is_bud() || in_.graft.buds < 2) return;
    add("thin", "thin to one shoot: keep the strongest, pinch the others", in_.dates.shoots_to_thin,
        "one leader takes what the stock gives", noted({Event::thinned}));
  }

  const CareInput& in_;
  const AftercareConstants& numbers_;
  std::vector<CareTask> tasks_;
};

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
    const auto same = std::ranges::find_if(
        due, [&](const DueTask& other) { return other.task == task.task && other.text == task.text; });
    DueTask& place = same != due.end()
                         ? *same
                         : due.emplace_back(DueTask{task.task, task.text, task.why, {}, *task.due.median});
    place.ids.push_back(task.id);
    place.due = std::min(place.due, *task.due.median);
  }
  std::ranges::stable_sort(due, {}, &DueTask::due);
  return due;
}

}  // namespace graftcast
