// `when`: is this a week to graft?

#include <algorithm>
#include <memory>
#include <set>

#include <nlohmann/json.hpp>

#include "advice/stock_notes.hpp"
#include "advice/when_season.hpp"
#include "app/mornings_ahead.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "records/wood.hpp"
#include "report/answer_warnings.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct WhenOptions {
  std::vector<std::string> species, methods;
  std::string wrap, cover, spot;
  double shade = 0;
  std::optional<double> pot_litres;
  std::optional<int> days;
  bool season = false;
};

template <typename Entries>
std::vector<std::string> names_of(const Entries& entries) {
  std::vector<std::string> names;
  for (const auto& [name, entry] : entries) names.push_back(name);
  return names;
}

/// Species and methods of the site's own grafts stand in for those that are not named.
void complete(WhenOptions& options, const std::vector<GraftRecord>& grafts) {
  std::set<std::string> species(options.species.begin(), options.species.end());
  if (species.empty())
    for (const GraftRecord& graft : grafts) species.insert(graft.row.species);
  if (species.empty())
    throw UsageError(tr("no species is named, and no graft is on record to take it from"),
                     tr("give --species, for example --species apple"));
  options.species.assign(species.begin(), species.end());
}

std::vector<std::string> methods_for(const WhenOptions& options, const std::string& species,
                                     const std::vector<GraftRecord>& grafts) {
  if (!options.methods.empty()) return options.methods;
  std::set<std::string> methods;
  for (const GraftRecord& graft : grafts)
    if (graft.row.species == species) methods.insert(graft.row.method);
  if (methods.empty()) return {"cleft", "chip"};
  return {methods.begin(), methods.end()};
}

std::vector<WhenAsk> asked(const WhenOptions& options, const std::vector<GraftRecord>& grafts) {
  std::vector<WhenAsk> asked;
  for (const std::string& species : options.species)
    for (const std::string& method : methods_for(options, species, grafts))
      asked.push_back(
          {species, method, options.wrap, options.cover, options.spot, options.shade, options.pot_litres});
  return asked;
}

void check_names(const WhenOptions& options, const OpenSite& open) {
  const auto check = [](const char* option, const std::string& name, const std::vector<std::string>& known) {
    if (!name.empty()) word_of(option, name, known);
  };
  for (const std::string& name : options.species) check("--species", name, names_of(open.models.species));
  for (const std::string& name : options.methods) check("--method", name, names_of(open.models.methods));
  check("--wrap", options.wrap, names_of(open.models.wraps));
  check("--cover", options.cover, names_of(open.models.covers));
  check("--spot", options.spot, names_of(open.site.spots));
}

/// The weeks of the year, by the log alone.
Answer weeks_of_season(const WhenOptions& options, const OpenSite& open, const OpenRecords& records,
                       ReportBasis basis, const GlobalOptions& global) {
  const Progress progress(tr("trying the weeks of the year"));
  const SiteWeather weather = known_weather(open);
  const SeasonReport report =
      season_to_graft(open.site, open.clock, open.models, weather.hourly, season_settings(open),
                      asked(options, records.grafts), threads_of(global));
  basis.weather = weather_basis(weather);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, season_warnings(report, open.clock));
  basis.cautions = grafting_cautions(options.species, open.models);
  return answered(
      global, basis, [&] { return when_season_json(report, basis); },
      [&] { return when_season_text(report, basis, style_of(global)); });
}

Answer run(WhenOptions options, const GlobalOptions& global) {
  if (options.season && options.days)
    throw UsageError(tr("--days and --season do not go together"),
                     tr("--days counts mornings ahead, --season has weeks"));
  const int days = options.days.value_or(when_days);
  const OpenSite open = open_site(global);
  check_names(options, open);
  OpenRecords records = records_of(open);
  complete(options, records.grafts);
  ReportBasis basis = basis_of("when", open, global);
  basis.warnings = std::move(records.warnings);
  if (options.season) return weeks_of_season(options, open, records, std::move(basis), global);

  const Progress progress(tr("trying the mornings ahead"));
  const SiteWeather weather = known_weather(open);
  const Season season(open.site, open.clock, open.models, weather.hourly, midwinter_or_now(open, weather),
                      mornings_settings(open, weather, days), weather.courses);
  const StockNotes notes = stock_notes(records.grafts, open.as_of, open.clock, open.models);
  const WhenReport report = when_to_graft(season, asked(options, records.grafts), days, notes.slips,
                                          threads_of(global), notes.bleeding);
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, notice_warnings(report.notices, open.clock));
  basis.cautions = heat_cautions(season, days, {.utf8 = false, .units = global.units});
  append(basis.cautions, grafting_cautions(options.species, open.models));
  return answered(
      global, basis, [&] { return when_json(report, basis); },
      [&] { return when_text(report, basis, style_of(global)); });
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<WhenOptions>& options) {
  const std::string group = tr("Of this command");
  const auto add_to = [](std::vector<std::string>& list) {
    return [&list](const std::string& text) { list.push_back(text); };
  };
  return {
      {"--species", "", "NAME", tr("species of the scion; may be given again"),
       tr("Default: those of the grafts on record."), group, add_to(options->species)},
      {"--method", "", "NAME", tr("method to try; may be given again"),
       tr("Default: those on record for the species, else cleft and chip."), group, add_to(options->methods)},
      {"--wrap", "", "NAME", tr("wrap (default: the method's usual one)"), tr("See 'graftcast models'."),
       group, into(options->wrap)},
      {"--cover", "", "NAME", tr("cover, and no other is tried"),
       tr("Without it the usual one and paper over a bag with shade are compared."), group,
       into(options->cover)},
      {"--spot", "", "NAME", tr("where it would stand (default: in the open)"), tr("A spot of site.json."),
       group, into(options->spot)},
      {"--shade", "", "SHARE", tr("share of the sun that a cloth keeps off it"), tr("From 0 to 0.95."), group,
       [options](const std::string& text) { options->shade = decimal_number("--shade", text, 0, 0.95); }},
      {"--pot", "", "LITRES", tr("the stock stands in a pot of that size"), tr("Default: in the ground."),
       group,
       [options](const std::string& text) {
         options->pot_litres = decimal_number("--pot", text, 0.1, 1000);
       }},
      {"--days", "", "N", tr("mornings to try (default: 14)"), tr("From 1 to 14."), group,
       [options](const std::string& text) {
         options->days = static_cast<int>(whole_number("--days", text, 1, when_days));
       }},
      {"--season", "", "", tr("the weeks of the year instead of the mornings ahead"),
       tr("From midwinter to midwinter, in the weather of the log's past seasons; without half a season on "
          "record, "
          "of days made up from its monthly means."),
       group, into(options->season)}};
}

}  // namespace

CommandSpec when_command() {
  const auto options = std::make_shared<WhenOptions>();
  return {
      "when",
      tr("is this a week to graft? day by day, for each species and method"),
      tr("A graft made on each of the coming mornings is carried ahead hour by hour, with the usual "
         "aftercare, until it has its own "
         "water: by the forecast as far as that reaches, then by the site's own past years at those dates, "
         "else by days made up from the log's monthly means and spreads, else by the last week again; "
         "the last column says which. The verdict is for the coming seven days.\n"
         "Methods that need the bark to slip are told when the stock's degree-days since midwinter let it; "
         "a note 'slips' or 'flushing' of the last "
         "weeks overrules that, and a note 'bleeding' means to wait."),
      {{"graftcast when --at 2025-06-09T06:30 --species citrus --method chip",
        tr("chip buds on citrus, from that morning on")},
       {"graftcast when --season --at 2025-06-09T06:30 --species citrus --method chip --spot south-bench",
        tr("which weeks of the year are for it")}},
      option_specs(options),
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
