// Degree-days, healing and dates for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "since_care_text.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"
#include "words/state_words.hpp"

namespace graftcast {

namespace {

std::string date_words(const std::optional<LocalDay>& day, LocalDay today) {
  return day ? day_words(*day, today) : std::string("later than the run reaches");
}

std::string band_words(const DateBand& band, LocalDay today) {
  std::string words = date_words(band.median, today);
  if (band.p10 && band.p90 && band.median)
    words += fmt::format(" ({} to {})", day_words(*band.p10, today), day_words(*band.p90, today));
  else if (band.p10)
    words += fmt::format(" (not before {})", day_words(*band.p10, today));
  return words;
}

std::string progress_words(const GraftSince& graft, const TerminalStyle& style) {
  return fmt::format("{} old, {}; healing {:.2f} of the bridge; {} ({}).", age_words(graft.age_days),
                     stage_name(graft.stage), graft.healing, degree_days_words(graft.degree_days, style),
                     rule_words(graft.rule, style));
}

std::string dates_words(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::string text;
  constexpr std::size_t dates_column = label_width + 19;
  const auto line = [&](std::string_view what, const DateBand& band) {
    for (const std::string& words :
         wrapped(band_words(band, today), std::max(style.width, least_width) - dates_column)) {
      text += padded_right(std::string(label_width, ' ') + std::string(what), dates_column) + words + '\n';
      what = {};
    }
  };
  line("bridged", graft.bridged_on);
  line("drinking from", graft.drinking_from);
  if (graft.bagged) line("vent the bag from", graft.vent_bag_from);
  line("slit the wrap from", graft.slit_wrap_from);
  line("buds move", graft.buds_expected);
  return text;
}

std::string verdict_words(const GraftSince& graft) {
  std::string words = fmt::format("{}; alive {}, will take {}{}", graft.verdict, percent_words(graft.alive),
                                  percent_words(graft.still_to_take), graft.overdue ? ", overdue" : "");
  if (!graft.verdict_text.empty()) words += "; " + printable(graft.verdict_text);
  return words + '.';
}

std::string days_table(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style) {
  TextTable table({{"day", Align::left},
                   {"deg-days", Align::right},
                   {"sum", Align::right},
                   {"healing", Align::right},
                   {"water", Align::right},
                   {fmt::format("tissue {}", temperature_unit(style)), Align::right},
                   {fmt::format("air {}", temperature_unit(style)), Align::right},
                   {"", Align::left}});
  const double scale = style.units == UnitSystem::us ? 9.0 / 5.0 : 1.0;
  const LocalDay today = basis.clock->day_of(basis.as_of);
  for (const SinceDay& day : graft.days)
    table.add({day_words(day.day, today), fmt::format("{:.1f}", day.degree_days * scale),
               fmt::format("{:.0f}", day.cumulative * scale), fmt::format("{:.2f}", day.healing),
               fmt::format("{:.2f}", day.water), temperature_figure(style, day.tissue_max_c),
               temperature_figure(style, day.air_max_c),
               fmt::format("{}{}{}", day.ahead ? "ahead" : "", day.ahead && !day.flags.empty() ? ", " : "",
                           fmt::join(day_flags_words(day.flags), ", "))});
  return table.text(style);
}

std::string block(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style, bool daily) {
  std::string text = labelled(style, Tone::strong, "graft",
                              fmt::format("{}: {}", printable(graft.id), identity_words(graft)));
  text += labelled(style, Tone::quiet, "", progress_words(graft, style));
  text += count_lines(graft, style);
  text += dates_words(graft, basis, style);
  text += labelled(style, graft.verdict == "wait" ? Tone::quiet : Tone::pressing, "so", verdict_words(graft));
  const LocalDay today = basis.clock->day_of(basis.as_of);
  if (const std::string worth = worth_words(graft, today); !worth.empty())
    text += labelled(style, Tone::quiet, "", worth);
  text += care_lines(graft, today, style);
  if (daily) text += days_table(graft, basis, style);
  return text + '\n';
}

}  // namespace

std::string since_text(const SinceReport& report, const ReportBasis& basis, const TerminalStyle& style,
                       bool daily) {
  std::string text = heading(basis, style) + '\n';
  if (report.stock) text += stock_block(*report.stock, basis.clock->day_of(basis.as_of), style) + '\n';
  for (const GraftSince& graft : report.grafts) text += block(graft, basis, style, daily);
  if (report.grafts.empty())
    text += labelled(style, Tone::quiet, "none",
                     "No graft had been made by then. Record new ones with 'graftcast graft'.");
  text += wood_block(report.wood, basis.clock->day_of(basis.as_of), style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
