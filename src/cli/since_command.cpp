// `since`: degree-days, healing and release dates since grafting.

#include <algorithm>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/cautions.hpp"
#include "graftcast/error.hpp"
#include "graftcast/json_report.hpp"
#include "graftcast/since.hpp"
#include "graftcast/terminal_report.hpp"
#include "graftcast/text.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

constexpr int dates_ahead_days = 90;  // a slow union opens its wrap two to three months on

struct SinceOptions {
  std::vector<std::string> ids;
  DegreeDaySettings asked;
  bool daily = false;
};

void check_ids(const std::vector<std::string>& ids, const std::vector<GraftRecord>& grafts) {
  std::vector<std::string> known;
  for (const GraftRecord& graft : grafts) known.push_back(graft.row.id);
  for (const std::string& id : ids)
    if (std::ranges::find(known, id) == known.end()) {
      const std::string near = nearest_hint(id, known);
      throw UsageError(fmt::format("no graft {} had been made by then", shown(id)),
                       near.empty() ? "its id stands in grafts.csv" : near);
    }
}

std::vector<GraftRecord> chosen(const std::vector<std::string>& ids, std::vector<GraftRecord> grafts) {
  check_ids(ids, grafts);
  if (!ids.empty())
    std::erase_if(
        grafts, [&](const GraftRecord& graft) { return std::ranges::find(ids, graft.row.id) == ids.end(); });
  return grafts;
}

Answer print(const SinceReport& report, const ReportBasis& basis, const GlobalOptions& global, bool daily) {
  return answered(
      global, basis, [&] { return since_json(report, basis); },
      [&] { return since_text(report, basis, style_of(global), daily); });
}

Answer run(const SinceOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("since", open, global);
  basis.warnings = std::move(records.warnings);
  const std::vector<GraftRecord> grafts = chosen(options.ids, std::move(records.grafts));
  if (grafts.empty()) {
    basis.weather = weather_basis(weather_of(open, global));
    return print({}, basis, global, options.daily);
  }

  const Progress progress("counting since grafting");
  const SiteWeather weather = known_weather(open, global);
  SeasonSettings settings = season_settings(open, global);
  settings.own_errors = own_errors_of(open, weather, global);
  settings.outlook_days = dates_ahead_days;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, grafts), settings,
                      weather.courses);
  const SinceReport report = since(season, grafts, options.asked, threads_of(global));
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, report.warnings);
  basis.cautions = since_cautions(report, open.models);
  return print(report, basis, global, options.daily);
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<SinceOptions>& options) {
  constexpr const char* group = "How degree-days are counted";
  return {{"--method", "", "METHOD", "average, sine, hourly ... (default: the site's)",
           "One of average, average-floored, triangle, double-triangle, sine, double-sine, hourly; hourly "
           "where the site names none.",
           group,
           [options](const std::string& text) {
             options->asked.method = word_of("--method", text, degree_day_method_words());
           }},
          {"--base", "", "DEGC", "temperature above which warmth counts",
           "In degC; the species' own by default.", group,
           [options](const std::string& text) {
             options->asked.base_c = decimal_number("--base", text, -50, 60);
           }},
          {"--upper", "", "DEGC", "temperature above which more does not help",
           "In degC; the species' own by default.", group,
           [options](const std::string& text) {
             options->asked.upper_c = decimal_number("--upper", text, -50, 100);
           }},
          {"--cutoff", "", "CUTOFF", "none, horizontal, intermediate or vertical",
           "What warmth above --upper does.", group,
           [options](const std::string& text) {
             options->asked.cutoff = word_of("--cutoff", text, cutoff_words());
           }},
          {"--days", "", "", "a table of the days of each graft", "JSON always has them.", "Of this command",
           into(options->daily)}};
}

}  // namespace

CommandSpec since_command() {
  const auto options = std::make_shared<SinceOptions>();
  return {"since",
          "degree-days, healing and release dates since grafting",
          "For each graft: how warm it has had it since, how far the callus bridge has come, when the bag "
          "can be opened "
          "and the wrap slit, when to expect the buds to move, and whether to wait, to check or to graft "
          "again. Dates "
          "are the middle of the ensemble, with the range that eight in ten members keep within.",
          {{"graftcast since AV1 --at 2025-06-09T06:30", "one graft"},
           {"graftcast since --method sine --base 4.5 --at 2025-06-09T06:30",
            "all, by another count of degree-days"}},
          option_specs(options),
          {{"ID", "grafts by their id (default: all)", false, true,
            [options](const std::string& text) { options->ids.push_back(text); }}},
          [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
