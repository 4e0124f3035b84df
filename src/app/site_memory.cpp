#include "app/site_memory.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "advice/morning_plan.hpp"
#include "inputs.hpp"

namespace graftcast {

namespace {

std::unique_ptr<SiteBasis> basis_of_records(OpenSite open, const std::vector<GraftRecord>& grafts,
                                            const MorningAsk& ask) {
  SiteWeather weather = grafts.empty() ? weather_of(open) : known_weather(open);
  auto basis = std::make_unique<SiteBasis>(std::move(open), std::move(weather));
  if (grafts.empty()) return basis;
  SeasonSettings settings = season_settings(basis->open);
  settings.own_errors = own_errors_of(basis->open, basis->weather);
  settings.horizon_days = ask.horizon_days;
  basis->season.emplace(basis->open.site, basis->open.clock, basis->open.models, basis->weather.hourly,
                        earliest_of(basis->open, grafts), settings, basis->weather.courses);
  return basis;
}

/// As of the season's moment: what was kept may be some minutes old.
double age_in_days(const GraftRow& row, const Season& season) {
  const auto age = season.settings.as_of - when_grafted(row, season.clock);
  return std::max(0.0, std::chrono::duration<double, std::ratio<86400>>(age).count());
}

}  // namespace

AskedMorning SiteMemory::morning(const std::function<Instant(const Clock&)>& moment, const MorningAsk& ask) {
  OpenSite open = open_site(folder_, moment, settings_);
  records_ = records_of(open);
  take_basis(std::move(open), ask);
  AskedMorning asked{{}, &records_, basis_.get()};
  worked_out_ = 0;
  if (!basis_->season) return asked;
  asked.report = list_of(*basis_->season, rows());
  asked.report.plan = morning_plan(asked.report, basis_->open.site, basis_->open.models, ask.minutes);
  return asked;
}

void SiteMemory::take_basis(OpenSite open, const MorningAsk& ask) {
  const auto hour = std::chrono::floor<std::chrono::hours>(open.as_of).time_since_epoch().count();
  const auto earliest = earliest_of(open, records_.grafts).time_since_epoch().count();
  std::string inputs = fmt::format("{}{}\t{}\t{}", inputs_of(folder_), hour, ask.horizon_days,
                                   records_.grafts.empty() ? 0 : earliest);
  if (basis_ && inputs == inputs_) {
    basis_->open.as_of = open.as_of;
    if (basis_->season) basis_->season->move_within_hour(open.as_of);
    return;
  }
  kept_.clear();
  basis_ = basis_of_records(std::move(open), records_.grafts, ask);
  inputs_ = std::move(inputs);
}

std::vector<MorningOfRow> SiteMemory::rows() {
  std::vector<GraftRecord> changed;
  for (const GraftRecord& record : records_.grafts) {
    const auto kept = kept_.find(record.row.id);
    if (kept == kept_.end() || kept->second.record != record) changed.push_back(record);
  }
  worked_out_ = changed.size();
  std::vector<MorningOfRow> anew = mornings_of(*basis_->season, changed, settings_.threads);
  for (std::size_t i = 0; i < changed.size(); ++i)
    kept_.insert_or_assign(std::string(changed[i].row.id), KeptRow{changed[i], std::move(anew[i])});
  std::vector<MorningOfRow> all;
  for (const GraftRecord& record : records_.grafts) {
    MorningOfRow& row = kept_.at(record.row.id).row;
    if (row.open) row.open->age_days = age_in_days(record.row, *basis_->season);
    all.push_back(row);
  }
  return all;
}

}  // namespace graftcast
