// `learn`: fit the model to one's own outcomes, and score its past forecasts.

#include <memory>

#include <nlohmann/json.hpp>

#include "advice/learn.hpp"
#include "advice/when.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "records/folder_lock.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/atomic_file.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

constexpr const char* learned_file = "learned.json";
constexpr std::array base_shifts_k{-2.0, 0.0, 2.0};

struct LearnOptions {
  bool forget = false, try_only = false, this_season = false, bases = false;
  std::vector<GroupBy> groups;
};

GroupBy group_named(const std::string& text) {
  const std::vector<std::string> words{"species", "method", "spot", "grafter"};
  const std::string word = word_of("--by", text, words);
  return static_cast<GroupBy>(std::ranges::find(words, word) - words.begin());
}

std::vector<GroupBy> groups_of(const LearnOptions& options) {
  if (!options.groups.empty()) return options.groups;
  return {GroupBy::method, GroupBy::species, GroupBy::spot};
}

/// Grafts made since the last midwinter.
void keep_this_season(const OpenSite& open, std::vector<GraftRecord>& grafts) {
  const LocalDay first = midwinter_before(open.clock.day_of(open.as_of), open.site.location.latitude_deg);
  std::erase_if(grafts, [&](const GraftRecord& graft) { return graft.row.grafted_on < first; });
}

/// The published models with the buds' base moved, and the same warmth asked for above it in an ordinary
/// spring.
Models with_base_shift(Models models, double shift_k) {
  for (auto& [name, species] : models.species) species.bud_base_c.value += shift_k;
  return models;
}

Season season_of(const OpenSite& open, const Models& models, const SiteWeather& weather,
                 const std::vector<GraftRecord>& grafts) {
  SeasonSettings settings = season_settings(open);
  settings.weather_spread = false;
  settings.outlook_days = settings.horizon_days = 1;
  return {open.site, open.clock, models, weather.hourly, earliest_of(open, grafts), settings};
}

Answer print(const LearnReport& report, const ReportBasis& basis, const GlobalOptions& global) {
  return answered(
      global, basis, [&] { return learn_json(report, basis); },
      [&] { return learn_text(report, basis, style_of(global)); });
}

Answer forget(const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  ReportBasis basis = basis_of("learn", open, global);
  basis.weather = weather_basis(weather_of(open));
  LearnReport report;
  const FolderLock lock(open.folder);
  report.verdict =
      remove_file(open.folder / learned_file) ? LearnVerdict::forgotten : LearnVerdict::no_lessons;
  return print(report, basis, global);
}

/// Keeps learned.json in step with the verdict.
void store(const OpenSite& open, const LearnReport& report) {
  const FolderLock lock(open.folder);
  if (report.changed())
    replace_file(open.folder / learned_file, learned_to_json(report.learned).dump(1) + '\n');
  else
    remove_file(open.folder / learned_file);
}

Answer run(const LearnOptions& options, const GlobalOptions& global) {
  if (options.forget) return forget(global);
  OpenSite open = open_site(global);
  open.models.learned = {};  // what is fitted again must not count twice
  OpenRecords records = records_of(open);
  if (options.this_season) keep_this_season(open, records.grafts);
  ReportBasis basis = basis_of("learn", open, global);
  basis.warnings = std::move(records.warnings);
  const Progress progress(tr("learning"));
  const SiteWeather weather = known_weather(open);
  const Season season = season_of(open, open.models, weather, records.grafts);
  LearnReport report = learn(season, records.grafts, groups_of(options), threads_of(global));
  if (options.bases && report.batches > 0) {
    for (const double shift_k : base_shifts_k) {
      const Models moved = with_base_shift(open.models, shift_k);
      const Season other = season_of(open, moved, weather, records.grafts);
      report.bases.push_back({shift_k, score_of_published(other, records.grafts, threads_of(global))});
    }
  }
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  if (!options.try_only && !options.this_season) store(open, report);
  return print(report, basis, global);
}

}  // namespace

CommandSpec learn_command() {
  const auto options = std::make_shared<LearnOptions>();
  const std::string group = tr("Of this command");
  return {
      "learn",
      tr("fit the model to one's own outcomes, and score its past forecasts"),
      tr("Compares what took and what was lost with what the model makes of the weather each graft had, and "
         "moves three numbers of every species and method: the pace of healing, how fast it dries, and the "
         "plain failure chance. The result goes to learned.json when rows held back are forecast better with "
         "it; every other command then uses it. Grafts still open are never counted as taken."),
      {{"graftcast learn --try --at 2025-06-09T06:30", tr("what the results say, changing nothing")},
       {"graftcast learn --season --by method --at 2025-06-09T06:30", tr("this season's rates by method")}},
      {{"--try", "", "", tr("print only; learned.json stays as it is"), "", group, into(options->try_only)},
       {"--season", "", "", tr("only grafts made since midwinter; changes nothing"), "", group,
        into(options->this_season)},
       {"--by", "", "WHAT", tr("rates by species, method, spot or grafter"),
        tr("May be given more than once."), group,
        [options](const std::string& text) { options->groups.push_back(group_named(text)); }},
       {"--bases", "", "", tr("also compare bases of the buds' degree-days"), "", group,
        into(options->bases)},
       {"--forget", "", "", tr("delete what was learned"), "", group, into(options->forget)}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
