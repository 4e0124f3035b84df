// `spots`: how sunny and windy each spot is, and what a thermometer in one of them tells.

#include <cmath>
#include <memory>

#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "ensemble/spot_fit.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "records/folder_lock.hpp"
#include "records/spot_shares.hpp"
#include "report/spots_report.hpp"
#include "source_options.hpp"
#include "text/tr.hpp"
#include "values.hpp"
#include "weather/detect_reader.hpp"

namespace graftcast::cli {

namespace {

SensorSurface surface_named(const std::string& text) {
  const std::vector<std::string> words{"bark", "black"};
  const std::string word = word_of("--sensor", text, words);
  return word == "black" ? SensorSurface::black : SensorSurface::bark;
}

struct SpotsOptions {
  std::string file, spot;
  std::optional<SensorSurface> surface;
  std::optional<double> diameter_mm;
  SourceSettings source;
  bool write = false;
};

void check_together(const SpotsOptions& options) {
  const bool has_more = !options.spot.empty() || options.surface || options.diameter_mm || options.write;
  if (options.file.empty() && has_more) {
    throw UsageError(tr("--spot, --sensor, --diameter and --write are for a log"),
                     tr("name its file with --fit FILE"));
  }
  if (!options.file.empty() && options.spot.empty())
    throw UsageError(tr("--fit does not say in which spot the thermometer stood"), tr("add --spot NAME"));
}

const Spot& spot_named(const OpenSite& open, const std::string& name) {
  std::vector<std::string> names;
  for (const auto& [known, spot] : open.site.spots) names.push_back(known);
  if (names.empty())
    throw UsageError(tr("site.json names no spots"), tr("give it an entry under \"spots\" first"));
  return open.site.spots.at(word_of("--spot", name, names));
}

SpotSensor sensor_of(const SpotsOptions& options, const Models& models) {
  const SpotFitConstants& constants = models.spots;
  const double bark = models.wraps.at("none").short_wave_absorptance;
  return {options.surface == SensorSurface::black ? constants.black_absorptance : bark,
          options.diameter_mm.value_or(constants.sensor_diameter_mm) * 1e-3};
}

/// To the two decimals that site.json gets.
double rounded(double share) {
  return std::round(100 * share) / 100;
}

SpotLearned learned(const SpotsOptions& options, const OpenSite& open, const SiteWeather& weather,
                    const SiteWeather& at_spot) {
  SpotLearned learned;
  learned.spot = options.spot;
  learned.surface = options.surface.value_or(SensorSurface::bark);
  learned.sensor = sensor_of(options, open.models);
  learned.fit = fit_spot(weather.hourly, at_spot.hourly, open.site.location, spot_named(open, options.spot),
                         learned.sensor, open.models);
  if (learned.fit.sun.is_told()) learned.proposed.sun = rounded(learned.fit.sun.value);
  if (learned.fit.wind.is_told()) learned.proposed.wind = rounded(learned.fit.wind.value);
  return learned;
}

void add_fit_warnings(const SpotLearned& learned, const SiteWeather& at_spot, ReportBasis& basis) {
  append(basis.warnings, weather_warnings(at_spot));
  if (!learned.fit.light_is_measured)
    basis.warnings.emplace_back(
        tr("the site's own log has no radiation: the sun share leans on a derived one"));
}

SpotsReport report_of(const SpotsOptions& options, const OpenSite& open, const GlobalOptions& global,
                      ReportBasis& basis) {
  SpotsReport report{open.site.spots, std::nullopt};
  if (options.file.empty()) return report;
  spot_named(open, options.spot);
  const Progress progress(tr("fitting the spot"));
  const Readings readings = read_weather_file(options.file, options.source, open.site.location, open.clock);
  const Knowledge knowledge{open.as_of, global.hindsight};
  const SiteWeather at_spot = assemble({readings}, open.site.location, open.clock, knowledge);
  const SiteWeather weather = known_weather(open);
  report.learned = learned(options, open, weather, at_spot);
  basis.weather = weather_basis(weather);
  append(basis.warnings, weather_warnings(weather));
  add_fit_warnings(*report.learned, at_spot, basis);
  return report;
}

void write(SpotLearned& learned, const OpenSite& open) {
  if (!learned.proposed.sun && !learned.proposed.wind) return;
  const FolderLock lock(open.folder);
  write_spot_shares(open.folder, learned.spot, learned.proposed);
  learned.is_written = true;
}

Answer run(const SpotsOptions& options, const GlobalOptions& global) {
  check_together(options);
  const OpenSite open = open_site(global);
  ReportBasis basis = basis_of("spots", open, global);
  SpotsReport report = report_of(options, open, global, basis);
  if (options.write) write(*report.learned, open);
  return answered(
      global, basis, [&] { return spots_json(report, basis); },
      [&] { return spots_text(report, basis, style_of(global)); });
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<SpotsOptions>& options) {
  const std::string group = tr("Learning a spot from a thermometer");
  std::vector<OptionSpec> specs{
      {"--fit", "", "FILE", tr("log of a thermometer that stands in the spot"),
       tr("Read as 'weather add' reads files; its air temperature is the thermometer's, and wind counts "
          "where "
          "it has any."),
       group, into(options->file)},
      {"--spot", "", "NAME", tr("the spot it stands in"), tr("A spot of site.json."), group,
       into(options->spot)},
      {"--sensor", "", "WORD", tr("bark or black (default: bark)"),
       tr("A probe in a cut twig or in bare wood, or one painted matt black."), group,
       [options](const std::string& text) { options->surface = surface_named(text); }},
      {"--diameter", "", "MM", tr("thickness of the stick in millimetres (default: 7)"), "", group,
       [options](const std::string& text) {
         options->diameter_mm = decimal_number("--diameter", text, 1, 50);
       }},
      {"--write", "", "", tr("put what is proposed into site.json"),
       tr("Everything else in it stays as it is."), group, into(options->write)}};
  const auto reading = source_options({options, &options->source}, tr("How its log is to be read"));
  specs.insert(specs.end(), reading.begin(), reading.end());
  return specs;
}

}  // namespace

CommandSpec spots_command() {
  const auto options = std::make_shared<SpotsOptions>();
  return {
      "spots",
      tr("how sunny and windy each spot is; learn it from a thermometer there"),
      tr("Shows the spots of site.json. With --fit, sun and wind shares are proposed from a log kept in the "
         "spot "
         "beside the site's own: the shares with which the energy balance of the model gives the "
         "thermometer's "
         "temperatures best, by day and by night, with their standard errors. Nothing is changed without "
         "--write.\n"
         "The thermometer must be like a scion: a stick in the open at the spot, without a radiation shield. "
         "One in a "
         "shield reads the air, which tells nothing of the sun. A week with some sun and some wind is "
         "enough. "
         "What "
         "the log cannot tell is said, and stays as it is."),
      {{"graftcast spots", tr("the spots of a site")},
       {"graftcast spots --fit loggers/bench_thermometer.csv --spot south-bench --sensor black --at "
        "2025-06-09T06:30",
        tr("what a black stick thermometer tells of one")}},
      option_specs(options),
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
