// `page`: the morning as one self-contained HTML page, for a phone or a printer.

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include <fmt/format.h>
#include <unistd.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/atomic_file.hpp"
#include "graftcast/cautions.hpp"
#include "graftcast/error.hpp"
#include "graftcast/json_report.hpp"
#include "graftcast/morning_plan.hpp"
#include "graftcast/page.hpp"
#include "graftcast/terminal_report.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct PageOptions {
  std::string file;
  std::optional<double> minutes;
  bool losses = false;
};

void add_new(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  for (const std::string& line : more)
    if (std::ranges::find(lines, line) == lines.end()) lines.push_back(line);
}

/// Those of `grafts` that the morning found open.
std::vector<GraftRecord> open_of(const MorningReport& report, const std::vector<GraftRecord>& grafts) {
  std::vector<GraftRecord> still_open;
  for (const GraftRecord& graft : grafts) {
    if (std::ranges::find(report.grafts, graft.row.id, &GraftMorning::id) != report.grafts.end())
      still_open.push_back(graft);
  }
  return still_open;
}

/// Morning, dates and charts from one and the same season.
PageContent content_of(const Season& season, const OpenSite& open, const std::vector<GraftRecord>& grafts,
                       const PageOptions& options, int threads) {
  PageContent content;
  content.morning = morning(season, grafts, threads);
  content.morning.plan = morning_plan(content.morning, open.site, open.models, options.minutes);
  const std::vector<GraftRecord> still_open = open_of(content.morning, grafts);
  content.since = since(season, still_open, {}, threads);
  for (const GraftRecord& graft : still_open) content.levels[graft.row.id] = page_levels(season, graft);
  return content;
}

/// What has been is explained; nothing ahead is looked at. Nothing where nothing was lost.
std::optional<WhyLosses> losses_of(const OpenSite& open, const SiteWeather& weather,
                                   const std::vector<GraftRecord>& grafts, const GlobalOptions& global) {
  const auto lost = lost_this_season(open.site, open.clock, open.as_of, grafts);
  if (lost.empty()) return std::nullopt;
  SeasonSettings settings = season_settings(open, global);
  settings.horizon_days = settings.outlook_days = 0;
  settings.weather_spread = false;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, lost), settings);
  return why_losses(season, lost, threads_of(global));
}

Answer written(const PageContent& content, const ReportBasis& basis, const PageOptions& options,
               const GlobalOptions& global) {
  const std::string html = page_html(content, basis, style_of(global));
  if (!options.file.empty()) replace_file(options.file, html);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["file"] =
        options.file.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(options.file);
    answer["grafts"] = content.morning.grafts.size();
    answer["bytes"] = html.size();
    answer["html"] = options.file.empty() ? nlohmann::ordered_json(html) : nlohmann::ordered_json(nullptr);
    return answer;
  };
  return answered(global, basis, json, [&] {
    return options.file.empty() ? html
                                : fmt::format("{} written: {} rows, {} kB\n", options.file,
                                              content.morning.grafts.size(), (html.size() + 999) / 1000);
  });
}

void check_output(const PageOptions& options, const GlobalOptions& global) {
  if (options.file.empty() && !global.json && ::isatty(STDOUT_FILENO) == 1) {
    throw UsageError("a page is for a browser, not for a terminal",
                     "name a file, such as --to morning.html, or redirect standard output");
  }
}

Answer run(const PageOptions& options, const GlobalOptions& global) {
  check_output(options, global);
  const OpenSite open = open_site(global);
  const OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("page", open, global);
  basis.warnings = records.warnings;
  if (records.grafts.empty()) {
    basis.weather = weather_basis(weather_of(open, global));
    return written({}, basis, options, global);
  }
  const Progress progress("drawing the page");
  const SiteWeather weather = known_weather(open, global);
  SeasonSettings settings = season_settings(open, global);
  settings.own_errors = own_errors_of(open, weather, global);
  settings.outlook_days = page_outlook_days;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, records.grafts),
                      settings, weather.courses);
  PageContent content = content_of(season, open, records.grafts, options, threads_of(global));
  if (options.losses) content.losses = losses_of(open, weather, records.grafts, global);
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, content.morning.warnings);
  basis.cautions = morning_cautions(content.morning, season, {.utf8 = false, .units = global.units});
  add_new(basis.cautions, since_cautions(content.since, open.models));
  return written(content, basis, options, global);
}

}  // namespace

CommandSpec page_command() {
  const auto options = std::make_shared<PageOptions>();
  return {
      "page",
      "one self-contained HTML page of the morning, for a phone or a printer",
      "One file with everything in it: this morning's list with boxes to tick off, the plan for the covers "
      "at "
      "hand, and a card a graft with three charts on one axis of days: how hot, how dry, how far the union "
      "is, "
      "solid up to now and dashed from there. Buttons build the text of notes to send home, which 'graftcast "
      "note' reads.\n"
      "The page loads nothing and sends nothing, and works without its script. Printed, it is a sheet to "
      "tick "
      "off. Without --to it goes to standard output.",
      {{"graftcast page --at 2025-06-09T06:30 --to morning.html", "a file to open, send or print"},
       {"graftcast page --at 2025-06-09T06:30 --units us > morning.html", "the same in degrees Fahrenheit"}},
      {{"--to", "", "FILE", "write the page into FILE",
        "The old file stands until the new one is whole. A symbolic link or a folder is not written to.",
        "Of this command", into(options->file)},
       {"--losses", "", "", "explain this season's losses as well", "As 'graftcast why --all-lost' does.",
        "Of this command", into(options->losses)},
       {"--minutes", "", "N", "the plan may take no more than N minutes of work",
        "As in 'graftcast morning'.", "Of this command",
        [options](const std::string& text) {
          options->minutes = decimal_number("--minutes", text, 0, 100000);
        }}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
