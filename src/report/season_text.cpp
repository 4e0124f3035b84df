// The weeks of the year for grafting, for a terminal.

#include <algorithm>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "text_table.hpp"
#include "words/count_words.hpp"
#include "words/date_words.hpp"
#include "words/when_words.hpp"

namespace graftcast {

namespace {

constexpr std::size_t wide_enough_for_ranges = 110, wide_enough_for_worst_day = 70;
constexpr double hardly_apart = 0.01;  // members that are all but alike need no range

std::string week_take(const WhenDay& day, const TerminalStyle& style) {
  const std::string take = percent_words(day.take);
  if (style.width < wide_enough_for_ranges || day.high - day.low < hardly_apart) return take;
  return trc("a percentage and its range", "{take} ({range})", "take"_a = take,
             "range"_a = percent_range_words(style, day.low, day.high));
}

std::string short_verdict_words(WhenVerdict verdict) {
  return verdict == WhenVerdict::graft_with_cover ? trc("verdict, short", "with cover")
                                                  : when_verdict_words(verdict);
}

TextTable weeks_table(bool has_covered, bool has_worst_day) {
  std::vector<TextTable::Column> columns{
      {trc("head", "week of")}, {trc("head", "verdict")}, {trc("head", "take"), Align::right}};
  if (has_covered) columns.push_back({trc("head", "covered"), Align::right});
  columns.insert(columns.end(), {{trc("head", "days"), Align::right}, {trc("head", "limit")}});
  if (has_worst_day) columns.push_back({trc("head", "worst day")});
  return TextTable(std::move(columns));
}

std::string weeks_text(const SeasonAnswer& answer, LocalDay today, const TerminalStyle& style) {
  const bool has_worst_day = style.width >= wide_enough_for_worst_day;
  TextTable table = weeks_table(answer.covered.has_value(), has_worst_day);
  for (const SeasonWeek& week : answer.weeks) {
    const bool is_now = week.first_day <= today && today < week.first_day + std::chrono::days(7);
    std::vector<std::string> cells{date_words(week.first_day) + (is_now ? " <" : ""),
                                   short_verdict_words(week.verdict), week_take(week.usual, style)};
    if (week.covered) cells.push_back(week_take(*week.covered, style));
    cells.push_back(bridge_days_words(week.usual));
    cells.push_back(limit_words(week.usual.limiting));
    if (has_worst_day) cells.push_back(week.usual.worst_day ? date_words(*week.usual.worst_day) : "");
    table.add(std::move(cells));
  }
  return table.text(style);
}

const SeasonWeek& best_week(const SeasonAnswer& answer) {
  return *std::ranges::max_element(answer.weeks, {}, &SeasonWeek::best_take);
}

std::string no_week_words(const SeasonAnswer& answer) {
  const SeasonWeek& week = best_week(answer);
  return tr("NO WEEK is good; the best is that of {day} with {take} take.",
            "day"_a = date_words(week.first_day), "take"_a = percent_words(week.best_take()));
}

std::string best_words(const SeasonStretch& best, const TerminalStyle& style) {
  const std::string from = date_words(best.from), to = date_words(best.to), weeks = weeks_words(best.weeks);
  const std::string take = best.high - best.low < hardly_apart
                               ? percent_words(best.high)
                               : percent_range_words(style, best.low, best.high);
  return best.needs_cover
             ? tr("BEST from {from} to {to}, {weeks}: {take} take, with cover in some or all of them.",
                  "from"_a = from, "to"_a = to, "weeks"_a = weeks, "take"_a = take)
             : tr("BEST from {from} to {to}, {weeks}: {take} take.", "from"_a = from, "to"_a = to,
                  "weeks"_a = weeks, "take"_a = take);
}

/// What the model does not know of: wood at hand, sap, custom.
std::string usual_words(const SeasonAnswer& answer) {
  std::vector<std::string> seasons;
  for (const UsualSeason& usual : answer.usual_seasons)
    seasons.push_back(
        trc("dates", "{from} to {to}", "from"_a = date_words(usual.from), "to"_a = date_words(usual.to)));
  return tr("The trade grafts {species} here from {dates}.",
            "species"_a = printable(answer.usual.graft.species), "dates"_a = listed(seasons));
}

std::string answer_text(const SeasonAnswer& answer, LocalDay today, const TerminalStyle& style) {
  std::string text =
      labelled(style, Tone::strong, trc("label: if it is made so", "if"), way_words(answer.usual) + '.');
  if (answer.covered)
    text += labelled(style, Tone::quiet, "", tr("Covered: {way}.", "way"_a = way_words(*answer.covered)));
  text +=
      labelled(style, answer.best ? Tone::strong : Tone::pressing, trc("label: then the verdict is", "then"),
               answer.best ? best_words(*answer.best, style) : no_week_words(answer));
  if (!answer.usual_seasons.empty()) text += labelled(style, Tone::quiet, "", usual_words(answer));
  return text + weeks_text(answer, today, style) + '\n';
}

std::string weather_words(const SeasonReport& report) {
  if (report.years.empty()) return tr("days made up from the log's monthly means and spreads");
  return trn("the log's season {years}", "the log's seasons {years}", static_cast<long>(report.years.size()),
             "years"_a = listed(report.years));
}

}  // namespace

std::string when_season_text(const SeasonReport& report, const ReportBasis& basis,
                             const TerminalStyle& style) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::string text =
      labelled(style, Tone::strong, trc("label", "season"),
               tr("{season}, from {day} on, in the weather of {weather}.", "season"_a = report.name,
                  "day"_a = date_words(report.midwinter), "weather"_a = weather_words(report)));
  text += '\n';
  for (const SeasonAnswer& answer : report.answers) text += answer_text(answer, today, style);
  text += labelled(
      style, Tone::quiet, trc("label", "take"),
      tr("is the chance that a graft made in the middle of the week lives until it has its own water, plain "
         "failure of the method included; days are those to the callus bridge; < marks this week."));
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
