// The weeks of the year for grafting, for a terminal.

#include <algorithm>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/terminal_report.hpp"
#include "terminal_parts.hpp"
#include "text_table.hpp"
#include "when_words.hpp"

namespace graftcast {

namespace {

constexpr std::size_t wide_enough_for_ranges = 110, wide_enough_for_worst_day = 70;

/// `24 Mar`: of a season the year is plain, and a week is no weekday.
std::string date_words(LocalDay day) {
  return day_words(day, day).substr(4);
}

std::string week_take(const WhenDay& day, const TerminalStyle& style) {
  // Members that are all but alike need no range.
  if (style.width < wide_enough_for_ranges || day.high - day.low < 0.01) return percent_words(day.take);
  return fmt::format("{} ({})", percent_words(day.take), percent_range_words(style, day.low, day.high));
}

std::string short_verdict(const std::string& verdict) {
  return verdict == "graft with cover" ? "with cover" : verdict;
}

std::string weeks_table(const SeasonAnswer& answer, LocalDay today, const TerminalStyle& style) {
  const bool has_worst_day = style.width >= wide_enough_for_worst_day;
  std::vector<TextTable::Column> columns{{"week of"}, {"verdict"}, {"take", Align::right}};
  if (answer.covered) columns.push_back({"covered", Align::right});
  columns.insert(columns.end(), {{"days", Align::right}, {"limit"}});
  if (has_worst_day) columns.push_back({"worst day"});
  TextTable table(std::move(columns));
  for (const SeasonWeek& week : answer.weeks) {
    const bool is_now = week.first_day <= today && today < week.first_day + std::chrono::days(7);
    std::vector<std::string> cells{date_words(week.first_day) + (is_now ? " <" : ""),
                                   short_verdict(week.verdict), week_take(week.usual, style)};
    if (week.covered) cells.push_back(week_take(*week.covered, style));
    cells.push_back(week.usual.bridge_days ? fmt::format("{:.0f}", *week.usual.bridge_days) : "later");
    cells.push_back(week.usual.limiting);
    if (has_worst_day) cells.push_back(week.usual.worst_day ? date_words(*week.usual.worst_day) : "");
    table.add(std::move(cells));
  }
  return table.text(style);
}

const SeasonWeek& best_week(const SeasonAnswer& answer) {
  return *std::ranges::max_element(answer.weeks, {}, &SeasonWeek::best_take);
}

std::string best_words(const SeasonAnswer& answer, const TerminalStyle& style) {
  if (!answer.best) {
    const SeasonWeek& week = best_week(answer);
    return fmt::format("NO WEEK is good; the best is that of {} with {} take.", date_words(week.first_day),
                       percent_words(week.best_take()));
  }
  const SeasonStretch& best = *answer.best;
  return fmt::format("BEST from {} to {}, {}: {} take{}.", date_words(best.from), date_words(best.to),
                     counted(best.weeks, "week"),
                     best.high - best.low < 0.01 ? percent_words(best.high)
                                                 : percent_range_words(style, best.low, best.high),
                     best.needs_cover ? ", with cover in some or all of them" : "");
}

/// What the model does not know of: wood at hand, sap, custom.
std::string usual_words(const SeasonAnswer& answer) {
  std::vector<std::string> seasons;
  for (const UsualSeason& usual : answer.usual_seasons)
    seasons.push_back(fmt::format("{} to {}", date_words(usual.from), date_words(usual.to)));
  return fmt::format("The trade grafts {} here from {}.", printable(answer.usual.graft.species),
                     listed(seasons));
}

std::string answer_text(const SeasonAnswer& answer, LocalDay today, const TerminalStyle& style) {
  std::string text = labelled(style, Tone::strong, "if", way_words(answer.usual) + '.');
  if (answer.covered)
    text += labelled(style, Tone::quiet, "", fmt::format("Covered: {}.", way_words(*answer.covered)));
  text += labelled(style, answer.best ? Tone::strong : Tone::pressing, "then", best_words(answer, style));
  if (!answer.usual_seasons.empty()) text += labelled(style, Tone::quiet, "", usual_words(answer));
  return text + weeks_table(answer, today, style) + '\n';
}

std::string source_words(const SeasonReport& report) {
  if (report.years.empty()) return "days made up from the log's monthly means and spreads";
  return fmt::format("the log's {} {}", report.years.size() == 1 ? "season" : "seasons",
                     listed(report.years));
}

}  // namespace

std::string when_season_text(const SeasonReport& report, const ReportBasis& basis,
                             const TerminalStyle& style) {
  const LocalDay today = basis.clock->day_of(basis.as_of);
  std::string text = labelled(style, Tone::strong, "season",
                              fmt::format("{}, from {} on, in the weather of {}.", report.name,
                                          date_words(report.midwinter), source_words(report)));
  text += '\n';
  for (const SeasonAnswer& answer : report.answers) text += answer_text(answer, today, style);
  text += labelled(
      style, Tone::quiet, "take",
      "is the chance that a graft made in the middle of the week lives until it has its own water, plain "
      "failure of the method included; days are those to the callus bridge; < marks this week.");
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
