#include "why_lesson.hpp"

#include <algorithm>

#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

UsedNumber used(const Parameter& parameter) {
  return {parameter.value, parameter.unit, parameter.source, parameter.grade};
}

/// Gathers what the steps name.
class Lesson {
 public:
  Lesson(const GraftWhy& graft, const GraftRun& run, const LossShares& shares, const UnionStates& last)
      : graft_(graft), run_(run), shares_(shares), last_(last), models_(run.season().models) {}

  WhyLesson gathered() {
    lesson_.members = run_.season().settings.members;
    lesson_.loss = shares_.all;
    lesson_.loss_harmless = shares_.none;
    numbers_of_graft();
    if (!graft_.days.empty()) climate();
    shared_numbers();
    ways_of_loss();
    factors();
    for (const SeenSign& sign : graft_.signs) lesson_.sign_chances.push_back(chances_of(sign));
    return std::move(lesson_);
  }

 private:
  void add(LessonNumber which, const Parameter& parameter) {
    lesson_.numbers.emplace_back(which, used(parameter));
  }

  void numbers_of_graft() {
    const Species& species = *run_.graft().species;
    const Method& method = *run_.graft().method;
    const ScionState& state = *run_.graft().scion_state;
    add(LessonNumber::bridge_days, species.bridge_days);
    add(LessonNumber::pace_of_method, method.rate_factor);
    add(LessonNumber::bark_conductance, state.bark_conductance_mmol);
    add(LessonNumber::wrap_factor, models_.wraps.at(run_.graft().settings.front().wrap).conductance_factor);
    add(LessonNumber::water_half_lost, state.lost_water);
    add(LessonNumber::water_stops_callus, state.stops_callus_water);
    add(LessonNumber::callus_optimum, species.callus_optimum_c);
    add(LessonNumber::push_degree_days, species.bud_push_degree_days);
    add(LessonNumber::stores_last, state.stores_days);
    add(LessonNumber::take_in_good_weather, method.take_share);
  }

  /// How it stood on its hottest day.
  void climate() {
    const WhyDay& day = *std::ranges::max_element(graft_.days, {}, &WhyDay::tissue_max_c);
    const Setting& setting = run_.graft().setting_at(run_.season().clock.noon_of(day.day));
    lesson_.hottest_cover = setting.cover;
    lesson_.light_passed = cover_optics(setting.cover, models_).light_passed;
    add(LessonNumber::light_passed, cover_entry(setting.cover, models_).light_passed);
    add(LessonNumber::sun_absorbed, models_.wraps.at(setting.wrap).short_wave_absorptance);
  }

  void shared_numbers() {
    add(LessonNumber::heat_kills_half, models_.heat.reference_c);
    add(LessonNumber::heat_slope, models_.heat.slope_k);
    add(LessonNumber::callus_freezes, models_.healing.frost_callus_c);
    add(LessonNumber::applies_from, models_.why.applies_loss);
    add(LessonNumber::harmless_air, models_.why.harmless_humidity_share);
    add(LessonNumber::harmless_wind, models_.why.harmless_wind_m_s);
    add(LessonNumber::explained_from, models_.why.explained_loss);
  }

  void ways_of_loss() {
    const std::size_t members = last_.members();
    const auto weight = 1 / static_cast<double>(members);
    for (std::size_t i = 0; i < members; ++i) {
      const SurvivalParts parts = survival_parts(run_.limits(), last_, i);
      lesson_.ways.drying += weight * (1 - parts.water);
      lesson_.ways.heat += weight * (1 - parts.heat);
      lesson_.ways.cold += weight * (1 - parts.cold);
      lesson_.ways.stores += weight * (1 - parts.stores);
    }
  }

  void factors() {
    for (const FactorShare& share : shares_.shares)
      lesson_.fair_shares.emplace_back(share.factor, share.share);
    for (const FactorTrial& trial : shares_.trials) {
      if (std::ranges::find(shares_.shares, trial.factor, &FactorShare::factor) != shares_.shares.end())
        lesson_.tried.push_back({trial.factor, trial.without, trial.alone});
    }
  }

  std::vector<CulpritSign> chances_of(const SeenSign& sign) const {
    const SignChances& likely = *models_.sign_of(event_word(sign.event));
    std::vector<CulpritSign> chances;
    for (const CulpritShare& share : graft_.shares)
      chances.push_back({share.culprit, used(likely.given(culprit_name(share.culprit)))});
    return chances;
  }

  const GraftWhy& graft_;
  const GraftRun& run_;
  const LossShares& shares_;
  const UnionStates& last_;
  const Models& models_;
  WhyLesson lesson_;
};

}  // namespace

WhyLesson lesson_of(const GraftWhy& graft, const GraftRun& run, const LossShares& shares,
                    const UnionStates& last) {
  return Lesson(graft, run, shares, last).gathered();
}

const UsedNumber& WhyLesson::number(LessonNumber which) const {
  return std::ranges::find(numbers, which, &std::pair<LessonNumber, UsedNumber>::first)->second;
}

}  // namespace graftcast
