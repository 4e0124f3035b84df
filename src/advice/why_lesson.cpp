#include "why_lesson.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "plant/cover_parts.hpp"
#include "why_words.hpp"
#include "wording.hpp"

namespace graftcast {

namespace {

/// Writes the steps in their order.
class Lesson {
 public:
  Lesson(const GraftWhy& graft, const GraftRun& run, const LossShares& shares, const UnionStates& last)
      : graft_(graft), run_(run), shares_(shares), last_(last), models_(run.season().models) {}

  std::vector<LessonStep> steps() {
    question();
    if (!graft_.days.empty()) climate();
    water();
    two_clocks();
    ways_of_loss();
    one_at_a_time();
    fair_shares();
    signs();
    verdict();
    what_is_left_out();
    return std::move(steps_);
  }

 private:
  void add(std::string title, std::string text, std::vector<std::string> sources = {}) {
    steps_.push_back({std::move(title), std::move(text), std::move(sources)});
  }

  /// "heat, T0: judgement ... (C)".
  static std::string source(std::string_view what, const Parameter& parameter) {
    return fmt::format("{} {:g} {}: {} (grade {})", what, parameter.value, parameter.unit, parameter.source,
                       parameter.grade);
  }
  void question() {
    add("The question",
        fmt::format("{} members of an ensemble, each with numbers of its own within what is plausible, live "
                    "the weather from grafting to {}. Weather loses {:.0f} % of them. No note weighs them: "
                    "they are what could be expected when it was made.",
                    run_.season().settings.members, moment_text(run_.season(), graft_.until),
                    100 * graft_.loss),
        {source("days to the bridge at the optimum", run_.graft().species->bridge_days),
         source("pace of the method", run_.graft().method->rate_factor)});
  }

  void climate() {
    const WhyDay& day = *std::ranges::max_element(graft_.days, {}, &WhyDay::tissue_max_c);
    const Setting& setting = run_.graft().setting_at(run_.season().clock.noon_of(day.day));
    const Cover& cover = cover_entry(setting.cover, models_);
    add("Air is not tissue",
        fmt::format(
            "On {} the air reached {}, the tissue {} {}. The wood takes up sun and gives it off to the "
            "air; a cover lets {:.0f} % of the sun through and holds the heat. The air pulled with {:.1f} "
            "kPa in the open and with {:.1f} kPa at the graft.",
            weekday_text(day.day), degrees_text(run_.season(), day.air_max_c),
            degrees_text(run_.season(), day.tissue_max_c), place_words(setting.cover),
            100 * cover_optics(setting.cover, models_).light_passed, day.vpd_max_kpa, day.own_vpd_max_kpa),
        {"energy balance of wood in wind: Churchill & Bernstein 1977 (heat across a cylinder); Campbell & "
         "Norman 1998, ch. 12 (recalled)",
         "deficits of vapour pressure: FAO-56, Allen et al. 1998, eq. 11",
         source("light passed", cover.light_passed),
         source("sun absorbed by the bark", models_.wraps.at(setting.wrap).short_wave_absorptance)});
  }

  void water() {
    const ScionState& state = *run_.graft().scion_state;
    const Setting& setting = run_.graft().settings.front();
    double lowest = 1;
    for (const WhyDay& day : graft_.days) lowest = std::min(lowest, day.water);
    add("A store that is not filled",
        fmt::format(
            "Until vessels join, the scion lives on what it holds and what seeps in at the cut. Its "
            "water went down to {:.0f} % of full; at {:.0f} % half of such scions are lost, and callus "
            "stops at {:.0f} %.",
            100 * lowest, 100 * state.lost_water.value, 100 * state.stops_callus_water.value),
        {source("conductance of the bark", state.bark_conductance_mmol),
         source("wrap, factor on it", models_.wraps.at(setting.wrap).conductance_factor),
         source("water at which half are lost", state.lost_water)});
  }

  static std::string on(const DateBand& band) {
    return band.median ? "on " + weekday_text(*band.median) : std::string("not by then");
  }

  void two_clocks() {
    add("Two clocks",
        fmt::format(
            "The union's: {:.2f} of the callus bridge at the end; bridged {}, drinking {}. The buds': "
            "{:.2f} of the way to push; moved {}. A graft is safe when the union's clock is ahead, for "
            "leaves drink what only joined vessels bring.",
            graft_.healing, on(graft_.bridged_on), on(graft_.drinking_from), graft_.bud_clock,
            on(graft_.buds_moved_on)),
        {"pace of callus by temperature: Yan & Hunt 1999, with the species' limits",
         source("optimum", run_.graft().species->callus_optimum_c),
         source("degree-days to push", run_.graft().species->bud_push_degree_days)});
  }

  void ways_of_loss() {
    SurvivalParts lost{0, 0, 0, 0};
    const std::size_t members = last_.members();
    for (std::size_t i = 0; i < members; ++i) {
      const SurvivalParts parts = survival_parts(run_.limits(), last_, i);
      const auto weight = 1 / static_cast<double>(members);
      lost.water += weight * (1 - parts.water);
      lost.heat += weight * (1 - parts.heat);
      lost.cold += weight * (1 - parts.cold);
      lost.stores += weight * (1 - parts.stores);
    }
    add("Four ways to be lost",
        fmt::format("Drying alone would lose {:.0f} %, heat {:.0f} %, cold {:.0f} %, spent stores {:.0f} %. "
                    "These are ways, not causes: a scion may dry because the air was dry, because it stood "
                    "bare, or because the union was slow.",
                    100 * lost.water, 100 * lost.heat, 100 * lost.cold, 100 * lost.stores),
        {source("heat, ten minutes kill half at", models_.heat.reference_c),
         source("heat, for ten times as long at so much less", models_.heat.slope_k),
         source("fresh callus freezes at", models_.healing.frost_callus_c),
         source("stores last", run_.graft().scion_state->stores_days)});
  }

  void one_at_a_time() {
    std::string text =
        "Each factor is made harmless by itself, in the same weather with the same members. Loss "
        "without it, and with it alone:";
    std::size_t told = 0;
    for (const FactorTrial& trial : shares_.trials) {
      const bool moves =
          std::ranges::find(shares_.shares, trial.factor, &FactorShare::factor) != shares_.shares.end();
      if (!moves) continue;
      text += fmt::format("{} {} {:.0f} and {:.0f} %", told++ == 0 ? "" : ";",
                          cause_title(factor_name(trial.factor)), 100 * trial.without, 100 * trial.alone);
    }
    if (told == 0) text = "Made harmless one at a time, no factor moves the loss.";
    text +=
        fmt::format(". As it was {:.0f} %, all of them harmless {:.0f} %. The others move less than {:g} %.",
                    100 * shares_.all, 100 * shares_.none, 100 * models_.why.applies_loss.value);
    add("One thing at a time", std::move(text),
        {source("harmless air", models_.why.harmless_humidity_share),
         source("harmless wind", models_.why.harmless_wind_m_s)});
  }

  void fair_shares() {
    std::string text =
        "Factors work together, so what one takes depends on which others are there. Each gets the mean of "
        "what it "
        "adds, over all orders in which they could have come; so the shares add up to the whole:";
    for (const FactorShare& share : shares_.shares)
      text += fmt::format(" {} {:+.2f},", cause_title(factor_name(share.factor)), share.share);
    text += fmt::format(" together {:+.2f}.", shares_.all - shares_.none);
    add("Shares that add up", std::move(text), {"Shapley 1953, A value for n-person games (recalled)"});
  }

  void signs() {
    if (graft_.signs.empty()) {
      add("What was seen",
          "No sign is noted that tells causes apart. Shrivelled, wilted, blackened, mould or "
          "bleeding, noted when it is seen, would.");
      return;
    }
    for (const SeenSign& sign : graft_.signs) {
      const SignChances& likely = *models_.sign_of(event_word(sign.event));
      std::string text =
          fmt::format("Noted {} on {} ({}). How often it is seen after each cause:", event_word(sign.event),
                      weekday_text(run_.season().clock.day_of(sign.when)), sign.title);
      for (const CauseShare& cause : graft_.shares)
        text += fmt::format(" {} {:.2f},", cause_title(cause.cause), likely.given(cause.cause).value);
      text.back() = '.';
      std::vector<std::string> sources;
      for (const CauseShare& cause : graft_.shares) {
        const Parameter& chance = likely.given(cause.cause);
        sources.push_back(
            fmt::format("{}: {} (grade {})", cause_title(cause.cause), chance.source, chance.grade));
      }
      add("What was seen", std::move(text), std::move(sources));
    }
  }

  void verdict() {
    std::string text = "Share times the chance of what was seen, made to add up to 1 (Bayes):";
    for (const CauseShare& cause : graft_.shares)
      text += fmt::format(" {} {:.0f} %,", cause_title(cause.cause), 100 * cause.chance);
    text.back() = '.';
    text += fmt::format(
        " The factors move the loss by {:.2f}; from {:g} on the weather counts as an explanation: "
        "here it {}.",
        shares_.all - shares_.none, models_.why.explained_loss.value,
        graft_.explained ? "does" : "does not explain it");
    add("The verdict", std::move(text),
        {source("explained from", models_.why.explained_loss),
         source("take in good weather", run_.graft().method->take_share)});
  }

  void what_is_left_out() {
    add("What the model does not know",
        "Incompatibility, virus, the grafter's hand, borers and sap bleeding: they all sit in the plain "
        "failure "
        "of the method.");
  }

  const GraftWhy& graft_;
  const GraftRun& run_;
  const LossShares& shares_;
  const UnionStates& last_;
  const Models& models_;
  std::vector<LessonStep> steps_;
};

}  // namespace

std::vector<LessonStep> lesson_of(const GraftWhy& graft, const GraftRun& run, const LossShares& shares,
                                  const UnionStates& last) {
  return Lesson(graft, run, shares, last).steps();
}

}  // namespace graftcast
