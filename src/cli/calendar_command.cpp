// `calendar`: what is due, for a calendar program.

#include <filesystem>
#include <memory>

#include <unistd.h>
#include <nlohmann/json.hpp>

#include "advice/morning.hpp"
#include "advice/since.hpp"
#include "advice/work_calendar.hpp"
#include "commands.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/answer_warnings.hpp"
#include "report/calendar_report.hpp"
#include "report/cautions.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct CalendarOptions {
  std::string file;
};

/// Both answers need a run of their own: that of the list ends at its horizon, that of the dates much later.
struct CalendarRun {
  const OpenSite& open;
  const OpenRecords& records;
  const SiteWeather& weather;
  SeasonSettings settings;
  const GlobalOptions& global;
};

Season season_of(const CalendarRun& run, std::optional<int> outlook_days) {
  SeasonSettings settings = run.settings;
  if (outlook_days) settings.outlook_days = *outlook_days;
  return {run.open.site,
          run.open.clock,
          run.open.models,
          run.weather.hourly,
          earliest_of(run.open, run.records.grafts),
          settings,
          run.weather.courses};
}

std::vector<CalendarEvent> events_of(const CalendarRun& run, ReportBasis& basis) {
  const Season season = season_of(run, std::nullopt);
  const MorningReport report = morning(season, run.records.grafts, threads_of(run.global));
  const Season dates_season = season_of(run, dates_ahead_days);
  const SinceReport dates = since(dates_season, run.records.grafts, {}, threads_of(run.global));
  const std::vector<DueWork> works =
      due_work(report, dates, run.records.grafts, run.open.clock, run.open.as_of);
  const TerminalStyle words{.utf8 = false, .units = run.global.units};
  basis.weather = weather_basis(run.weather, season);
  append(basis.warnings, weather_warnings(run.weather));
  append(basis.warnings, notice_warnings(report.notices, run.open.clock));
  basis.cautions = calendar_cautions(works, season, words);
  return calendar_events(works, season, words);
}

/// The file is written anew; what stood in it and is no longer due is taken back.
void write_calendar(const CalendarOptions& options, const OpenSite& open, std::vector<CalendarEvent>& events,
                    const ReportBasis& basis) {
  if (std::filesystem::exists(options.file)) {
    for (CalendarEvent& event : withdrawn_events(read_text_file(options.file), options.file,
                                                 site_mark(open.site), events, open.clock, open.as_of))
      events.push_back(std::move(event));
  }
  replace_file(options.file, ical_text(events, basis));
}

Answer run(const CalendarOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  const OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("calendar", open, global);
  basis.warnings = records.warnings;
  std::vector<CalendarEvent> events;
  if (records.grafts.empty()) {
    basis.weather = weather_basis(weather_of(open));
  } else {
    const Progress progress(tr("working out what is due"));
    const SiteWeather weather = known_weather(open);
    SeasonSettings settings = season_settings(open);
    settings.own_errors = own_errors_of(open, weather);
    events = events_of({open, records, weather, settings, global}, basis);
  }
  if (!options.file.empty()) write_calendar(options, open, events, basis);
  return answered(
      global, basis, [&] { return calendar_json(events, options.file, basis); },
      [&] {
        // At a terminal somebody reads it; a pipe or a file gets the calendar itself.
        const bool listed = !options.file.empty() || ::isatty(STDOUT_FILENO) == 1;
        return listed ? calendar_text(events, options.file, basis, style_of(global))
                      : ical_text(events, basis);
      });
}

}  // namespace

CommandSpec calendar_command() {
  const auto options = std::make_shared<CalendarOptions>();
  return {
      "calendar",
      tr("what is due, as a file for a calendar program"),
      tr("Acts by time with an alarm in the cool hours before, when what is temporary can be undone, the "
         "days "
         "to vent a bag and to slit a wrap, when buds should move and when to look. RFC 5545 into a file or "
         "a "
         "pipe; a terminal shows what would be in it.\n"
         "Each event keeps its name, so that a calendar imported again is brought up to date. Written over "
         "an earlier file of the same site, what is no longer due is marked as cancelled."),
      {{"graftcast calendar --at 2025-06-09T06:30", tr("the calendar on standard output")},
       {"graftcast calendar --to grafts.ics --at 2025-06-09T06:30", tr("into a file, with a list of it")}},
      {{"--to", "", "FILE", tr("write it to FILE and list what is in it"),
        tr("A file that is not a calendar of this site is not overwritten."), tr("Of this command"),
        into(options->file)}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
