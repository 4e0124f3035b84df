#include "words/learn_words.hpp"

#include <cmath>

#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/count_words.hpp"

namespace graftcast {

namespace {

constexpr double to_five_percent = 1.645;  // standard deviations from the median of a normal distribution

std::string speed_words(double ln) {
  const double percent = 100 * std::abs(std::expm1(ln));
  return ln >= 0 ? tr("{percent:.0f} % faster", "percent"_a = percent)
                 : tr("{percent:.0f} % slower", "percent"_a = percent);
}

std::string odds_words(double ln) {
  const double percent = 100 * std::abs(std::expm1(ln));
  return ln >= 0 ? tr("{percent:.0f} % higher", "percent"_a = percent)
                 : tr("{percent:.0f} % lower", "percent"_a = percent);
}

/// A factor with its 90 % range: `14 % faster (3 % slower to 34 % faster)`.
std::string factor_words(double mean, double sd, std::string (*words_of)(double)) {
  return tr("{factor} ({low} to {high})", "factor"_a = words_of(mean),
            "low"_a = words_of(mean - to_five_percent * sd),
            "high"_a = words_of(mean + to_five_percent * sd));
}

}  // namespace

std::string learn_verdict_words(const LearnReport& report) {
  switch (report.verdict) {
    case LearnVerdict::too_few:
      return trn("{n} outcome is too few to change anything; from {least} on they count",
                 "{n} outcomes are too few to change anything; from {least} on they count", report.outcomes,
                 "n"_a = report.outcomes, "least"_a = report.least_outcomes);
    case LearnVerdict::no_better:
      return tr("batches held back are forecast no better with the shifts: the published numbers stay");
    case LearnVerdict::better:
      return tr("batches held back are forecast better with the shifts: they are used from now on");
    case LearnVerdict::forgotten:
      return tr("what was learned is forgotten; the published numbers count again");
    default:
      return tr("nothing had been learned");
  }
}

std::string group_by_words(GroupBy by) {
  switch (by) {
    case GroupBy::species:
      return trc("grafts by", "species");
    case GroupBy::method:
      return trc("grafts by", "method");
    case GroupBy::spot:
      return trc("grafts by", "spot");
    default:
      return trc("grafts by", "grafter");
  }
}

std::string rate_verdict_words(RateVerdict verdict) {
  switch (verdict) {
    case RateVerdict::better:
      return trc("take rate", "better");
    case RateVerdict::worse:
      return trc("take rate", "worse");
    default:
      return trc("take rate", "as the weather explains");
  }
}

std::string shifts_words(const std::string& name, const LearnedShifts& shifts) {
  return tr("{name}, {outcomes}: heals {pace}; dries {drying}; plain failure odds {failure}.",
            "name"_a = printable(name),
            "outcomes"_a = outcomes_words(static_cast<std::size_t>(shifts.outcomes)),
            "pace"_a = factor_words(shifts.mean.pace, shifts.sd.pace, speed_words),
            "drying"_a = factor_words(shifts.mean.drying, shifts.sd.drying, speed_words),
            "failure"_a = factor_words(shifts.mean.failure, shifts.sd.failure, odds_words));
}

std::string base_words(double shift_k, UnitSystem units) {
  if (shift_k == 0) return tr("as published");
  if (units == UnitSystem::us) {
    const double shift_f = 1.8 * std::abs(shift_k);
    return shift_k > 0 ? tr("{shift:.1f} degF higher", "shift"_a = shift_f)
                       : tr("{shift:.1f} degF lower", "shift"_a = shift_f);
  }
  return shift_k > 0 ? tr("{shift:.1f} K higher", "shift"_a = shift_k)
                     : tr("{shift:.1f} K lower", "shift"_a = -shift_k);
}

}  // namespace graftcast
