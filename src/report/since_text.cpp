// Degree-days, healing and dates for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "since_care_text.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/degree_day_words.hpp"
#include "words/state_words.hpp"
#include "words/verdict_words.hpp"

namespace graftcast {

namespace {

std::string band_words_of(const DateBand& band, LocalDay today) {
  const std::string median = band.median ? day_words(*band.median, today) : tr("later than the run reaches");
  if (band.p10 && band.p90 && band.median)
    return tr("{day} ({from} to {to})", "day"_a = median, "from"_a = day_words(*band.p10, today),
              "to"_a = day_words(*band.p90, today));
  if (!band.p10) return median;
  return tr("{day} (not before {from})", "day"_a = median, "from"_a = day_words(*band.p10, today));
}

std::string progress_words(const GraftSince& graft, const TerminalStyle& style) {
  return tr("{age} old, {stage}; healing {healing:.2f} of the bridge; {degree_days} ({rule}).",
            "age"_a = age_words(graft.age_days), "stage"_a = stage_words(graft.stage),
            "healing"_a = graft.healing, "degree_days"_a = degree_days_words(graft.degree_days, style),
            "rule"_a = rule_words(graft.rule, style));
}

std::string dates_words(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::string text;
  constexpr std::size_t dates_column = label_width + 19;
  const auto line = [&](std::string what, const DateBand& band) {
    for (const std::string& words :
         wrapped(band_words_of(band, today), std::max(style.width, least_width) - dates_column)) {
      text += padded_right(std::string(label_width, ' ') + what, dates_column) + words + '\n';
      what.clear();
    }
  };
  line(trc("date of a union", "bridged"), graft.bridged_on);
  line(tr("drinking from"), graft.drinking_from);
  if (graft.bagged) line(tr("vent the bag from"), graft.vent_bag_from);
  line(tr("slit the wrap from"), graft.slit_wrap_from);
  line(tr("buds move"), graft.buds_expected);
  return text;
}

std::string verdict_words(const GraftSince& graft) {
  const std::string verdict = verdict_word(graft.verdict()), ground = ground_words(graft.ground);
  const std::string alive = percent_words(graft.alive), take = percent_words(graft.still_to_take);
  return graft.overdue ? tr("{verdict}; alive {alive}, will take {take}, overdue; {ground}.",
                            "verdict"_a = verdict, "alive"_a = alive, "take"_a = take, "ground"_a = ground)
                       : tr("{verdict}; alive {alive}, will take {take}; {ground}.", "verdict"_a = verdict,
                            "alive"_a = alive, "take"_a = take, "ground"_a = ground);
}

/// Whether it is still to come, and what makes it hard.
std::string remark_words(const SinceDay& day) {
  std::vector<std::string> remarks = day_flags_words(day.flags);
  if (day.ahead) remarks.insert(remarks.begin(), trc("day", "ahead"));
  return with_commas(remarks);
}

std::vector<TextTable::Column> day_heads(const TerminalStyle& style) {
  const std::string unit = temperature_unit(style);
  return {{trc("head", "day"), Align::left},
          {trc("head", "deg-days"), Align::right},
          {trc("head", "sum"), Align::right},
          {trc("head", "healing"), Align::right},
          {trc("head", "water"), Align::right},
          {trc("head", "tissue {unit}", "unit"_a = unit), Align::right},
          {trc("head", "air {unit}", "unit"_a = unit), Align::right},
          {"", Align::left}};
}

std::string days_table(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style) {
  TextTable table(day_heads(style));
  const double scale = style.units == UnitSystem::us ? 9.0 / 5.0 : 1.0;
  const LocalDay today = basis.clock->day_of(basis.as_of);
  for (const SinceDay& day : graft.days)
    table.add({day_words(day.day, today), fmt::format("{:.1f}", day.degree_days * scale),
               fmt::format("{:.0f}", day.cumulative * scale), fmt::format("{:.2f}", day.healing),
               fmt::format("{:.2f}", day.water), temperature_figure(style, day.tissue_max_c),
               temperature_figure(style, day.air_max_c), remark_words(day)});
  return table.text(style);
}

std::string title_of(const GraftSince& graft) {
  return tr(
      "{id}: {identity}", "id"_a = printable(graft.id),
      "identity"_a = identity_words(graft.scion, {}, graft.species, graft.method, graft.count, graft.spot));
}

std::string block(const GraftSince& graft, const ReportBasis& basis, const TerminalStyle& style, bool daily) {
  std::string text = labelled(style, Tone::strong, trc("label", "graft"), title_of(graft));
  text += labelled(style, Tone::quiet, "", progress_words(graft, style));
  text += count_lines(graft, style);
  text += dates_words(graft, basis, style);
  text += labelled(style, graft.verdict() == Verdict::wait ? Tone::quiet : Tone::pressing, trc("label", "so"),
                   verdict_words(graft));
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
    text += labelled(style, Tone::quiet, trc("label", "none"),
                     tr("No graft had been made by then. Record new ones with 'graftcast graft'."));
  text += wood_block(report.wood, basis.clock->day_of(basis.as_of), style);
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
