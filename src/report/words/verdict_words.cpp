#include "words/verdict_words.hpp"

#include "text/tr.hpp"
#include "words/date_words.hpp"

namespace graftcast {

namespace {

std::string look_words(WayToLook way) {
  switch (way) {
    case WayToLook::under_wrap:
      return tr(
          "look under the wrap: a plump bud waits, a brown or shrivelled one is lost; never scratch a bud");
    case WayToLook::scratch_in_week_three:
      return tr("wait for week three, then scratch the bark once, away from the buds");
    case WayToLook::scratch:
      return tr("scratch the bark once, away from the buds: green waits, brown is lost");
  }
  return {};
}

std::string season_words(const GraftWindow& season) {
  return season.open ? tr("the season for it lasts until {day}", "day"_a = day_words(season.closes))
                     : tr("the next season for it opens on {day}", "day"_a = day_words(season.opens));
}

std::string shrivelled_words(const Shrivelled& seen) {
  if (seen.shrivelled >= seen.open) return tr("a shrivelled scion does not come back");
  return trn("{count} of {all} is shrivelled and does not come back: graft that again, and let the others be",
             "{count} of {all} are shrivelled and do not come back: graft those again, and let the others be",
             seen.shrivelled, "count"_a = seen.shrivelled, "all"_a = seen.open);
}

/// A sentence of what one verdict rests on.
struct GroundWords {
  std::string operator()(const NotedDead& dead) const {
    return tr("noted dead; the stock is free for another graft") + "; " + season_words(dead.season);
  }
  std::string operator()(const Shrivelled& seen) const {
    return shrivelled_words(seen) + "; " + season_words(seen.season);
  }
  std::string operator()(const LookIsOverdue& look) const { return look_words(look.way); }
  std::string operator()(const LookPays& look) const {
    return tr("{percent:.0f} % that it is lost and would show it: {look}",
              "percent"_a = 100 * look.shows_lost, "look"_a = look_words(look.way));
  }
  std::string operator()(const NotedTaken& noted) const {
    return tr("noted as taken: {taken} of {all}", "taken"_a = noted.taken, "all"_a = noted.of);
  }
  std::string operator()(const TakenAway&) const { return tr("taken away: nothing is left to wait for"); }
  std::string operator()(const BudsHaveMoved&) const { return tr("its buds have moved"); }
  std::string operator()(const ScratchedGreen& green) const {
    return tr("scratched on {day} and green: no second scratch, its buds will tell",
              "day"_a = day_words(green.day));
  }
  std::string operator()(const LookedAtLately&) const { return tr("overdue, and looked at lately"); }
  std::string operator()(const NothingOverdue&) const { return tr("nothing is overdue"); }
};

}  // namespace

std::string verdict_word(Verdict verdict) {
  switch (verdict) {
    case Verdict::wait:
      return trc("verdict", "wait");
    case Verdict::check:
      return trc("verdict", "check");
    case Verdict::regraft:
      return trc("verdict", "re-graft");
  }
  return {};
}

std::string ground_words(const VerdictGround& ground) {
  return std::visit(GroundWords{}, ground);
}

std::string attempt_outcome_words(AttemptOutcome outcome) {
  switch (outcome) {
    case AttemptOutcome::taken:
      return trc("outcome", "taken");
    case AttemptOutcome::lost:
      return trc("outcome", "lost");
    case AttemptOutcome::open:
      return trc("outcome", "open");
    case AttemptOutcome::removed:
      return trc("outcome", "removed");
    case AttemptOutcome::part:
      return trc("outcome", "part");
  }
  return {};
}

}  // namespace graftcast
