#include "words/due_words.hpp"

#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/reason_words.hpp"
#include "words/verdict_words.hpp"

namespace graftcast {

namespace {

std::string work_words(const DueWork& work) {
  switch (work.kind) {
    case DueKind::act:
      return act_words(work.act);
    case DueKind::undo:
      return tr("undo: {act}", "act"_a = act_words(work.act));
    case DueKind::vent_bag:
      return tr("vent the bag");
    case DueKind::slit_wrap:
      return tr("slit the wrap");
    case DueKind::buds_expected:
      return tr("buds should move");
    case DueKind::check:
      return tr("look whether it lives");
  }
  return {};
}

std::string day_or_later_words(const std::optional<LocalDay>& day, LocalDay today) {
  return day ? day_words(*day, today) : tr("later than the run reaches");
}

}  // namespace

std::string due_title_words(const DueWork& work) {
  return tr("{id}: {work}", "id"_a = work.id, "work"_a = work_words(work));
}

std::string due_reason_words(const DueWork& work, UnitSystem units) {
  if (work.reason) return reason_words(*work.reason, units);
  if (work.ground) return ground_words(*work.ground);
  return work.kind == DueKind::check ? act_words(work.act) : std::string{};
}

std::string due_risk_words(const DueWork& work) {
  if (!work.p) return {};
  const std::string risk = percent_words(*work.p);
  if (!work.p_after) return tr("Risk of loss to weather as it is: {risk}.", "risk"_a = risk);
  return tr("Risk of loss to weather as it is: {risk}; with it: {after}.", "risk"_a = risk,
            "after"_a = percent_words(*work.p_after));
}

std::string due_meaning_words(const DueWork& work) {
  switch (work.kind) {
    case DueKind::vent_bag:
      return tr(
          "The scion should drink by then: open the bag a little for some days before it comes off, in the "
          "evening or under a cloudy sky.");
    case DueKind::slit_wrap:
      return tr(
          "The union should hold by then: slit the wrap lengthwise on the side away from the bud, so that it "
          "does not strangle.");
    case DueKind::buds_expected:
      return tr("Growth before the bridge lives on stores: buds that move are no proof that it has taken.");
    case DueKind::check:
      return work.band.p90
                 ? tr("Nine in ten would have moved their buds by now. A date alone decides nothing: look.")
                 : std::string{};
    case DueKind::undo:
      return tr("Needed no longer from then on, as the outlook stands.");
    case DueKind::act:
      return {};
  }
  return {};
}

std::string due_range_words(const DueWork& work, LocalDay today) {
  const std::string range = tr("Middle of the range: {middle}; eight in ten from {from} to {to}.",
                               "middle"_a = day_or_later_words(work.band.median, today),
                               "from"_a = day_or_later_words(work.band.p10, today),
                               "to"_a = day_or_later_words(work.band.p90, today));
  if (!work.past_due) return range;
  return range + ' ' + tr("The day has gone by and the diary does not say that it was done.");
}

}  // namespace graftcast
