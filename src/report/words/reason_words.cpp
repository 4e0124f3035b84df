#include "words/reason_words.hpp"

#include <fmt/format.h>

#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/date_words.hpp"
#include "words/measure_words.hpp"

namespace graftcast {

namespace {

/// A sentence of one reason.
struct ReasonWords {
  UnitSystem units;

  std::string operator()(const LikelyLost& likely) const {
    return tr("by the weather it had there is a {percent:.0f} % chance that it still lives",
              "percent"_a = 100 * likely.alive);
  }
  std::string operator()(const HeatAhead& heat) const {
    return tr("tissue up to {tissue} {place} on {day}, air {air}",
              "tissue"_a = degrees_words(units, heat.tissue_c), "place"_a = place_words_of(heat.cover),
              "day"_a = day_words(heat.day), "air"_a = degrees_words(units, heat.air_c));
  }
  std::string operator()(const DryingAhead& drying) const {
    return tr(
        "water {now:.0f} % of full now, down to {low:.0f} % ahead ({day} takes most); at {lost:.0f} % half "
        "are lost",
        "now"_a = 100 * drying.water_now, "low"_a = 100 * drying.water_low, "day"_a = day_words(drying.day),
        "lost"_a = 100 * drying.lost_water);
  }
  std::string operator()(const ColdAhead& cold) const {
    return tr("tissue down to {tissue} on {day}", "tissue"_a = degrees_words(units, cold.tissue_c),
              "day"_a = day_words(cold.day));
  }
  std::string operator()(const StoresRunOut&) const {
    return tr("its stores run out before the vessels join");
  }
  std::string operator()(const GustsAhead& gusts) const {
    return tr("gusts of {speed} on {day} can break or shift it",
              "speed"_a = wind_words(units, gusts.gust_m_s), "day"_a = day_words(gusts.day));
  }
  std::string operator()(const BudsBeforeVessels&) const {
    return tr("the buds move before the vessels join: leaves will draw on the store");
  }
  std::string operator()(const PotIsDry& pot) const {
    return tr("the pot holds {percent:.0f} % of its water", "percent"_a = 100 * pot.water);
  }
  std::string operator()(const NotesContradict&) const {
    return tr("what was noted does not fit the weather it had: look at this one");
  }
  std::string operator()(const WateringAssumed&) const {
    return tr("no watering is noted: watered at grafting and weekly is assumed");
  }
  std::string operator()(const CellsAssumed& cells) const {
    return tr("not given and assumed: {columns}",
              "columns"_a = fmt::to_string(fmt::join(cells.columns, ", ")));
  }
  std::string operator()(const NothingHelps&) const {
    return tr("nothing that can be done for it here changes much; look before giving it up");
  }
};

}  // namespace

std::string reason_words(const Reason& reason, UnitSystem units) {
  return std::visit(ReasonWords{units}, reason);
}

std::vector<std::string> reasons_words(const std::vector<Reason>& reasons, UnitSystem units) {
  std::vector<std::string> words;
  for (const Reason& reason : reasons) words.push_back(reason_words(reason, units));
  return words;
}

std::string cause_words(Cause cause) {
  switch (cause) {
    case Cause::drying:
      return trc("cause", "drying");
    case Cause::heat:
      return trc("cause", "heat");
    case Cause::cold:
      return trc("cause", "cold");
    case Cause::spent_stores:
      return trc("cause", "spent-stores");
    case Cause::slow_callus:
      return trc("cause", "slow-callus");
    case Cause::bark:
      return trc("cause", "bark");
  }
  return {};
}

}  // namespace graftcast
