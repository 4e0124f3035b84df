// The spots of a site, for a terminal.

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/spots_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/spot_words.hpp"

namespace graftcast {

namespace {

std::string share_words(double share) {
  return fmt::format("{:.0f} %", 100 * share);
}

std::string yes_or_no(bool yes) {
  return yes ? tr("yes") : tr("no");
}

std::string spots_table(const SpotsReport& report, const TerminalStyle& style) {
  if (report.spots.empty())
    return labelled(style, Tone::quiet, trc("label", "spots"),
                    tr("site.json names none: every graft is taken to stand in the open."));
  TextTable table({{trc("head", "spot")},
                   {trc("head", "sun"), Align::right},
                   {trc("head", "wind"), Align::right},
                   {trc("head", "rain")},
                   {trc("head: the spot can be moved", "moves")},
                   {trc("head", "part of the day")}});
  for (const auto& [name, spot] : report.spots)
    table.add({printable(name), spot.climate ? "" : share_words(spot.sun_share),
               spot.climate ? "" : share_words(spot.wind_share), yes_or_no(spot.rain),
               yes_or_no(spot.movable), spot_limits_words(spot, style)});
  return table.text(style) + '\n' +
         labelled(style, Tone::quiet, trc("label", "shares"),
                  tr("are of the open sky's sunshine and of the wind at 2 m. Where a thermometer logs in a "
                     "spot, 'graftcast spots --fit FILE --spot NAME' proposes them."));
}

std::string learned_text(const SpotLearned& learned, const Spot& before, const TerminalStyle& style) {
  const SpotFit& fit = learned.fit;
  return labelled(style, Tone::strong, trc("label", "spot"), spot_fit_words(learned)) +
         labelled(style, Tone::strong, trc("label", "sun"), sun_share_words(fit, before)) +
         labelled(style, Tone::strong, trc("label", "wind"), wind_share_words(fit, before)) +
         labelled(style, Tone::quiet, trc("label", "fit"), fit_errors_words(fit)) +
         labelled(style, Tone::strong, trc("label", "so"), spot_proposal_words(learned));
}

}  // namespace

std::string spots_text(const SpotsReport& report, const ReportBasis& basis, const TerminalStyle& style) {
  const std::string text = report.learned
                               ? learned_text(*report.learned, report.spots.at(report.learned->spot), style)
                               : spots_table(report, style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
