#include "words/lesson_sources.hpp"

#include "text/tr.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

std::string number_words(LessonNumber which) {
  switch (which) {
    case LessonNumber::bridge_days:
      return tr("days to the bridge at the optimum");
    case LessonNumber::pace_of_method:
      return tr("pace of the method");
    case LessonNumber::light_passed:
      return tr("light passed");
    case LessonNumber::sun_absorbed:
      return tr("sun absorbed by the bark");
    case LessonNumber::bark_conductance:
      return tr("conductance of the bark");
    case LessonNumber::wrap_factor:
      return tr("wrap, factor on it");
    case LessonNumber::water_half_lost:
      return tr("water at which half are lost");
    case LessonNumber::water_stops_callus:
      return tr("water at which callus stops");
    case LessonNumber::callus_optimum:
      return tr("optimum");
    case LessonNumber::push_degree_days:
      return tr("degree-days to push");
    case LessonNumber::heat_kills_half:
      return tr("heat, ten minutes kill half at");
    case LessonNumber::heat_slope:
      return tr("heat, for ten times as long at so much less");
    case LessonNumber::callus_freezes:
      return tr("fresh callus freezes at");
    case LessonNumber::stores_last:
      return tr("stores last");
    case LessonNumber::applies_from:
      return tr("a factor applies from");
    case LessonNumber::harmless_air:
      return tr("harmless air");
    case LessonNumber::harmless_wind:
      return tr("harmless wind");
    case LessonNumber::explained_from:
      return tr("explained from");
    default:
      return tr("take in good weather");
  }
}

}  // namespace

std::string number_source_words(LessonNumber which, const UsedNumber& number) {
  return tr("{what} {value:g} {unit}: {source} (grade {grade})", "what"_a = number_words(which),
            "value"_a = number.value, "unit"_a = number.unit, "source"_a = number.source,
            "grade"_a = number.grade);
}

std::string sign_source_words(const CulpritSign& chance) {
  return tr("{culprit}: {source} (grade {grade})", "culprit"_a = culprit_words(chance.culprit),
            "source"_a = chance.chance.source, "grade"_a = chance.chance.grade);
}

std::string balance_source_words() {
  return tr(
      "energy balance of wood in wind: Churchill & Bernstein 1977 (heat across a cylinder); Campbell & "
      "Norman 1998, ch. 12 (recalled)");
}

std::string deficit_source_words() {
  return tr("deficits of vapour pressure: FAO-56, Allen et al. 1998, eq. 11");
}

std::string pace_source_words() {
  return tr("pace of callus by temperature: Yan & Hunt 1999, with the species' limits");
}

std::string shares_source_words() {
  return tr("Shapley 1953, A value for n-person games (recalled)");
}

}  // namespace graftcast
