#include "words/act_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string act_words(const Act& act) {
  switch (act.kind) {
    case ActKind::none:
      return {};
    case ActKind::look:
      return tr("look whether it lives and note it (green or dead)");
    case ActKind::shade:
      return tr("shade it ({percent:.0f} % cloth)", "percent"_a = 100 * act.shade_share);
    case ActKind::clear_bag:
      return tr("put a clear bag over it");
    case ActKind::paper_over_bag:
      return act.is_bagged ? tr("put paper over the bag") : tr("bag it and put paper over the bag");
    case ActKind::foil_over_bag:
      return act.is_bagged ? tr("put foil over the sunny side of the bag")
                           : tr("bag it and put foil over the sunny side");
    case ActKind::own_cover:
      return tr("put the {cover} over it", "cover"_a = act.to);
    case ActKind::bag_and_shade:
      return tr("bag it and shade it");
    case ActKind::paper_bag_and_shade:
      return tr("bag it, put paper over the bag and shade it");
    case ActKind::paper_and_shade:
      return tr("put paper over the bag and shade it");
    case ActKind::seal_tip:
      return tr("seal the cut tip");
    case ActKind::vent_bag:
      return tr("cut a corner of the bag open");
    case ActKind::open_bag:
      return act.is_bagged ? tr("take the bag off") : tr("take the paper off");
    case ActKind::water:
      return tr("water the stock");
    case ActKind::move:
      return tr("move it to {spot}", "spot"_a = act.to);
    case ActKind::frost_cover:
      return tr("cover it against frost at night");
    case ActKind::whitewash:
      return tr("whitewash the stem around the bud");
    case ActKind::stake:
      return tr("tie it to a stake or splint");
    case ActKind::wrap:
      return tr("wrap it all in {wrap}", "wrap"_a = act.to);
  }
  return {};
}

std::string exclusion_words(Exclusion exclusion) {
  switch (exclusion) {
    case Exclusion::bag_in_the_sun:
      return tr("a clear bag in the sun cooks what it keeps moist; shade or paper first");
    case Exclusion::moulds:
      return tr("bare deciduous wood moulds in a bag in mild damp weather");
    case Exclusion::dries_leaves:
      return tr("leaves that do not drink yet dry in hours; shade first, vent at dusk");
    case Exclusion::bleeds:
      return tr("the stock bleeds; water would push sap into the union");
    case Exclusion::waterlogged:
      return tr("the pot is waterlogged");
    case Exclusion::cooks:
      return tr("it would cook what it keeps moist");
  }
  return {};
}

std::string place_words_of(std::string_view cover) {
  if (cover == "clear-bag") return tr("in its clear bag");
  if (cover == "vented-bag") return tr("in its vented bag");
  if (cover == "paper-over-bag") return tr("under paper and bag");
  if (cover == "foil-over-bag") return tr("under foil and bag");
  if (cover == "paper-bag") return tr("in its paper bag");
  return cover == "none" ? tr("in the open") : tr("under its {cover}", "cover"_a = cover);
}

}  // namespace graftcast
