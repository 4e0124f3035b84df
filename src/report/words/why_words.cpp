#include "words/why_words.hpp"

#include <vector>

#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/date_words.hpp"
#include "words/measure_words.hpp"

namespace graftcast {

namespace {

std::string wrap_words(const LackOfCover& lack) {
  return tr("wrap {wrap} where {usual} is usual", "wrap"_a = *lack.wrap, "usual"_a = *lack.usual_wrap);
}

std::string cover_words(const LackOfCover& lack) {
  return tr("cover {cover} where {usual} is usual", "cover"_a = *lack.cover, "usual"_a = *lack.usual_cover);
}

/// A sentence of one fact.
struct FactWords {
  UnitSystem units;

  std::string operator()(std::monostate) const { return {}; }
  std::string operator()(const HotTissue& fact) const {
    return tr("tissue up to {tissue} {inside} on {day}, air {air}",
              "tissue"_a = degrees_words(units, fact.tissue_c), "inside"_a = place_words_of(fact.cover),
              "day"_a = day_words(fact.day), "air"_a = degrees_words(units, fact.air_c));
  }
  std::string operator()(const SunHeatedCover& fact) const {
    return tr("{inside} the tissue got to {tissue} on {day}, {difference} hotter than the air",
              "inside"_a = place_words_of(fact.cover), "tissue"_a = degrees_words(units, fact.tissue_c),
              "day"_a = day_words(fact.day),
              "difference"_a = difference_words(units, fact.tissue_c - fact.air_c));
  }
  std::string operator()(const DryAir& fact) const {
    return tr(
        "vapour pressure deficit up to {open:.1f} kPa in the open on {day}, {own:.1f} kPa at the graft; "
        "water down to {water:.0f} % of full",
        "open"_a = fact.open_kpa, "day"_a = day_words(fact.day), "own"_a = fact.own_kpa,
        "water"_a = 100 * fact.least_water);
  }
  std::string operator()(const StrongWind& fact) const {
    return tr("wind up to {wind:.1f} m/s at 2 m on {day}", "wind"_a = fact.wind_m_s,
              "day"_a = day_words(fact.day));
  }
  std::string operator()(const LackOfCover& lack) const {
    std::vector<std::string> lacks;
    if (lack.wrap) lacks.push_back(wrap_words(lack));
    if (lack.tip_open) lacks.push_back(tr("the cut tip open"));
    if (lack.edges_open) lacks.push_back(tr("the chip's edges open"));
    if (lack.cover) lacks.push_back(cover_words(lack));
    return lacks.empty() ? tr("wrap or cover came off before the vessels joined") : with_semicolons(lacks);
  }
  std::string operator()(const ShortOfWater& fact) const {
    const auto days = static_cast<long>(fact.days);
    const double supplied = 100 * fact.supplied_share;
    const std::string worst = day_words(fact.worst_day);
    if (fact.watering_assumed)
      return trn(
          "the stock was short of water on {short} of {n} day; on {day} it gave {supplied:.0f} % of "
          "what was asked (weekly watering assumed)",
          "the stock was short of water on {short} of {n} days; on {day} it gave {supplied:.0f} % of "
          "what was asked (weekly watering assumed)",
          days, "short"_a = fact.short_days, "n"_a = days, "day"_a = worst, "supplied"_a = supplied);
    return trn(
        "the stock was short of water on {short} of {n} day; on {day} it gave {supplied:.0f} % of "
        "what was asked",
        "the stock was short of water on {short} of {n} days; on {day} it gave {supplied:.0f} % of "
        "what was asked",
        days, "short"_a = fact.short_days, "n"_a = days, "day"_a = worst, "supplied"_a = supplied);
  }
  std::string operator()(const ColdTissue& fact) const {
    return tr("tissue down to {tissue} on {day}, air {air}", "tissue"_a = degrees_words(units, fact.tissue_c),
              "day"_a = day_words(fact.day), "air"_a = degrees_words(units, fact.air_c));
  }
  std::string operator()(const SlowCallus& fact) const {
    return tr("{share:.0f} % of the callus bridge in {days:.0f} days; {best:.0f} days make it at {optimum}",
              "share"_a = 100 * fact.bridge_share, "days"_a = fact.age_days, "best"_a = fact.best_days,
              "optimum"_a = degrees_words(units, fact.optimum_c));
  }
  std::string operator()(const BudsAhead& fact) const {
    const std::string moved = fact.buds_moved
                                  ? tr("buds moved on {day}", "day"_a = day_words(*fact.buds_moved))
                                  : tr("buds moved late");
    const std::string joined = fact.vessels_joined
                                   ? tr("vessels joined on {day}", "day"_a = day_words(*fact.vessels_joined))
                                   : tr("vessels joined not by then");
    return with_commas(std::vector{moved, joined});
  }
  std::string operator()(const PoorMatch& fact) const {
    if (fact.share) return tr("{share:.0f} % of the cambium met", "share"_a = 100 * *fact.share);
    return fact.one_side ? tr("the cambium met on one side only")
                         : tr("not all of the cambium meets as a rule");
  }
  std::string operator()(const PlainFailure& fact) const {
    return tr(
        "{share:.0f} in 100 grafts by {method} fail in any weather: poor fit, slipped or dead wood, "
        "disease, incompatibility",
        "share"_a = 100 * fact.share, "method"_a = fact.method);
  }
};

}  // namespace

std::string culprit_words(Culprit culprit) {
  if (!culprit) return trc("culprit", "not the weather");
  switch (*culprit) {
    case Factor::heat:
      return trc("culprit", "heat");
    case Factor::dry_air:
      return trc("culprit", "dry air");
    case Factor::wind:
      return trc("culprit", "wind");
    case Factor::cover_sun:
      return trc("culprit", "sun on the cover");
    case Factor::missing_cover:
      return trc("culprit", "missing wrap or cover");
    case Factor::dry_stock:
      return trc("culprit", "dry stock");
    case Factor::cold:
      return trc("culprit", "cold");
    case Factor::slow_callus:
      return trc("culprit", "slow callus");
    case Factor::early_push:
      return trc("culprit", "buds ahead of the union");
    default:
      return trc("culprit", "poor match of the cambium");
  }
}

std::string culprit_fact_words(const CulpritFact& fact, UnitSystem units) {
  return std::visit(FactWords{units}, fact);
}

std::string row_outcome_words(RowOutcome outcome) {
  switch (outcome) {
    case RowOutcome::lost:
      return trc("grafts of a row", "lost");
    case RowOutcome::lost_in_part:
      return trc("grafts of a row", "lost-in-part");
    case RowOutcome::removed:
      return trc("grafts of a row", "removed");
    case RowOutcome::taken:
      return trc("grafts of a row", "taken");
    default:
      return trc("grafts of a row", "open");
  }
}

}  // namespace graftcast
