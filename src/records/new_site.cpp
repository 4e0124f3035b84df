// Starting a site folder.

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "diary_lines.hpp"
#include "graftcast/error.hpp"
#include "record_files.hpp"
#include "records/folder_lock.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"
#include "text/atomic_file.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Json = nlohmann::ordered_json;

Json climate_json(const Spot::Climate& climate) {
  return {{"air_temperature_c", climate.air_temperature_c},
          {"relative_humidity", climate.relative_humidity_pct}};
}

Json horizon_json(const std::vector<Spot::HorizonPoint>& horizon) {
  Json points = Json::array();
  for (const Spot::HorizonPoint& point : horizon)
    points.push_back(Json::array({point.azimuth_deg, point.height_deg}));
  return points;
}

Json spot_json(const Spot& spot) {
  Json json{
      {"sun", spot.sun_share}, {"wind", spot.wind_share}, {"rain", spot.rain}, {"movable", spot.movable}};
  if (spot.sun_from_h) json["sun_from"] = *spot.sun_from_h;
  if (spot.sun_to_h) json["sun_to"] = *spot.sun_to_h;
  if (!spot.horizon.empty()) json["horizon"] = horizon_json(spot.horizon);
  if (spot.climate) json["climate"] = climate_json(*spot.climate);
  return json;
}

Site checked(const NewSite& site, const std::string& text, const std::filesystem::path& folder) {
  if (site.name.empty()) throw DataError({}, tr("the site has no name"), tr("give it one"));
  try {
    Site made = site_from_text(text, site_file, folder);
    check_supplies(made, {});
    return made;
  } catch (const DataError& error) {
    throw DataError({}, error.message(), error.hint());  // The place would be in a file that is not there.
  }
}

void write_where_absent(const std::filesystem::path& file, const std::vector<std::string>& columns) {
  if (!std::filesystem::exists(file)) replace_file(file, fmt::format("{}\n", fmt::join(columns, ",")));
}

}  // namespace

std::string site_text(const NewSite& site) {
  Json json{{"format", 1},
            {"name", site.name},
            {"latitude", site.location.latitude_deg},
            {"longitude", site.location.longitude_deg},
            {"elevation_m", site.location.elevation_m},
            {"time_zone", site.time_zone},
            {"spots", Json::object()},
            {"supplies", Json::object()},
            {"weather", {{"sources", Json::array()}}}};
  for (const auto& [name, spot] : site.spots) json["spots"][name] = spot_json(spot);
  for (const auto& [name, number] : site.supplies) json["supplies"][name] = number;
  try {
    return json.dump(2) + "\n";
  } catch (const Json::type_error&) {
    throw DataError({}, tr("a name is not UTF-8"), tr("write it in UTF-8"));
  }
}

Site create_site(const std::filesystem::path& folder, const NewSite& site) {
  const std::string text = site_text(site);
  Site made = checked(site, text, folder);
  make_folder(folder);
  const FolderLock lock(folder);
  if (std::filesystem::exists(folder / site_file)) {
    throw UsageError(tr("{folder} is a site folder already", "folder"_a = folder.string()),
                     tr("choose another folder"));
  }
  make_folder(folder / "weather");
  write_where_absent(folder / grafts_file, graft_columns());
  write_where_absent(folder / diary_file, diary_columns());
  replace_file(folder / site_file, text);
  return made;
}

}  // namespace graftcast
