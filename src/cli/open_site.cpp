#include "open_site.hpp"

#include <algorithm>
#include <unordered_map>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"
#include "records/wood.hpp"

namespace graftcast::cli {

namespace {

/// As the model has it: a date alone stands for noon.
Instant grafted_at(const GraftRow& row, const Clock& clock) {
  return row.grafted_at ? *row.grafted_at : clock.begin_of(row.grafted_on) + std::chrono::hours(12);
}

/// The diary's lines up to `as_of`, by the graft that each is about.
std::unordered_map<std::string, std::vector<DiaryLine>> lines_by_graft(const std::vector<DiaryLine>& diary,
                                                                       Instant as_of) {
  std::unordered_map<std::string, std::vector<DiaryLine>> lines;
  for (const DiaryLine& line : diary) {
    if (line.when > as_of) break;
    for (const std::string& id : line.grafts) {
      DiaryLine own{line.when, line.stamp, line.graft, {id}, line.event, line.value, line.comment, line.line};
      lines[id].push_back(std::move(own));
    }
  }
  return lines;
}

}  // namespace

Models models_for(const std::filesystem::path& folder) {
  if (!std::filesystem::exists(folder / "site.json")) return load_models(published_models_folder());
  Models models = load_models(published_models_folder(), folder / "models");
  models.learned = read_learned(folder / "learned.json");
  return models;
}

OpenSite open_site(const GlobalOptions& options) {
  if (!std::filesystem::exists(options.site / "site.json"))
    throw OpenError((options.site / "site.json").string(), "there is no site here",
                    "name its folder with --site, or start one with 'graftcast new DIR'");
  Site site = read_site(options.site);
  Clock clock(site.time_zone);
  const Instant as_of = moment_of(options, clock);
  return {options.site, std::move(site), std::move(clock), models_for(options.site), as_of};
}

SiteWeather known_weather(const OpenSite& open, const GlobalOptions& options) {
  SiteWeather weather = weather_of(open, options);
  if (weather.hourly.size() == 0)
    throw DataError({(open.folder / "site.json").string(), 0, 0}, "no weather is known by then",
                    "bring in a log with 'graftcast weather add FILE'");
  return weather;
}

SiteWeather weather_of(const OpenSite& open, const GlobalOptions& options) {
  return assemble(open.folder, open.site.location, open.clock, open.site.weather,
                  {open.as_of, options.hindsight});
}

std::vector<LeadSpread> own_errors_of(const OpenSite& open, const SiteWeather& weather,
                                      const GlobalOptions& options) {
  const std::string source = source_ahead(weather.hourly, open.as_of);
  if (source.empty()) return {};
  std::vector<ForecastSkill> skills =
      kept_skill(open.folder, open.site.location, open.clock, open.site.weather, weather,
                 {open.as_of, options.hindsight}, {source, forecasts_for_ensemble});
  return skills.empty() ? std::vector<LeadSpread>{} : std::move(skills.front().spreads);
}

OpenRecords records_of(const OpenSite& open) {
  const KnownNames known = open.models.known_names();
  Ledger ledger = read_ledger(open.folder, open.site, open.clock, known);
  auto lines = lines_by_graft(read_diary(open.folder, open.site, open.clock, ledger), open.as_of);
  std::vector<WoodRow> wood = read_wood(open.folder, open.clock, known);
  check_wood(wood, ledger, (open.folder / "grafts.csv").string());
  tell_of_wood(ledger.rows, wood);
  OpenRecords records{{}, ledger.warnings, std::move(wood)};
  for (GraftRow& row : ledger.rows) {
    if (grafted_at(row, open.clock) > open.as_of) {
      if (row.grafted_on == open.clock.day_of(open.as_of))
        records.warnings.push_back(
            fmt::format("{} is of today and counts from {} on", row.id,
                        open.clock.local_text(grafted_at(row, open.clock)).substr(11)));
      continue;
    }
    std::vector<DiaryLine> own = std::move(lines[row.id]);
    records.grafts.push_back({std::move(row), std::move(own)});
  }
  return records;
}

Instant earliest_of(const OpenSite& open, const std::vector<GraftRecord>& grafts) {
  Instant earliest = open.as_of;
  for (const GraftRecord& graft : grafts) earliest = std::min(earliest, grafted_at(graft.row, open.clock));
  return earliest;
}

ReportBasis basis_of(std::string command, const GlobalOptions& options) {
  ReportBasis basis;
  basis.command = std::move(command);
  basis.as_of = moment_of(options, Clock("UTC"));
  basis.seed = options.seed;
  basis.members = options.members;
  return basis;
}

ReportBasis basis_of(std::string command, const OpenSite& open, const GlobalOptions& options) {
  ReportBasis basis;
  basis.command = std::move(command);
  basis.as_of = open.as_of;
  basis.site = open.site.name;
  basis.clock = open.clock;
  basis.seed = options.seed;
  basis.members = options.members;
  return basis;
}

void append(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  lines.insert(lines.end(), more.begin(), more.end());
}

SeasonSettings season_settings(const OpenSite& open, const GlobalOptions& options) {
  SeasonSettings settings;
  settings.as_of = open.as_of;
  settings.seed = options.seed;
  settings.members = options.members;
  settings.us_units = options.units == UnitSystem::us && !options.json;
  return settings;
}

std::string dumped(const nlohmann::ordered_json& json) {
  return json.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

Answer answered(const GlobalOptions& options, const ReportBasis& basis,
                const std::function<nlohmann::ordered_json()>& json,
                const std::function<std::string()>& text) {
  if (options.json) return {dumped(json()), {}, 0};
  return {text(), basis.warnings, 0};
}

}  // namespace graftcast::cli
