#include "words/spot_words.hpp"

#include <cmath>
#include <vector>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/count_words.hpp"

namespace graftcast {

namespace {

/// Empty where the sun shines on it all day.
std::string sun_hours_words(const Spot& spot) {
  if (spot.sun_from_h && spot.sun_to_h)
    return tr("sun from {from:g} h until {to:g} h", "from"_a = *spot.sun_from_h, "to"_a = *spot.sun_to_h);
  if (spot.sun_from_h) return tr("sun from {from:g} h", "from"_a = *spot.sun_from_h);
  return spot.sun_to_h ? tr("sun until {to:g} h", "to"_a = *spot.sun_to_h) : std::string{};
}

std::string sensor_words(const SpotLearned& learned) {
  const double diameter_mm = 1000 * learned.sensor.diameter_m;
  const double absorbed_pct = 100 * learned.sensor.absorptance;
  return learned.surface == SensorSurface::black
             ? tr("black-like stick of {diameter:.1f} mm that absorbs {share:.0f} % of the sun",
                  "diameter"_a = diameter_mm, "share"_a = absorbed_pct)
             : tr("bark-like stick of {diameter:.1f} mm that absorbs {share:.0f} % of the sun",
                  "diameter"_a = diameter_mm, "share"_a = absorbed_pct);
}

std::string told_words(const FittedShare& share, double before) {
  if (!std::isnan(share.standard_error))
    return tr("{value:.2f} +- {error:.2f} (a standard error); site.json has {before:.2f}.",
              "value"_a = share.value, "error"_a = share.standard_error, "before"_a = before);
  if (share.value <= 0 || share.value >= 1)
    return tr("{value:.2f}, the end of its range; site.json has {before:.2f}.", "value"_a = share.value,
              "before"_a = before);
  return tr("{value:.2f}; site.json has {before:.2f}.", "value"_a = share.value, "before"_a = before);
}

std::string share_words(const FittedShare& share, const SpotFit& fit, double before) {
  if (share.is_told()) return told_words(share, before);
  return tr("not told by this log: {why}. {before:.2f} stays.",
            "why"_a = share_doubt_words(*share.doubt, fit), "before"_a = before);
}

/// Members of JSON, as site.json wants them.
std::string members_of(const SpotShares& shares) {
  std::vector<std::string> members;
  if (shares.sun) members.push_back(fmt::format("\"sun\": {:.2f}", *shares.sun));
  if (shares.wind) members.push_back(fmt::format("\"wind\": {:.2f}", *shares.wind));
  return fmt::format("{}", fmt::join(members, ", "));
}

}  // namespace

std::string spot_limits_words(const Spot& spot, const TerminalStyle& style) {
  if (spot.climate)
    return tr("room of {temperature}, {humidity:.0f} % humidity",
              "temperature"_a = temperature_words(style, spot.climate->air_temperature_c),
              "humidity"_a = spot.climate->relative_humidity_pct);
  std::vector<std::string> limits;
  if (const std::string sun = sun_hours_words(spot); !sun.empty()) limits.push_back(sun);
  if (!spot.horizon.empty()) limits.push_back(tr("skyline"));
  return with_commas(limits);
}

std::string share_doubt_words(ShareDoubt doubt, const SpotFit& fit) {
  switch (doubt) {
    case ShareDoubt::few_sunny_hours:
      return trn("only {n} hour has sun in the open, {least} are needed",
                 "only {n} hours have sun in the open, {least} are needed",
                 static_cast<long>(fit.sunny_hours), "n"_a = fit.sunny_hours,
                 "least"_a = fit.least_sunny_hours);
    case ShareDoubt::wide_error:
      return tr("its error is too large: a longer log, or a blacker thermometer, would tell");
    case ShareDoubt::anemometers_disagree:
      return tr("the two anemometers do not agree well enough");
    case ShareDoubt::no_wind_measured:
      return tr("the site's weather has no wind of its own");
    case ShareDoubt::no_sun:
      return tr("without sun the thermometer stays near the air, whatever the wind");
    case ShareDoubt::end_of_range:
      return tr("the best wind share lies at the end of its range");
    default:
      return tr("too little sun falls on the thermometer, or the wind varies too little");
  }
}

std::string spot_fit_words(const SpotLearned& learned) {
  const SpotFit& fit = learned.fit;
  return tr(
      "{spot}: {hours} with both logs, {sunny} of them sunny and {dark} dark. The thermometer is taken "
      "as a {sensor}.",
      "spot"_a = printable(learned.spot), "hours"_a = hours_words(fit.hours), "sunny"_a = fit.sunny_hours,
      "dark"_a = fit.dark_hours, "sensor"_a = sensor_words(learned));
}

std::string sun_share_words(const SpotFit& fit, const Spot& before) {
  return share_words(fit.sun, fit, before.sun_share);
}

std::string wind_share_words(const SpotFit& fit, const Spot& before) {
  const std::string words = share_words(fit.wind, fit, before.wind_share);
  if (!fit.wind.is_told() || fit.wind_hours == 0) return words;
  return words + ' ' +
         tr("By wind measured at the spot in {hours}.", "hours"_a = hours_words(fit.wind_hours));
}

std::string fit_errors_words(const SpotFit& fit) {
  std::string words =
      tr("RMSE {before:.2f} K with the shares of site.json, {after:.2f} K with these. What is left persists "
         "from hour to hour ({persistence:.2f}), so the {hours} hours count as {worth:.0f}.",
         "before"_a = fit.rmse_before_k, "after"_a = fit.rmse_after_k, "persistence"_a = fit.autocorrelation,
         "hours"_a = fit.hours, "worth"_a = fit.effective_hours);
  const double offset_k = std::abs(fit.sensor_offset_k);
  words += ' ' + (fit.sensor_offset_k < 0
                      ? tr("The thermometer reads {offset:.1f} K low beside them.", "offset"_a = offset_k)
                      : tr("The thermometer reads {offset:.1f} K high beside them.", "offset"_a = offset_k));
  if (std::abs(fit.correlation) > 0.5)
    words += ' ' + tr("The errors of the two shares go together ({correlation:.2f}).",
                      "correlation"_a = fit.correlation);
  return words;
}

std::string spot_proposal_words(const SpotLearned& learned) {
  if (!learned.proposed.sun && !learned.proposed.wind)
    return tr("nothing to propose: the log tells neither share.");
  const std::string spot = printable(learned.spot);
  const std::string members = members_of(learned.proposed);
  return learned.is_written
             ? tr("in site.json, under \"spots\", \"{spot}\": {members} (written).", "spot"_a = spot,
                  "members"_a = members)
             : tr("in site.json, under \"spots\", \"{spot}\": {members} (--write puts them there).",
                  "spot"_a = spot, "members"_a = members);
}

}  // namespace graftcast
