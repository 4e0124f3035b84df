#include "words/loss_words.hpp"

#include "report/figures.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

bool is_lost(const GraftWhy& graft) {
  return graft.outcome == RowOutcome::lost || graft.outcome == RowOutcome::lost_in_part;
}

std::string noted_dead_words(const GraftWhy& graft, const std::string& day) {
  const std::string age = age_words(graft.age_days);
  if (graft.outcome == RowOutcome::lost)
    return trn("{n} graft noted dead, the last note on {day}, {age} after grafting",
               "{n} grafts noted dead, the last note on {day}, {age} after grafting", graft.lost,
               "n"_a = graft.lost, "day"_a = day, "age"_a = age);
  return trn("{n} graft noted dead of {all}, the last note on {day}, {age} after grafting",
             "{n} grafts noted dead of {all}, the last note on {day}, {age} after grafting", graft.lost,
             "n"_a = graft.lost, "all"_a = graft.count, "day"_a = day, "age"_a = age);
}

std::string how_it_stands(const GraftWhy& graft, const std::string& day) {
  if (is_lost(graft)) return noted_dead_words(graft, day);
  return tr("not noted as lost ({outcome}): this is what has threatened it in the {age} up to {day}",
            "outcome"_a = row_outcome_words(graft.outcome), "age"_a = age_words(graft.age_days),
            "day"_a = day);
}

/// What the weather takes of such grafts, and when where it takes enough to tell.
std::string share_lost_words(const GraftWhy& graft, LocalDay near) {
  const std::string share = percent_words(graft.loss);
  const DateBand& when = graft.when;
  if (!when.median) return tr("By then the weather alone loses {share} of such grafts.", "share"_a = share);
  const std::string day = day_words(*when.median, near);
  if (when.p10 == when.p90)
    return tr("By then the weather alone loses {share} of such grafts, most likely on {day}.",
              "share"_a = share, "day"_a = day);
  return tr(
      "By then the weather alone loses {share} of such grafts, most likely about {day} ({from} to {to}).",
      "share"_a = share, "day"_a = day, "from"_a = day_words(*when.p10, near),
      "to"_a = day_words(*when.p90, near));
}

}  // namespace

std::string loss_words(const GraftWhy& graft, const Clock& clock, Instant as_of) {
  const LocalDay today = clock.day_of(as_of);
  return tr("{state}. {loss}", "state"_a = how_it_stands(graft, day_words(clock.day_of(graft.until), today)),
            "loss"_a = share_lost_words(graft, today));
}

std::string unexplained_words(const GraftWhy& graft) {
  const std::string loss = percent_words(graft.loss), harmless = percent_words(graft.loss_harmless);
  if (graft.lost == 0)
    return tr(
        "The weather has threatened it little so far: it loses {loss} of such grafts as it was, and "
        "{harmless} with all that harms made harmless.",
        "loss"_a = loss, "harmless"_a = harmless);
  return tr(
      "The weather does not explain this: it loses {loss} of such grafts as it was, and {harmless} with "
      "all that harms made harmless. Look at the fit, the wood, the bandage, pests and disease: "
      "{failure:.0f} in 100 by {method} fail in any weather.",
      "loss"_a = loss, "harmless"_a = harmless, "failure"_a = 100 * graft.plain_failure,
      "method"_a = graft.method);
}

}  // namespace graftcast
