#pragma once
// Answers as JSON: the contract for scripts, described by models/schema/output-*.schema.json.

#include <span>
#include <string_view>

#include <nlohmann/json_fwd.hpp>

#include "graftcast/error.hpp"
#include "graftcast/learn.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/season_weeks.hpp"
#include "graftcast/since.hpp"
#include "graftcast/when.hpp"
#include "graftcast/why.hpp"
#include "parameters/models.hpp"
#include "report/report_basis.hpp"
#include "weather/forecast_skill.hpp"
#include "weather/weather_days.hpp"

namespace graftcast {

/// The members that every answer begins with. Times are UTC with `Z`; a number that is not known is null.
nlohmann::ordered_json basis_json(const ReportBasis& basis);

/// Complete answers. Where one has nulls for unknown numbers, a warning says why.
nlohmann::ordered_json morning_json(const MorningReport& report, ReportBasis basis);
nlohmann::ordered_json when_json(const WhenReport& report, ReportBasis basis);
nlohmann::ordered_json when_season_json(const SeasonReport& report, const ReportBasis& basis);
nlohmann::ordered_json since_json(const SinceReport& report, ReportBasis basis);
nlohmann::ordered_json learn_json(const LearnReport& report, const ReportBasis& basis);
nlohmann::ordered_json why_json(const GraftWhy& graft, ReportBasis basis);
nlohmann::ordered_json why_losses_json(const WhyLosses& losses, ReportBasis basis);
nlohmann::ordered_json weather_days_json(std::span<const WeatherDay> days, ReportBasis basis);
nlohmann::ordered_json weather_hours_json(const HourlyWeather& weather, std::size_t from, std::size_t to,
                                          ReportBasis basis);
/// `quality`: an entry a check, also those that found nothing.
nlohmann::ordered_json weather_quality_json(const SiteWeather& weather, const ReportBasis& basis);
nlohmann::ordered_json weather_skill_json(std::span<const ForecastSkill> skills, const ReportBasis& basis);
/// All entries, or those called `name`.
nlohmann::ordered_json models_json(const Models& models, const ReportBasis& basis,
                                   std::string_view name = {});
/// Rows of the ledger, lines of the diary.
nlohmann::ordered_json graft_json(const GraftRow& row);
nlohmann::ordered_json note_json(const DiaryLine& line);

/// `{"schema", "error": {"kind", "file", "line", "column", "message", "hint"}}`.
nlohmann::ordered_json error_json(const Error& error);

}  // namespace graftcast
