#include "words/lesson_words.hpp"

#include <algorithm>

#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/date_words.hpp"
#include "words/lesson_sources.hpp"
#include "words/measure_words.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

/// Writes the steps in their order.
class Lesson {
 public:
  Lesson(const GraftWhy& graft, const Clock& clock, UnitSystem units)
      : graft_(graft), lesson_(*graft.lesson), clock_(clock), units_(units) {}

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

  std::string source(LessonNumber which) const { return number_source_words(which, lesson_.number(which)); }
  double value(LessonNumber which) const { return lesson_.number(which).value; }

  void question() {
    add(tr("The question"),
        tr("{members} members of an ensemble, each with numbers of its own within what is plausible, live "
           "the weather from grafting to {until}. Weather loses {loss:.0f} % of them. No note weighs them: "
           "they are what could be expected when it was made.",
           "members"_a = lesson_.members, "until"_a = dated_moment_words(clock_, graft_.until),
           "loss"_a = 100 * graft_.loss),
        {source(LessonNumber::bridge_days), source(LessonNumber::pace_of_method)});
  }

  void climate() {
    const WhyDay& day = *std::ranges::max_element(graft_.days, {}, &WhyDay::tissue_max_c);
    add(tr("Air is not tissue"),
        tr("On {day} the air reached {air}, the tissue {inside} {tissue}. The wood takes up sun and gives it "
           "off to the air; a cover lets {light:.0f} % of the sun through and holds the heat. The air pulled "
           "with {open:.1f} kPa in the open and with {own:.1f} kPa at the graft.",
           "day"_a = day_words(day.day), "air"_a = degrees_words(units_, day.air_max_c),
           "inside"_a = place_words_of(lesson_.hottest_cover),
           "tissue"_a = degrees_words(units_, day.tissue_max_c), "light"_a = 100 * lesson_.light_passed,
           "open"_a = day.vpd_max_kpa, "own"_a = day.own_vpd_max_kpa),
        {balance_source_words(), deficit_source_words(), source(LessonNumber::light_passed),
         source(LessonNumber::sun_absorbed)});
  }

  void water() {
    double lowest = 1;
    for (const WhyDay& day : graft_.days) lowest = std::min(lowest, day.water);
    add(tr("A store that is not filled"),
        tr("Until vessels join, the scion lives on what it holds and what seeps in at the cut. Its water "
           "went "
           "down to {lowest:.0f} % of full; at {lost:.0f} % half of such scions are lost, and callus stops "
           "at "
           "{stops:.0f} %.",
           "lowest"_a = 100 * lowest, "lost"_a = 100 * value(LessonNumber::water_half_lost),
           "stops"_a = 100 * value(LessonNumber::water_stops_callus)),
        {source(LessonNumber::bark_conductance), source(LessonNumber::wrap_factor),
         source(LessonNumber::water_half_lost)});
  }

  static std::string on(const DateBand& band) {
    return band.median ? trc("date", "on {day}", "day"_a = day_words(*band.median))
                       : trc("date", "not by then");
  }

  void two_clocks() {
    add(tr("Two clocks"),
        tr("The union's: {healing:.2f} of the callus bridge at the end; bridged {bridged}, drinking "
           "{drinking}. The buds': {buds:.2f} of the way to push; moved {moved}. A graft is safe when the "
           "union's clock is ahead, for leaves drink what only joined vessels bring.",
           "healing"_a = graft_.healing, "bridged"_a = on(graft_.bridged_on),
           "drinking"_a = on(graft_.drinking_from), "buds"_a = graft_.bud_clock,
           "moved"_a = on(graft_.buds_moved_on)),
        {pace_source_words(), source(LessonNumber::callus_optimum), source(LessonNumber::push_degree_days)});
  }

  void ways_of_loss() {
    const WaysOfLoss& ways = lesson_.ways;
    add(tr("Four ways to be lost"),
        tr("Drying alone would lose {drying:.0f} %, heat {heat:.0f} %, cold {cold:.0f} %, spent stores "
           "{stores:.0f} %. These are ways, not causes: a scion may dry because the air was dry, because it "
           "stood bare, or because the union was slow.",
           "drying"_a = 100 * ways.drying, "heat"_a = 100 * ways.heat, "cold"_a = 100 * ways.cold,
           "stores"_a = 100 * ways.stores),
        {source(LessonNumber::heat_kills_half), source(LessonNumber::heat_slope),
         source(LessonNumber::callus_freezes), source(LessonNumber::stores_last)});
  }

  std::string tried_words() const {
    if (lesson_.tried.empty()) return tr("Made harmless one at a time, no factor moves the loss.");
    std::vector<std::string> tried;
    for (const TriedFactor& factor : lesson_.tried)
      tried.push_back(tr("{culprit} {without:.0f} and {alone:.0f} %",
                         "culprit"_a = culprit_words(factor.factor), "without"_a = 100 * factor.without,
                         "alone"_a = 100 * factor.alone));
    return tr(
        "Each factor is made harmless by itself, in the same weather with the same members. Loss "
        "without it, and with it alone: {factors}.",
        "factors"_a = with_semicolons(tried));
  }

  void one_at_a_time() {
    add(tr("One thing at a time"),
        tried_words() + ' ' +
            tr("As it was {loss:.0f} %, all of them harmless {harmless:.0f} %. The others move less than "
               "{least:g} %.",
               "loss"_a = 100 * lesson_.loss, "harmless"_a = 100 * lesson_.loss_harmless,
               "least"_a = 100 * value(LessonNumber::applies_from)),
        {source(LessonNumber::harmless_air), source(LessonNumber::harmless_wind)});
  }

  void fair_shares() {
    std::vector<std::string> shares;
    for (const auto& [factor, share] : lesson_.fair_shares)
      shares.push_back(tr("{culprit} {share:+.2f}", "culprit"_a = culprit_words(factor), "share"_a = share));
    shares.push_back(tr("together {share:+.2f}", "share"_a = lesson_.loss - lesson_.loss_harmless));
    add(tr("Shares that add up"),
        tr("Factors work together, so what one takes depends on which others are there. Each gets the mean "
           "of what it adds, over all orders in which they could have come; so the shares add up to the "
           "whole: {shares}.",
           "shares"_a = with_commas(shares)),
        {shares_source_words()});
  }

  void signs() {
    if (graft_.signs.empty()) {
      add(tr("What was seen"), tr("No sign is noted that tells causes apart. Shrivelled, wilted, blackened, "
                                  "mould or bleeding, noted when it is seen, would."));
      return;
    }
    for (std::size_t i = 0; i < graft_.signs.size(); ++i) sign(graft_.signs[i], lesson_.sign_chances[i]);
  }

  void sign(const SeenSign& seen, const std::vector<CulpritSign>& of_sign) {
    std::vector<std::string> chances, sources;
    for (const CulpritSign& of : of_sign) {
      chances.push_back(tr("{culprit} {chance:.2f}", "culprit"_a = culprit_words(of.culprit),
                           "chance"_a = of.chance.value));
      sources.push_back(sign_source_words(of));
    }
    add(tr("What was seen"),
        tr("Noted {sign} on {day} ({meaning}). How often it is seen after each cause: {chances}.",
           "sign"_a = event_word(seen.event), "day"_a = day_words(clock_.day_of(seen.when)),
           "meaning"_a = translated(seen.title), "chances"_a = with_commas(chances)),
        std::move(sources));
  }

  void verdict() {
    std::vector<std::string> chances;
    for (const CulpritShare& share : graft_.shares)
      chances.push_back(tr("{culprit} {chance:.0f} %", "culprit"_a = culprit_words(share.culprit),
                           "chance"_a = 100 * share.chance));
    const double moved = lesson_.loss - lesson_.loss_harmless;
    const double least = value(LessonNumber::explained_from);
    add(tr("The verdict"),
        tr("Share times the chance of what was seen, made to add up to 1 (Bayes): {chances}.",
           "chances"_a = with_commas(chances)) +
            ' ' +
            (graft_.explained
                 ? tr("The factors move the loss by {moved:.2f}; from {least:g} on the weather counts as an "
                      "explanation: here it does.",
                      "moved"_a = moved, "least"_a = least)
                 : tr("The factors move the loss by {moved:.2f}; from {least:g} on the weather counts as an "
                      "explanation: here it does not explain it.",
                      "moved"_a = moved, "least"_a = least)),
        {source(LessonNumber::explained_from), source(LessonNumber::take_in_good_weather)});
  }

  void what_is_left_out() {
    add(tr("What the model does not know"),
        tr("Incompatibility, virus, the grafter's hand, borers and sap bleeding: they all sit in the plain "
           "failure of the method."));
  }

  const GraftWhy& graft_;
  const WhyLesson& lesson_;
  const Clock& clock_;
  UnitSystem units_;
  std::vector<LessonStep> steps_;
};

}  // namespace

std::vector<LessonStep> lesson_steps(const GraftWhy& graft, const Clock& clock, UnitSystem units) {
  return graft.lesson ? Lesson(graft, clock, units).steps() : std::vector<LessonStep>{};
}

}  // namespace graftcast
