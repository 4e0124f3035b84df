#include "records/site.hpp"

#include <algorithm>

#include "cell.hpp"
#include "graftcast/degree_days.hpp"
#include "record_files.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather_entries.hpp"

namespace graftcast {

namespace {

using Names = std::vector<std::string>;

constexpr int newest_format = 1;

const Names site_keys{"format", "name",     "latitude", "longitude",   "elevation_m",       "time_zone",
                      "spots",  "supplies", "minutes",  "degree_days", "shade_cloth_share", "weather",
                      "costs"};
const Names spot_keys{"sun", "wind", "rain", "movable", "sun_from", "sun_to", "horizon", "climate"};
const Names climate_keys{"air_temperature_c", "relative_humidity"};
const Names degree_day_keys{"method", "base_c", "upper_c", "cutoff"};
const Names cost_names{"stock_week", "look", "graft"};
const Names supply_names{"clear-bag", "vented-bag", "paper", "foil", "paper-bag", "shade-cloth"};
const Names work_names{"clear-bag",   "vented-bag", "paper", "foil", "paper-bag",
                       "shade-cloth", "open-bag",   "water", "move", "protect"};

// First of all, because a newer format may mean other things by the same keys.
int read_format(const JsonEntry& site) {
  const JsonEntry entry = site.at("format");
  const int format = entry.whole_number(1, std::numeric_limits<int>::max());
  if (format > newest_format) {
    entry.fail(tr("the file is of format {format}, which is newer than this program knows ({newest})",
                  "format"_a = format, "newest"_a = newest_format),
               tr("install a newer graftcast; nothing was changed"));
  }
  return format;
}

void read_sun_hours(const JsonEntry& entry, Spot& spot) {
  if (const auto from = entry.find("sun_from")) spot.sun_from_h = from->number(0, 24, "h");
  const auto to = entry.find("sun_to");
  if (!to) return;
  spot.sun_to_h = to->number(0, 24, "h");
  if (spot.sun_from_h && *spot.sun_from_h >= *spot.sun_to_h) {
    to->fail(tr("sun_to {sun_to} is not after sun_from {sun_from}", "sun_to"_a = *spot.sun_to_h,
                "sun_from"_a = *spot.sun_from_h),
             tr("give local solar hours, the earlier one as sun_from"));
  }
}

Spot::HorizonPoint horizon_point_of(const JsonEntry& entry) {
  const auto pair = entry.elements();
  if (pair.size() != 2)
    entry.fail(tr("a point of the horizon is not a pair"), tr("give [azimuth, height] in degrees"));
  return {pair[0].number(0, 360, tr_later("degrees")), pair[1].number(0, 90, tr_later("degrees"))};
}

void read_horizon(const JsonEntry& entry, Spot& spot) {
  for (const JsonEntry& point : entry.elements()) {
    const Spot::HorizonPoint next = horizon_point_of(point);
    if (!spot.horizon.empty() && next.azimuth_deg <= spot.horizon.back().azimuth_deg) {
      point.fail(tr("the azimuth {azimuth} does not follow {previous}", "azimuth"_a = next.azimuth_deg,
                    "previous"_a = spot.horizon.back().azimuth_deg),
                 tr("order the points by azimuth, from north through east"));
    }
    spot.horizon.push_back(next);
  }
}

Spot::Climate climate_of(const JsonEntry& entry) {
  entry.check_keys(climate_keys);
  return {entry.at("air_temperature_c").number(-30, 60, "degC"),
          entry.at("relative_humidity").number(1, 100, "%")};
}

Spot spot_of(const JsonEntry& entry) {
  entry.check_keys(spot_keys);
  Spot spot;
  if (const auto sun = entry.find("sun")) spot.sun_share = sun->number(0, 1);
  if (const auto wind = entry.find("wind")) spot.wind_share = wind->number(0, 1);
  if (const auto rain = entry.find("rain")) spot.rain = rain->boolean();
  if (const auto movable = entry.find("movable")) spot.movable = movable->boolean();
  read_sun_hours(entry, spot);
  if (const auto horizon = entry.find("horizon")) read_horizon(*horizon, spot);
  if (const auto climate = entry.find("climate")) spot.climate = climate_of(*climate);
  return spot;
}

void read_spots(const JsonEntry& entry, Site& site) {
  for (const auto& [name, spot] : entry.members()) {
    const bool is_plain =
        std::none_of(name.begin(), name.end(), [](unsigned char c) { return c < 0x20 || c == 0x7F; });
    if (name.empty() || trimmed(name).size() != name.size() || !is_plain) {
      spot.fail_key(tr("a spot cannot be called {name}", "name"_a = shown(name)),
                    tr("give it a name without blanks at its ends"));
    }
    site.spots.emplace(name, spot_of(spot));
  }
}

void read_supplies(const JsonEntry& entry, Site& site) {
  for (const auto& [name, number] : entry.members()) {
    if (name.starts_with("x-")) continue;
    site.supplies.emplace(name, number.whole_number(0, 1'000'000));
    if (std::ranges::find(supply_names, name) == supply_names.end())
      site.own_supplies.emplace(name, number.key_position());
  }
}

void read_minutes(const JsonEntry& entry, Site& site) {
  constexpr double whole_day = 24 * 60;
  entry.check_keys(work_names);
  for (const auto& [name, minutes] : entry.members()) {
    if (!name.starts_with("x-"))
      site.minutes.emplace(name, minutes.number(0, whole_day, tr_later("minutes")));
  }
}

/// Against the worth of one graft that takes.
void read_costs(const JsonEntry& entry, Site& site) {
  entry.check_keys(cost_names);
  for (const auto& [name, cost] : entry.members()) {
    if (!name.starts_with("x-")) site.costs.emplace(name, cost.number(0, 10, tr_later("of one graft taken")));
  }
}

void read_degree_days(const JsonEntry& entry, Site& site) {
  entry.check_keys(degree_day_keys);
  DegreeDaySettings& settings = site.degree_days;
  if (const auto method = entry.find("method"))
    settings.method = parse_degree_day_method(method->word_of(degree_day_method_words()));
  if (const auto base = entry.find("base_c")) settings.base_c = base->number(-20, 40, "degC");
  if (const auto cutoff = entry.find("cutoff"))
    settings.cutoff = parse_cutoff(cutoff->word_of(cutoff_words()));
  const auto upper = entry.find("upper_c");
  if (!upper) return;
  settings.upper_c = upper->number(-20, 60, "degC");
  if (settings.base_c && *settings.base_c >= *settings.upper_c) {
    upper->fail(tr("upper_c {upper} is not above base_c {base}", "upper"_a = *settings.upper_c,
                   "base"_a = *settings.base_c),
                tr("give the upper threshold of growth in degC"));
  }
}

// Limits of the elevation as weather_settings.hpp gives them.
Location location_of(const JsonEntry& site) {
  return {site.at("latitude").number(-90, 90, tr_later("degrees, north positive")),
          site.at("longitude").number(-180, 180, tr_later("degrees, east positive")),
          site.at("elevation_m").number(-430, 6000, "m")};
}

}  // namespace

void check_supplies(const Site& site, std::span<const std::string> own) {
  Names known = supply_names;
  known.insert(known.end(), own.begin(), own.end());
  for (const auto& [name, place] : site.own_supplies) {
    if (std::ranges::find(own, name) != own.end()) continue;
    throw DataError(place, tr("no cover needs {supply}", "supply"_a = shown(name)), names_hint(name, known));
  }
}

Site site_from_text(std::string_view text, const std::string& shown_name,
                    const std::optional<std::filesystem::path>& folder) {
  const JsonDocument document = JsonDocument::from_text(text, shown_name);
  const JsonEntry entry(document);
  entry.members();  // Says so when the file is no object.
  Site site;
  site.format = read_format(entry);
  entry.check_keys(site_keys);
  if (const auto name = entry.find("name")) site.name = name->text();
  site.location = location_of(entry);
  const JsonEntry zone = entry.at("time_zone");
  const Clock clock = clock_of(zone);
  site.time_zone = zone.text();
  if (const auto spots = entry.find("spots")) read_spots(*spots, site);
  if (const auto supplies = entry.find("supplies")) read_supplies(*supplies, site);
  if (const auto minutes = entry.find("minutes")) read_minutes(*minutes, site);
  if (const auto costs = entry.find("costs")) read_costs(*costs, site);
  if (const auto degree_days = entry.find("degree_days")) read_degree_days(*degree_days, site);
  if (const auto share = entry.find("shade_cloth_share")) site.shade_cloth_share = share->number(0, 0.95);
  if (const auto weather = entry.find("weather"))
    site.weather = read_weather_settings(*weather, clock, folder);
  return site;
}

Site read_site(const std::filesystem::path& folder) {
  const std::filesystem::path file = folder / site_file;
  Site site = site_from_text(read_text_file(file), file.string(), folder);
  if (site.name.empty()) site.name = std::filesystem::absolute(folder).lexically_normal().filename().string();
  return site;
}

}  // namespace graftcast
