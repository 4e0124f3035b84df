// `new`: start a site folder.

#include <memory>
#include <optional>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "records/site.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct NewOptions {
  std::string folder;
  NewSite site;
  std::optional<double> latitude_deg, longitude_deg, elevation_m;
};

std::vector<std::string> parts_of(const std::string& text) {
  std::vector<std::string> parts{""};
  for (const char letter : text) {
    if (letter == ',')
      parts.emplace_back();
    else
      parts.back() += letter;
  }
  return parts;
}

[[noreturn]] void refuse_spot(const std::string& part) {
  throw UsageError(tr("--spot does not take {part}", "part"_a = shown(part)),
                   tr("write NAME,sun=0.7,wind=0.5,sheltered,movable with what applies"));
}

void set_of_spot(Spot& spot, const std::string& part) {
  if (part == "movable")
    spot.movable = true;
  else if (part == "sheltered")
    spot.rain = false;
  else if (part.starts_with("sun="))
    spot.sun_share = decimal_number("--spot sun", part.substr(4), 0, 1);
  else if (part.starts_with("wind="))
    spot.wind_share = decimal_number("--spot wind", part.substr(5), 0, 1);
  else
    refuse_spot(part);
}

void add_spot(NewSite& site, const std::string& text) {
  const std::vector<std::string> parts = parts_of(text);
  if (parts.front().empty()) refuse_spot(text);
  Spot& spot = site.spots[parts.front()];
  for (std::size_t i = 1; i < parts.size(); ++i) set_of_spot(spot, parts[i]);
}

void add_supply(NewSite& site, const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0)
    throw UsageError(tr("--supply does not take {text}", "text"_a = shown(text)),
                     tr("write NAME=N, such as clear-bag=12"));
  site.supplies[text.substr(0, equals)] =
      static_cast<int>(whole_number("--supply", text.substr(equals + 1), 0, 1000000));
}

void check_complete(const NewOptions& options) {
  std::vector<std::string> lacking;
  if (!options.latitude_deg) lacking.emplace_back("--latitude");
  if (!options.longitude_deg) lacking.emplace_back("--longitude");
  if (!options.elevation_m) lacking.emplace_back("--elevation");
  if (options.site.time_zone.empty()) lacking.emplace_back("--time-zone");
  if (!lacking.empty())
    throw UsageError(tr("'new' lacks {options}", "options"_a = fmt::join(lacking, ", ")),
                     tr("sun, pressure and days cannot be worked out without them"));
}

NewSite complete_site(const NewOptions& options) {
  check_complete(options);
  NewSite site = options.site;
  site.location = {*options.latitude_deg, *options.longitude_deg, *options.elevation_m};
  if (site.name.empty())
    site.name = std::filesystem::absolute(options.folder).lexically_normal().filename().string();
  if (site.name.empty())
    site.name =
        std::filesystem::absolute(options.folder).lexically_normal().parent_path().filename().string();
  if (site.spots.empty()) site.spots["open"] = {};
  return site;
}

Answer run(const NewOptions& options, const GlobalOptions& global) {
  const Site site = create_site(options.folder, complete_site(options));
  ReportBasis basis = basis_of("new", global);
  basis.site = site.name;
  basis.clock = Clock(site.time_zone);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["folder"] = options.folder;
    answer["spots"] = nlohmann::ordered_json::array();
    for (const auto& [name, spot] : site.spots) answer["spots"].push_back(name);
    return answer;
  };
  return answered(global, basis, json, [&] {
    return done_text(
        tr("{name} is ready in {folder}. Next: 'graftcast --site {folder} weather add FILE', then "
           "'graftcast --site {folder} graft'.",
           "name"_a = site.name, "folder"_a = options.folder),
        basis, style_of(global));
  });
}

std::function<void(const std::string&)> number_into(std::optional<double>& target, const char* option,
                                                    double low, double high) {
  return [&target, option, low, high](const std::string& text) {
    target = decimal_number(option, text, low, high);
  };
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<NewOptions>& options) {
  const std::string place = tr("The place");
  const std::string things = tr("What is there");
  return {{"--name", "", "NAME", tr("what the site is called (default: the folder's name)"), "", place,
           into(options->site.name)},
          {"--latitude", "", "DEG", tr("decimal degrees, north positive"), "", place,
           number_into(options->latitude_deg, "--latitude", -90, 90)},
          {"--longitude", "", "DEG", tr("decimal degrees, east positive"), "", place,
           number_into(options->longitude_deg, "--longitude", -180, 180)},
          {"--elevation", "", "M", tr("metres above the sea"), "", place,
           number_into(options->elevation_m, "--elevation", -430, 6000)},
          {"--time-zone", "", "ZONE", tr("IANA name, such as Europe/Lisbon"), "", place,
           into(options->site.time_zone)},
          {"--spot", "", "SPOT", tr("a place grafts stand in; may be repeated"),
           tr("NAME, then what applies: sun=0.7 and wind=0.5 are the shares that reach it, sheltered (from "
              "rain), movable. "
              "Without any, one spot 'open' is made."),
           things, [options](const std::string& text) { add_spot(options->site, text); }},
          {"--supply", "", "NAME=N", tr("covers at hand, such as clear-bag=12; may be repeated"), "", things,
           [options](const std::string& text) { add_supply(options->site, text); }}};
}

}  // namespace

CommandSpec new_command() {
  const auto options = std::make_shared<NewOptions>();
  return {
      "new",
      tr("start a site folder: place, time zone, spots"),
      tr("Makes DIR with site.json, empty grafts.csv and diary.csv, and the folder weather/. All are plain "
         "files, to be "
         "edited by hand as well. Files that are there stay."),
      {{"graftcast new terrace --latitude 41.19 --longitude -7.54 --elevation 260 --time-zone Europe/Lisbon",
        tr("a site with one spot, in the open")},
       {"graftcast new roof --latitude -34.9 --longitude 138.6 --elevation 48 --time-zone Australia/Adelaide "
        "--spot bench,sun=0.7,movable",
        tr("with a spot that is called bench, in 70 % of the open's sun")}},
      option_specs(options),
      {{"DIR", tr("the folder"), true, false, into(options->folder)}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
