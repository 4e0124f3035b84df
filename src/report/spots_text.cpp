// The spots of a site, for a terminal.

#include <cmath>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/spots_report.hpp"
#include "report/terminal_report.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"

namespace graftcast {

namespace {

std::string share_words(double share) {
  return fmt::format("{:.0f} %", 100 * share);
}

/// What takes part of the day, or sets the climate.
std::string limits_words(const Spot& spot, const TerminalStyle& style) {
  if (spot.climate)
    return fmt::format("room of {}, {:.0f} % humidity",
                       temperature_words(style, spot.climate->air_temperature_c),
                       spot.climate->relative_humidity_pct);
  std::string words;
  if (spot.sun_from_h) words += fmt::format("sun from {:g} h", *spot.sun_from_h);
  if (spot.sun_to_h) words += fmt::format("{}until {:g} h", words.empty() ? "sun " : " ", *spot.sun_to_h);
  if (!spot.horizon.empty()) words += words.empty() ? "skyline" : ", skyline";
  return words;
}

std::string spots_table(const SpotsReport& report, const TerminalStyle& style) {
  if (report.spots.empty())
    return labelled(style, Tone::quiet, "spots",
                    "site.json names none: every graft is taken to stand in the open.");
  TextTable table(
      {{"spot"}, {"sun", Align::right}, {"wind", Align::right}, {"rain"}, {"moves"}, {"part of the day"}});
  for (const auto& [name, spot] : report.spots)
    table.add({printable(name), spot.climate ? "" : share_words(spot.sun_share),
               spot.climate ? "" : share_words(spot.wind_share), spot.rain ? "yes" : "no",
               spot.movable ? "yes" : "no", limits_words(spot, style)});
  return table.text(style) + '\n' +
         labelled(style, Tone::quiet, "shares",
                  "are of the open sky's sunshine and of the wind at 2 m. Where a thermometer logs in a "
                  "spot, 'graftcast "
                  "spots --fit FILE --spot NAME' proposes them.");
}

std::string fitted_words(const FittedShare& share, double before) {
  std::string words = fmt::format("{:.2f}", share.value);
  words += std::isnan(share.standard_error)
               ? std::string(share.value <= 0 || share.value >= 1 ? ", the end of its range" : "")
               : fmt::format(" +- {:.2f} (a standard error)", share.standard_error);
  return fmt::format("{}; site.json has {:.2f}.", words, before);
}

std::string untold_words(const FittedShare& share, double before) {
  return fmt::format("not told by this log: {}. {:.2f} stays.", share.why_not, before);
}

std::string sensor_words(const SpotLearned& learned) {
  return fmt::format("{}-like stick of {:.1f} mm that absorbs {:.0f} % of the sun", learned.sensor_word,
                     1000 * learned.sensor.diameter_m, 100 * learned.sensor.absorptance);
}

std::string errors_words(const SpotFit& fit) {
  std::string words = fmt::format(
      "RMSE {:.2f} K with the shares of site.json, {:.2f} K with these. What is left persists from hour to "
      "hour ({:.2f}), "
      "so the {} hours count as {:.0f}. The thermometer reads {:.1f} K {} beside them.",
      fit.rmse_before_k, fit.rmse_after_k, fit.autocorrelation, fit.hours, fit.effective_hours,
      std::abs(fit.sensor_offset_k), fit.sensor_offset_k < 0 ? "low" : "high");
  if (std::abs(fit.correlation) > 0.5)
    words += fmt::format(" The errors of the two shares go together ({:.2f}).", fit.correlation);
  return words;
}

std::string proposal_words(const SpotLearned& learned) {
  const SpotShares& shares = learned.proposed;
  if (!shares.sun && !shares.wind) return "nothing to propose: the log tells neither share.";
  std::string members;
  if (shares.sun) members = fmt::format("\"sun\": {:.2f}", *shares.sun);
  if (shares.wind) members += fmt::format("{}\"wind\": {:.2f}", members.empty() ? "" : ", ", *shares.wind);
  return fmt::format("in site.json, under \"spots\", \"{}\": {}{}", printable(learned.spot), members,
                     learned.is_written ? " (written)." : " (--write puts them there).");
}

std::string learned_text(const SpotLearned& learned, const Spot& before, const TerminalStyle& style) {
  const SpotFit& fit = learned.fit;
  std::string text = labelled(
      style, Tone::strong, "spot",
      fmt::format("{}: {} with both logs, {} of them sunny and {} dark. The thermometer is taken as a {}.",
                  printable(learned.spot), counted(fit.hours, "hour"), fit.sunny_hours, fit.dark_hours,
                  sensor_words(learned)));
  text += labelled(
      style, Tone::strong, "sun",
      fit.sun.is_told ? fitted_words(fit.sun, before.sun_share) : untold_words(fit.sun, before.sun_share));
  std::string wind = fit.wind.is_told ? fitted_words(fit.wind, before.wind_share)
                                      : untold_words(fit.wind, before.wind_share);
  if (fit.wind.is_told && fit.wind_hours > 0)
    wind += fmt::format(" By wind measured at the spot in {}.", counted(fit.wind_hours, "hour"));
  text += labelled(style, Tone::strong, "wind", wind);
  text += labelled(style, Tone::quiet, "fit", errors_words(fit));
  return text + labelled(style, Tone::strong, "so", proposal_words(learned));
}

}  // namespace

std::string spots_text(const SpotsReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  const std::string text = report.learned
                               ? learned_text(*report.learned, report.spots.at(report.learned->spot), style)
                               : spots_table(report, style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
