// `why`: what harmed a graft, day by day, and what would have saved it.

#include <algorithm>
#include <memory>

#include <nlohmann/json.hpp>

#include "advice/why.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct WhyOptions {
  std::string id;
  bool all_lost = false;
  bool teach = false;
  bool daily = false;
};

/// What has been is explained; nothing ahead is looked at.
SeasonSettings looking_back(const OpenSite& open) {
  SeasonSettings settings = season_settings(open);
  settings.horizon_days = settings.outlook_days = 0;
  settings.weather_spread = false;
  return settings;
}

void check_asked(const WhyOptions& options) {
  if (options.all_lost && (!options.id.empty() || options.teach || options.daily))
    throw UsageError(tr("--all-lost goes without an id, --teach and --days"),
                     tr("ask for one graft with 'graftcast why ID'"));
  if (!options.all_lost && options.id.empty())
    throw UsageError(tr("no graft is named"), tr("give its id, or --all-lost for the season's losses"));
}

GraftRecord record_called(const std::string& id, const std::vector<GraftRecord>& grafts) {
  const auto found = std::ranges::find(grafts, id, [](const GraftRecord& graft) { return graft.row.id; });
  if (found != grafts.end()) return *found;
  std::vector<std::string> known;
  for (const GraftRecord& graft : grafts) known.push_back(graft.row.id);
  const std::string near = nearest_hint(id, known);
  throw UsageError(tr("no graft {id} had been made by then", "id"_a = shown(id)),
                   near.empty() ? tr("its id stands in grafts.csv") : near);
}

/// A season of the grafts' past, told in `basis`.
template <class Explain>
Answer explained(const OpenSite& open, ReportBasis& basis, const std::vector<GraftRecord>& grafts,
                 const Explain& explain) {
  const Progress progress(tr("living it through again"));
  const SiteWeather weather = known_weather(open);
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, grafts),
                      looking_back(open));
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  return explain(season);
}

Answer run_one(const WhyOptions& options, const OpenSite& open, const GlobalOptions& global,
               ReportBasis& basis, const GraftRecord& record) {
  return explained(open, basis, {record}, [&](const Season& season) {
    const HarmlessClimates climates(season);
    const GraftWhy graft = why(season, climates, record, {true, options.teach}, threads_of(global));
    basis.cautions = why_cautions({graft}, open.models);
    if (graft.lost == 0)
      basis.warnings.push_back(tr(
          "{id} is not noted as lost: the answer is about what has threatened it so far", "id"_a = graft.id));
    return answered(
        global, basis, [&] { return why_json(graft, basis); },
        [&] { return why_text(graft, basis, style_of(global), options.daily); });
  });
}

Answer run_all(const OpenSite& open, const GlobalOptions& global, ReportBasis& basis,
               const std::vector<GraftRecord>& grafts) {
  const auto lost = lost_this_season(open.site, open.clock, open.as_of, grafts);
  return explained(open, basis, lost, [&](const Season& season) {
    const WhyLosses losses = why_losses(season, lost, threads_of(global));
    basis.cautions = why_cautions(losses.grafts, open.models);
    return answered(
        global, basis, [&] { return why_losses_json(losses, basis); },
        [&] { return why_losses_text(losses, basis, style_of(global)); });
  });
}

Answer run(const WhyOptions& options, const GlobalOptions& global) {
  check_asked(options);
  const OpenSite open = open_site(global);
  OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("why", open, global);
  basis.warnings = std::move(records.warnings);
  if (options.all_lost) return run_all(open, global, basis, records.grafts);
  return run_one(options, open, global, basis, record_called(options.id, records.grafts));
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<WhyOptions>& options) {
  const std::string group = tr("Of this command");
  return {{"--all-lost", "", "", tr("all losses of the season, by cause"),
           tr("With the two changes of practice that together would have saved most."), group,
           into(options->all_lost)},
          {"--teach", "", "", tr("the reasoning step by step, with its sources"),
           tr("For a class: what was worked out, from which numbers, and where they come from."), group,
           into(options->teach)},
          {"--days", "", "", tr("every day as a table"),
           tr("Without it only those that were flagged, noted or took something. JSON always has all."),
           group, into(options->daily)}};
}

}  // namespace

CommandSpec why_command() {
  const auto options = std::make_shared<WhyOptions>();
  return {
      "why",
      tr("what harmed a graft, day by day, and what would have saved it"),
      tr("Lives the graft through its weather again, with one harm after the other taken away: heat, dry "
         "air, wind, sun on the cover, a missing cover, a dry stock, cold, slow callus, buds that ran ahead "
         "of the union, a poor match. From all their combinations each gets its share of the loss, and the "
         "shares add up; signs that were noted weigh the causes. Where the weather does not explain the "
         "loss, that is said.\n"
         "Without a note 'dead' the answer is about what has threatened the graft so far."),
      {{"graftcast why H1 --at 2025-06-09T06:30", tr("one graft")},
       {"graftcast why --all-lost --at 2025-06-09T06:30", tr("the season's losses, by cause")}},
      option_specs(options),
      {{"ID", tr("the graft, by its id"), false, false,
        [options](const std::string& text) { options->id = text; }, true}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
