#include "words/care_words.hpp"

#include "report/terminal_style.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"
#include "words/measure_words.hpp"

namespace graftcast {

namespace {

std::string head_back_reason(const CareTask& task) {
  return task.wakes_bud ? tr("a late bud sleeps through the winter and is forced as the stock wakes")
                        : tr("the union drinks; the head of the stock keeps its buds asleep");
}

std::string stake_reason(const CareTask& task) {
  if (!task.gusts) return tr("a shoot on a young union breaks out at the first gust");
  return tr("gusts of {speed} are coming on {day}",
            "speed"_a = wind_words(UnitSystem::metric, task.gusts->gust_m_s),
            "day"_a = day_words(task.gusts->day));
}

std::string plain_reason(const CareTask& task) {
  switch (task.work) {
    case CareWork::rub_suckers:
      return trn(
          "what the stock pushes itself starves the scion, but a thick one keeps a nurse shoot; every day",
          "what the stock pushes itself starves the scion, but a thick one keeps a nurse shoot; every {days} "
          "days",
          task.every_days, "days"_a = task.every_days);
    case CareWork::open_corner:
      return tr("the union drinks: leaves grown in damp air are let into dry air by steps");
    case CareWork::open_half:
      return tr("it bore the open corner");
    case CareWork::take_bag_off:
      return tr("it bore the bag half open");
    case CareWork::cover_again:
      return tr("heat or dry air is too much for leaves just let out");
    case CareWork::shade_off:
      return tr("a week in the open air has hardened its leaves");
    case CareWork::slit_wrap:
      return tr("the union holds, and a wrap left on strangles what thickens");
    case CareWork::remove_wrap:
      return tr("a slit wrap has done its work once the union firms");
    case CareWork::head_back:
      return head_back_reason(task);
    case CareWork::lop:
      return tr("the bud has taken; without lopping the stock's tip keeps it asleep");
    case CareWork::stake:
      return stake_reason(task);
    case CareWork::thin:
      return tr("one leader takes what the stock gives");
  }
  return {};
}

std::string put_off_words(const CareTask& task) {
  const int days = task.put_off_days;
  return task.put_off_for == DayFlag::heat
             ? trn("put off {days} day for heat", "put off {days} days for heat", days, "days"_a = days)
             : trn("put off {days} day for drying", "put off {days} days for drying", days, "days"_a = days);
}

}  // namespace

std::string care_words(const CareTask& task) {
  switch (task.work) {
    case CareWork::rub_suckers:
      return task.at_bud ? tr("rub off the stock's own shoots below the bud")
                         : tr("rub off the suckers below the union");
    case CareWork::open_corner:
      return tr("cut a corner off the bag in the evening; keep the shade");
    case CareWork::open_half:
      return tr("open the bag by half in the evening; keep the shade");
    case CareWork::take_bag_off:
      return tr("take the bag off in the evening; keep it shaded");
    case CareWork::cover_again:
      return tr("shade it well and bag it again, or put paper over it, for that day");
    case CareWork::shade_off:
      return tr("take the shade off in the evening");
    case CareWork::slit_wrap:
      return task.at_bud ? tr("slit the tape on the side away from the bud")
                         : tr("slit the wrap down one side of the union");
    case CareWork::remove_wrap:
      return tr("take off what is left of the wrap");
    case CareWork::head_back:
      return task.at_bud ? tr("head the stock back to just above the bud")
                         : tr("head the stock back above the union, in two steps");
    case CareWork::lop:
      return tr("lop the stock 3/4 through, 4 to 6 cm above the bud");
    case CareWork::stake:
      return tr("tie it in, or to a stake or splint");
    case CareWork::thin:
      return tr("thin to one shoot: keep the strongest, pinch the others");
  }
  return {};
}

std::string care_reason_words(const CareTask& task) {
  if (task.put_off_days == 0) return plain_reason(task);
  return plain_reason(task) + "; " + put_off_words(task);
}

}  // namespace graftcast
