// `weather add`: bring in logs and saved forecasts.

#include <algorithm>
#include <memory>
#include <set>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "app/site_sources.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "records/folder_lock.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "source_options.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"
#include "weather/detect_reader.hpp"
#include "weather/weather_file.hpp"
#include "weather_propose.hpp"

namespace graftcast::cli {

namespace {

struct AddOptions {
  std::vector<std::string> files;
  SourceSettings source;
  std::string made_at;  ///< Read once the site's clock is known.
  bool propose = false;
};

SourceSettings settings_of(const AddOptions& options, const OpenSite& open) {
  SourceSettings source = options.source;
  if (options.made_at.empty()) return source;
  if (!source.as_forecast) throw UsageError(tr("--made-at is for a forecast"), tr("add --as forecast"));
  source.made_at = time_of("--made-at", options.made_at, open.clock, 0);
  return source;
}

/// Reads every file to its end before anything is written, so that a bad one changes nothing.
void check_files(const AddOptions& options, const SourceSettings& source, const OpenSite& open) {
  std::set<std::string> names;
  for (const std::string& file : options.files) {
    const std::string name = std::filesystem::path(file).filename().string();
    if (name != printable(name))
      throw UsageError(tr("the file name {name} cannot stand in site.json", "name"_a = shown(name)),
                       tr("give the file a name of plain letters in UTF-8"));
    if (!names.insert(name).second)
      throw UsageError(tr("two files are called {name}", "name"_a = shown(name)),
                       tr("give one of them another name"));
    summary_of(read_weather_file(file, source, open.site.location, open.clock));
  }
}

struct Added {
  std::vector<AddedWeather> files;
  std::vector<std::string> failures;
};

/// What was copied gets its entry even where a later file could not be copied.
Added add_files(const AddOptions& options, const SourceSettings& source, const OpenSite& open) {
  const FolderLock lock(open.folder);
  Added added;
  for (const std::string& file : options.files) {
    try {
      added.files.push_back(add_weather_file(open.folder, file, source, open.site.location, open.clock));
    } catch (const WriteError& error) {
      if (options.files.size() == 1) throw;
      added.failures.emplace_back(error.what());
    }
  }
  std::vector<SourceSettings> sources;
  for (const AddedWeather& file : added.files) sources.push_back(file.source);
  add_sources(open.folder, sources);
  return added;
}

nlohmann::ordered_json file_json(const AddedWeather& added) {
  nlohmann::ordered_json columns = nlohmann::ordered_json::array();
  for (const ChannelSummary& channel : added.summary.channels)
    columns.push_back({{"quantity", cf_name(channel.quantity)}, {"known", channel.known}});
  return {{"file", added.source.file},
          {"reader", added.reader},
          {"daily", added.summary.daily},
          {"rows", added.summary.rows},
          {"from", utc_text(added.summary.first)},
          {"to", utc_text(added.summary.last)},
          {"columns", std::move(columns)}};
}

std::string file_words(const AddedWeather& added, const Clock& clock) {
  std::vector<std::string> columns;
  for (const ChannelSummary& channel : added.summary.channels) {
    const std::string name(cf_name(channel.quantity));
    if (channel.known > 0 && std::ranges::find(columns, name) == columns.end()) columns.push_back(name);
  }
  return tr("{file}; {columns}.",
            "file"_a = read_words(added.source.file, added.reader, added.summary, clock),
            "columns"_a = fmt::join(columns, ", "));
}

Answer run(const AddOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  const SourceSettings source = settings_of(options, open);
  if (options.propose) return propose(options.files, source, open, global);
  check_files(options, source, open);
  const Added added = add_files(options, source, open);
  ReportBasis basis = basis_of("weather add", open, global);
  SiteWeather notes;
  for (const AddedWeather& file : added.files)
    notes.notes.insert(notes.notes.end(), file.summary.notes.begin(), file.summary.notes.end());
  basis.warnings = weather_warnings(notes);
  append(basis.warnings, format_remarks(notes));
  append(basis.warnings, added.failures);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["files"] = nlohmann::ordered_json::array();
    for (const AddedWeather& file : added.files) answer["files"].push_back(file_json(file));
    return answer;
  };
  Answer answer = answered(global, basis, json, [&] {
    std::string text;
    for (const AddedWeather& file : added.files)
      text += done_text(file_words(file, open.clock), basis, style_of(global));
    return text;
  });
  if (!added.failures.empty()) answer.exit_code = 75;
  return answer;
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<AddOptions>& options) {
  const std::string group = tr("How the files are to be read");
  SourceSettings& source = options->source;
  std::vector<OptionSpec> specs = source_options({options, &options->source}, group);
  const std::vector<OptionSpec> more{
      {"--propose", "", "", tr("say how a foreign table is best read; change nothing"),
       tr("Prints the map with the reason for each column, what to look at, and the one command that adds "
          "the "
          "file. "
          "Options that are given are kept."),
       group, into(options->propose)},
      {"--as", "", "forecast", tr("the files are saved forecasts"), "", group,
       [&source, options](const std::string& text) {
         word_of("--as", text, std::vector<std::string>{"forecast"});
         source.as_forecast = true;
       }},
      {"--made-at", "", "TIME", tr("when the forecast was made"), tr("It is not known before then."), group,
       into(options->made_at)}};
  specs.insert(specs.end(), more.begin(), more.end());
  return specs;
}

}  // namespace

CommandSpec weather_add_command() {
  const auto options = std::make_shared<AddOptions>();
  return {
      "weather add",
      tr("bring in logs or saved forecasts of the weather"),
      tr("Every file is read to its end first; a bad one changes nothing. Then it is copied into the site's "
         "folder "
         "weather/ and entered last among the sources of site.json, which stand in order of trust. A file "
         "that "
         "is there "
         "is never written over.\n"
         "A table that names itself needs no options: its headers are CF names with units, such as "
         "'air_temperature "
         "[degC]', beside 'time' or 'date'. Nor do files of the archives GHCN-Daily, GHCN-hourly, ISD-Lite, "
         "EPW "
         "and "
         "TMY3, and saved answers of the forecast services: they are known by their content."),
      {{"graftcast weather add loggers/gate_export.csv --propose",
        tr("how a table with headers of its own is best read")},
       {"graftcast weather add loggers/gate_export.csv --stamp end --column 'time=When' "
        "--column 'air_temperature=Temp (F)::degF'",
        tr("bring its temperature in, by a map of one's own")}},
      option_specs(options),
      {{"FILE",
        tr("a table (CSV, semicolons or tabs), a public archive's file or a service's answer, also gzip"),
        true, true, [options](const std::string& text) { options->files.push_back(text); }}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
