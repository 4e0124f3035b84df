// `page`: the morning as one self-contained HTML page, for a phone or a printer.

#include <algorithm>
#include <filesystem>
#include <memory>
#include <optional>
#include <string>

#include <unistd.h>
#include <nlohmann/json.hpp>

#include "advice/morning.hpp"
#include "advice/morning_plan.hpp"
#include "advice/stock_notes.hpp"
#include "advice/why.hpp"
#include "app/mornings_ahead.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/answer_warnings.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/page.hpp"
#include "report/terminal_report.hpp"
#include "text/atomic_file.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct PageOptions {
  std::string file;
  std::optional<double> minutes;
  bool losses = false;
  bool no_weeks = false;
};

/// The mornings ahead are a glance at whether to look closer: fewer ways and members than `when` has.
constexpr std::size_t most_ways = 4;
constexpr int members_of_weeks = 16;

void add_new(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  for (const std::string& line : more)
    if (std::ranges::find(lines, line) == lines.end()) lines.push_back(line);
}

/// To put on what the owner's models have beyond the published ones.
std::vector<EventNote> own_work(const Models& models) {
  const Models published = load_models(published_models_folder());
  std::vector<EventNote> work;
  for (const auto& [name, cover] : models.covers)
    if (!published.covers.contains(name)) work.push_back({Event::bag_on, name});
  for (const auto& [name, wrap] : models.wraps)
    if (!published.wraps.contains(name)) work.push_back({Event::wrap_on, name});
  return work;
}

/// Morning, dates and charts from one and the same season.
PageContent content_of(const Season& season, const OpenSite& open, const std::vector<GraftRecord>& grafts,
                       const PageOptions& options, int threads) {
  const LocalDay last_charted = open.clock.day_of(open.as_of) + std::chrono::days(page_chart_days);
  MorningAndSince both = morning_and_since(season, grafts, last_charted, threads);
  PageContent content;
  content.morning = std::move(both.morning);
  content.since = std::move(both.since);
  content.own_work = own_work(open.models);
  content.morning.plan = morning_plan(content.morning, open.site, open.models, options.minutes);
  for (const GraftRecord& graft : grafts) {
    if (std::ranges::find(content.since.grafts, graft.row.id, &GraftSince::id) != content.since.grafts.end())
      content.levels[graft.row.id] = page_levels(season, graft);
  }
  return content;
}

/// What has been is explained; nothing ahead is looked at. Nothing where nothing was lost.
std::optional<WhyLosses> losses_of(const OpenSite& open, const SiteWeather& weather,
                                   const std::vector<GraftRecord>& grafts, const GlobalOptions& global) {
  const auto lost = lost_this_season(open.site, open.clock, open.as_of, grafts);
  if (lost.empty()) return std::nullopt;
  SeasonSettings settings = season_settings(open);
  settings.horizon_days = settings.outlook_days = 0;
  settings.weather_spread = false;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, lost), settings);
  return why_losses(season, lost, threads_of(global));
}

/// The ways on record, made on the coming mornings.
WhenReport weeks_of(const OpenSite& open, const SiteWeather& weather, const std::vector<GraftRecord>& grafts,
                    const GlobalOptions& global) {
  SeasonSettings settings = mornings_settings(open, weather, when_days);
  settings.members = std::min(settings.members, members_of_weeks);
  const Season season(open.site, open.clock, open.models, weather.hourly, midwinter_or_now(open, weather),
                      settings, weather.courses);
  const StockNotes notes = stock_notes(grafts, open.as_of, open.clock, open.models);
  return when_to_graft(season, ways_on_record(grafts, most_ways), when_days, notes.slips, threads_of(global),
                       notes.bleeding);
}

/// Heat first, then those of the list, of what is to be cut or grafted, and of moving wood.
std::vector<std::string> cautions_of(const PageContent& content, const Season& season, const OpenSite& open,
                                     const TerminalStyle& style) {
  std::vector<std::string> cautions = morning_cautions(content.morning, season, style);
  add_new(cautions, since_cautions(content.since, open.models));
  std::vector<std::string> species;
  if (content.weeks) {
    for (const WhenAnswer& answer : content.weeks->answers) add_new(species, {answer.usual.graft.species});
  }
  if (content.weeks || !content.morning.also_due.empty())
    add_new(cautions, grafting_cautions(species, open.models));
  return cautions;
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
    return options.file.empty()
               ? html
               : trn("{file} written: {rows} row, {kilobytes} kB",
                     "{file} written: {rows} rows, {kilobytes} kB",
                     static_cast<long>(content.morning.grafts.size()), "file"_a = options.file,
                     "rows"_a = content.morning.grafts.size(), "kilobytes"_a = (html.size() + 999) / 1000) +
                     '\n';
  });
}

void check_output(const PageOptions& options, const GlobalOptions& global) {
  if (options.file.empty() && !global.json && ::isatty(STDOUT_FILENO) == 1) {
    throw UsageError(tr("a page is for a browser, not for a terminal"),
                     tr("name a file, such as --to morning.html, or redirect standard output"));
  }
}

Answer run(const PageOptions& options, const GlobalOptions& global) {
  check_output(options, global);
  const OpenSite open = open_site(global);
  const OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("page", open, global);
  basis.warnings = records.warnings;
  if (records.grafts.empty()) {
    basis.weather = weather_basis(weather_of(open));
    return written({}, basis, options, global);
  }
  const Progress progress(tr("drawing the page"));
  const SiteWeather weather = known_weather(open);
  SeasonSettings settings = season_settings(open);
  settings.own_errors = own_errors_of(open, weather);
  settings.outlook_days = page_outlook_days;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, records.grafts),
                      settings, weather.courses);
  PageContent content = content_of(season, open, records.grafts, options, threads_of(global));
  if (!options.no_weeks) content.weeks = weeks_of(open, weather, records.grafts, global);
  if (options.losses) content.losses = losses_of(open, weather, records.grafts, global);
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, notice_warnings(content.morning.notices, open.clock));
  const TerminalStyle style{.units = global.units};
  content.heat = heat_cautions(season, season.settings.horizon_days, style);
  basis.cautions = cautions_of(content, season, open, style);
  return written(content, basis, options, global);
}

}  // namespace

CommandSpec page_command() {
  const auto options = std::make_shared<PageOptions>();
  return {
      "page",
      tr("one self-contained HTML page of the morning, for a phone or a printer"),
      tr("One file with everything in it: this morning's list with boxes to tick off, the plan for the "
         "covers "
         "at "
         "hand, and a card a graft with three charts on one axis of days: how hot, how dry, how far the "
         "union "
         "is, "
         "solid up to now and dashed from there, and by the hour where one points or goes along with the "
         "arrow "
         "keys; the weeks ahead for new grafts. Buttons build the text of notes to send home, which "
         "'graftcast "
         "note' reads.\n"
         "The page loads nothing and sends nothing, and works without its script. Printed, it is a sheet to "
         "tick "
         "off. Without --to it goes to standard output."),
      {{"graftcast page --at 2025-06-09T06:30 --to morning.html", tr("a file to open, send or print")},
       {"graftcast page --at 2025-06-09T06:30 --units us > morning.html",
        tr("the same in degrees Fahrenheit")}},
      {{"--to", "", "FILE", tr("write the page into FILE"),
        tr("The old file stands until the new one is whole. A symbolic link or a folder is not written to."),
        tr("Of this command"), into(options->file)},
       {"--losses", "", "", tr("explain this season's losses as well"),
        tr("As 'graftcast why --all-lost' does."), tr("Of this command"), into(options->losses)},
       {"--no-weeks", "", "", tr("leave out the weeks ahead for grafting"),
        tr("They try the four ways with most grafts on record on each of the coming 14 mornings, by 16 "
           "members "
           "at "
           "most; 'graftcast when' tries all of them with all members."),
        tr("Of this command"), into(options->no_weeks)},
       {"--minutes", "", "N", tr("the plan may take no more than N minutes of work"),
        tr("As in 'graftcast morning'."), tr("Of this command"),
        [options](const std::string& text) {
          options->minutes = decimal_number("--minutes", text, 0, 100000);
        }}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
