#pragma once
// Answers as text for a terminal. Every line is within the style's width, apart from words that cannot be
// broken.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "graftcast/learn.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/season_weeks.hpp"
#include "graftcast/since.hpp"
#include "graftcast/when.hpp"
#include "graftcast/why.hpp"
#include "parameters/models.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"
#include "weather/forecast_skill.hpp"
#include "weather/weather_days.hpp"

namespace graftcast {

/// The weather at hand and how fresh it is, in one or two sentences.
std::string freshness(const ReportBasis& basis);

/// The weather's freshness, then a block for each graft that needs something, a line for each to watch, how
/// many to leave alone, the plan for the supplies at hand, then the cautions.
std::string morning_text(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style);

/// The same in one line: how many rows of each urgency, and the row at greatest risk.
std::string morning_brief(const MorningReport& report, const ReportBasis& basis, const TerminalStyle& style);

/// A block a graft; with `daily` its days as a table.
std::string since_text(const SinceReport& report, const ReportBasis& basis, const TerminalStyle& style,
                       bool daily);

/// Why one graft was lost: causes, both clocks, what would have saved it, the shares as a table, then the
/// days that were flagged, noted or took something (with `all_days` every day), and the lesson where there is
/// one.
std::string why_text(const GraftWhy& graft, const ReportBasis& basis, const TerminalStyle& style,
                     bool all_days);

/// A season's losses: what would have saved most of them, by cause, and each graft.
std::string why_losses_text(const WhyLosses& losses, const ReportBasis& basis, const TerminalStyle& style);

/// For each species and method the verdict, then the mornings ahead as a table.
std::string when_text(const WhenReport& report, const ReportBasis& basis, const TerminalStyle& style);

/// What is known and what follows, rates by group, then shifts, scores and reliability where enough is known.
std::string learn_text(const LearnReport& report, const ReportBasis& basis, const TerminalStyle& style);

/// For each species and method the best weeks of the season in words, then all weeks as a table.
std::string when_season_text(const SeasonReport& report, const ReportBasis& basis,
                             const TerminalStyle& style);

/// Coverage, gaps, then `days` as a table.
std::string weather_days_text(std::span<const WeatherDay> days, const ReportBasis& basis,
                              const TerminalStyle& style);

/// The same by hours [from, to) of `weather`.
std::string weather_hours_text(const HourlyWeather& weather, std::size_t from, std::size_t to,
                               const ReportBasis& basis, const TerminalStyle& style);

/// What each check on the weather found: count, what it is, whether the values are used, examples with time,
/// value and source; last, the checks that found nothing.
std::string weather_quality_text(const SiteWeather& weather, const ReportBasis& basis,
                                 const TerminalStyle& style);

/// Errors of each service's past forecasts by variable and day of lead, bias before root mean square.
std::string weather_skill_text(std::span<const ForecastSkill> skills, const ReportBasis& basis,
                               const TerminalStyle& style);

/// What a command has done, then the cautions.
std::string done_text(std::string_view done, const ReportBasis& basis, const TerminalStyle& style);

/// Names and titles of all entries, by section.
std::string models_list_text(const Models& models, const TerminalStyle& style);

/// Every word and number of the entries called `name`, with unit, range, grade and source; nothing when there
/// is none.
std::optional<std::string> model_entry_text(const Models& models, std::string_view name,
                                            const TerminalStyle& style);

}  // namespace graftcast
