#include "app/open_site.hpp"

#include <algorithm>
#include <unordered_map>

#include "graftcast/error.hpp"
#include "plant/cover_parts.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// The diary's lines up to `as_of`, by the graft that each is about.
std::unordered_map<std::string, std::vector<DiaryLine>> lines_by_graft(const std::vector<DiaryLine>& diary,
                                                                       Instant as_of) {
  std::unordered_map<std::string, std::vector<DiaryLine>> lines;
  for (const DiaryLine& line : diary) {
    if (line.when > as_of) break;
    for (const std::string& id : line.grafts) {
      DiaryLine own = line;
      own.grafts = {id};
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

OpenSite open_site(const std::filesystem::path& folder, const std::function<Instant(const Clock&)>& moment,
                   const AskSettings& ask) {
  if (!std::filesystem::exists(folder / "site.json"))
    throw OpenError((folder / "site.json").string(), tr("there is no site here"),
                    tr("name its folder with --site, or start one with 'graftcast new DIR'"));
  Site site = read_site(folder);
  Clock clock(site.time_zone);
  const Instant as_of = moment(clock);
  Models models = models_for(folder);
  check_supplies(site, supplies_of_covers(models));
  return {folder, std::move(site), std::move(clock), std::move(models), as_of, ask};
}

SiteWeather known_weather(const OpenSite& open) {
  SiteWeather weather = weather_of(open);
  if (weather.hourly.size() == 0)
    throw DataError({(open.folder / "site.json").string(), 0, 0}, tr("no weather is known by then"),
                    tr("bring in a log with 'graftcast weather add FILE'"));
  return weather;
}

SiteWeather weather_of(const OpenSite& open) {
  return assemble(open.folder, open.site.location, open.clock, open.site.weather,
                  {open.as_of, open.ask.hindsight});
}

std::vector<LeadSpread> own_errors_of(const OpenSite& open, const SiteWeather& weather) {
  const std::string source = source_ahead(weather.hourly, open.as_of);
  if (source.empty()) return {};
  std::vector<ForecastSkill> skills =
      kept_skill(open.folder, open.site.location, open.clock, open.site.weather, weather,
                 {open.as_of, open.ask.hindsight}, {source, forecasts_for_ensemble});
  return skills.empty() ? std::vector<LeadSpread>{} : std::move(skills.front().spreads);
}

OpenRecords records_of(const OpenSite& open) {
  const KnownNames known = open.models.known_names();
  Ledger ledger = read_ledger(open.folder, open.site, open.clock, known);
  auto lines = lines_by_graft(read_diary(open.folder, open.site, open.clock, known, ledger), open.as_of);
  std::vector<WoodRow> wood = read_wood(open.folder, open.clock, known);
  check_wood(wood, ledger, (open.folder / "grafts.csv").string());
  tell_of_wood(ledger.rows, wood);
  OpenRecords records{{}, ledger.warnings, std::move(wood)};
  for (GraftRow& row : ledger.rows) {
    if (when_grafted(row, open.clock) > open.as_of) {
      if (row.grafted_on == open.clock.day_of(open.as_of))
        records.warnings.push_back(
            tr("{id} is of today and counts from {time} on", "id"_a = row.id,
               "time"_a = open.clock.local_text(when_grafted(row, open.clock)).substr(11)));
      continue;
    }
    std::vector<DiaryLine> own = std::move(lines[row.id]);
    records.grafts.push_back({std::move(row), std::move(own)});
  }
  return records;
}

Instant earliest_of(const OpenSite& open, const std::vector<GraftRecord>& grafts) {
  Instant earliest = open.as_of;
  for (const GraftRecord& graft : grafts) earliest = std::min(earliest, when_grafted(graft.row, open.clock));
  return earliest;
}

SeasonSettings season_settings(const OpenSite& open) {
  SeasonSettings settings;
  settings.as_of = open.as_of;
  settings.seed = open.ask.seed;
  settings.members = open.ask.members;
  return settings;
}

}  // namespace graftcast
