// `weather fetch`: ask the forecast services for what is new.

#include <algorithm>
#include <array>
#include <memory>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "records/folder_lock.hpp"
#include "report/figures.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"
#include "version.hpp"
#include "weather/forecast_cache.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast::cli {

namespace {

using Json = nlohmann::ordered_json;
using What = FetchResult::What;

struct FetchOptions {
  std::vector<std::string> services;
  bool dry_run = false;
};

std::string entry_hint() {
  return tr("add an entry such as {entry} to weather.sources in site.json, with an address that reaches you",
            "entry"_a = R"({"service": "met-norway", "contact": "grower@example.org"})");
}

constexpr const char* example_contact = "grower@example.org";

std::vector<std::string> entered_services(const OpenSite& open) {
  std::vector<std::string> services;
  for (const SourceSettings& source : open.site.weather.sources)
    if (!source.service.empty()) services.push_back(source.service);
  return services;
}

/// Those that have an address of their own.
std::vector<std::string> known_services() {
  std::vector<std::string> names;
  for (const Service service : {Service::met_norway, Service::nws, Service::open_meteo,
                                Service::open_meteo_ensemble, Service::open_meteo_archive})
    names.emplace_back(service_name(service));
  return names;
}

/// Nothing is asked in a dry run, so there a service may be named before it is entered.
std::vector<SourceSettings> imagined_sources(const FetchOptions& options,
                                             const std::vector<std::string>& entered) {
  std::vector<SourceSettings> sources;
  if (!options.dry_run) return sources;
  for (const std::string& service : options.services) {
    if (std::ranges::find(entered, service) != entered.end()) continue;
    SourceSettings source;
    source.service = word_of("weather fetch", service, known_services());
    source.contact = example_contact;
    sources.push_back(std::move(source));
  }
  return sources;
}

/// The sources to ask, in the order of site.json.
std::vector<SourceSettings> asked_sources(const FetchOptions& options, const OpenSite& open) {
  std::vector<std::string> known = entered_services(open);
  std::vector<SourceSettings> sources;
  for (const SourceSettings& source : open.site.weather.sources)
    if (!source.service.empty() &&
        (options.services.empty() || std::ranges::count(options.services, source.service) > 0))
      sources.push_back(source);
  for (SourceSettings& source : imagined_sources(options, known)) {
    known.push_back(source.service);
    sources.push_back(std::move(source));
  }
  if (known.empty())
    throw DataError({(open.folder / "site.json").string(), 0, 0},
                    tr("no forecast service is among the weather's sources"), entry_hint());
  for (const std::string& service : options.services)
    if (std::ranges::find(known, service) == known.end())
      throw UsageError(
          tr("no service {service} is among the weather's sources", "service"_a = shown(service)),
          tr("this site has {names}", "names"_a = listed(known)));
  return sources;
}

/// What would be asked of each. Says of every source what is wrong with it before any is asked.
std::vector<FetchPlan> plans_of(const std::vector<SourceSettings>& sources, const OpenSite& open,
                                Instant now) {
  std::vector<FetchPlan> plans;
  const std::vector<std::string> entered = entered_services(open);
  for (const SourceSettings& source : sources) {
    plans.push_back(plan_fetch(open.folder, source, open.site.location, program_name(), now));
    if (std::ranges::find(entered, source.service) != entered.end()) continue;
    plans.back().may_ask = false;
    plans.back().reason = tr("it is not among the weather's sources in site.json; the contact is an example");
  }
  return plans;
}

// ---- What would be asked ----

std::string plan_words(const SourceSettings& source, const FetchPlan& plan) {
  std::string words = (plan.may_ask ? tr("{service}: would be asked", "service"_a = source.service)
                                    : tr("{service}: would not be asked: {reason}",
                                         "service"_a = source.service, "reason"_a = printable(plan.reason))) +
                      '\n';
  const auto add = [&](std::string_view name, const std::string& value) {
    if (!value.empty()) words += fmt::format("  {}{}\n", name, printable(value));
  };
  add("GET ", plan.request.url);
  add("User-Agent: ", plan.request.user_agent);
  add("Accept: ", plan.request.accept);
  add("If-Modified-Since: ", plan.request.if_modified_since);
  if (plan.may_ask) add("", plan.reason);
  return words;
}

Json text_or_nothing(const std::string& text) {
  return text.empty() ? Json(nullptr) : Json(text);
}
Json time_or_nothing(const std::optional<Instant>& time) {
  return time ? Json(utc_text(*time)) : Json(nullptr);
}

Json plan_json(const SourceSettings& source, const FetchPlan& plan) {
  return {{"service", source.service},
          {"may_ask", plan.may_ask},
          {"reason", text_or_nothing(plan.reason)},
          {"not_before", time_or_nothing(plan.not_before)},
          {"url", plan.request.url},
          {"user_agent", plan.request.user_agent},
          {"accept", text_or_nothing(plan.request.accept)},
          {"if_modified_since", text_or_nothing(plan.request.if_modified_since)}};
}

Answer print_plans(const std::vector<SourceSettings>& sources, const std::vector<FetchPlan>& plans,
                   const ReportBasis& basis, const GlobalOptions& global) {
  const auto json = [&] {
    Json answer = basis_json(basis);
    answer["planned"] = Json::array();
    for (std::size_t k = 0; k < plans.size(); ++k)
      answer["planned"].push_back(plan_json(sources[k], plans[k]));
    return answer;
  };
  return answered(global, basis, json, [&] {
    std::string text;
    for (std::size_t k = 0; k < plans.size(); ++k) text += plan_words(sources[k], plans[k]);
    return text;
  });
}

// ---- Asking ----

std::string_view what_word(What what) {
  constexpr std::array<std::string_view, 5> words{"stored", "not-modified", "too-early", "left-alone",
                                                  "failed"};
  return words.at(static_cast<std::size_t>(what));
}

bool went_wrong(const FetchResult& result) {
  return result.what == What::failed || result.what == What::left_alone;
}

std::vector<FetchResult> ask(const std::vector<SourceSettings>& sources, const OpenSite& open) {
  const std::filesystem::path cache = open.folder / "weather" / "cache";
  require_inside(open.folder, cache);
  make_folder(cache);
  // Of the cache alone, so that notes can be written while a service takes its time.
  const FolderLock lock(cache);
  std::vector<FetchResult> results;
  for (const SourceSettings& source : sources) {
    const Progress progress(tr("asking {service}", "service"_a = source.service));
    results.push_back(
        fetch_forecast(open.folder, source, open.site.location, open.clock, program_name(), real_tools()));
  }
  return results;
}

std::string result_words(const SourceSettings& source, const FetchResult& result, const ReportBasis& basis) {
  std::string words = fmt::format("{}: {}.", source.service, result.message);
  if (result.not_before && result.what != What::too_early && result.what != What::left_alone)
    words = tr("{result} Not to be asked again before {time}.", "result"_a = words,
               "time"_a = moment_words(*basis.clock, *result.not_before, basis.as_of));
  return words;
}

Json result_json(const SourceSettings& source, const FetchResult& result) {
  return {{"service", source.service},
          {"result", what_word(result.what)},
          {"message", result.message},
          {"made_at", time_or_nothing(result.made_at)},
          {"not_before", time_or_nothing(result.not_before)},
          {"credit", text_or_nothing(result.credit)}};
}

/// Nothing at all to go by is an error; in part, what went wrong stands in the answer.
void require_some_forecast(const std::vector<SourceSettings>& sources,
                           const std::vector<FetchResult>& results) {
  std::string reasons;
  for (std::size_t k = 0; k < results.size(); ++k) {
    if (!went_wrong(results[k]) || results[k].made_at) return;
    reasons += fmt::format("{}{}: {}", k == 0 ? "" : "; ", sources[k].service, results[k].message);
  }
  throw ServiceError(reasons,
                     tr("a log or a forecast saved as a file comes in with 'graftcast weather add FILE'"));
}

void add_unique(std::vector<std::string>& lines, const std::string& line) {
  if (!line.empty() && std::ranges::find(lines, line) == lines.end()) lines.push_back(line);
}

Answer print_results(const std::vector<SourceSettings>& sources, const std::vector<FetchResult>& results,
                     ReportBasis basis, const GlobalOptions& global) {
  for (std::size_t k = 0; k < results.size(); ++k) {
    add_unique(basis.weather.credits, results[k].credit);
    for (const std::string& warning : results[k].warnings)
      basis.warnings.push_back(fmt::format("{}: {}", sources[k].service, warning));
  }
  const auto json = [&] {
    Json answer = basis_json(basis);
    answer["fetched"] = Json::array();
    for (std::size_t k = 0; k < results.size(); ++k)
      answer["fetched"].push_back(result_json(sources[k], results[k]));
    return answer;
  };
  Answer answer = answered(global, basis, json, [&] {
    std::string text;
    ReportBasis without_end = basis;
    without_end.weather.credits.clear();
    for (std::size_t k = 0; k < results.size(); ++k) {
      const bool last = k + 1 == results.size();
      text += done_text(result_words(sources[k], results[k], basis), last ? basis : without_end,
                        style_of(global));
    }
    return text;
  });
  if (std::ranges::any_of(results, went_wrong)) answer.exit_code = 75;
  return answer;
}

Answer run(const FetchOptions& options, const GlobalOptions& global) {
  if (!global.at.empty())
    throw UsageError(
        tr("services are asked as of now, so --at does not go with weather fetch"),
        tr("leave it away; every forecast is kept with the time it was made, for --at of other commands"));
  const OpenSite open = open_site(global);
  const std::vector<SourceSettings> sources = asked_sources(options, open);
  const std::vector<FetchPlan> plans = plans_of(sources, open, open.as_of);
  const ReportBasis basis = basis_of("weather fetch", open, global);
  if (options.dry_run) return print_plans(sources, plans, basis, global);
  const std::vector<FetchResult> results = ask(sources, open);
  require_some_forecast(sources, results);
  return print_results(sources, results, basis, global);
}

}  // namespace

CommandSpec weather_fetch_command() {
  const auto options = std::make_shared<FetchOptions>();
  return {
      "weather fetch",
      tr("ask the forecast services of the site for what is new"),
      tr("Asks every service among the weather's sources, or those named: met-norway, nws, open-meteo, "
         "open-meteo-ensemble, open-meteo-archive, or url (a table of your own). Each is asked by its "
         "terms: with "
         "your contact, not before its last answer expires, and not at all for a while after trouble, so "
         "this can "
         "run every hour.\n"
         "An answer is stored with its headers before it is read, and every forecast is kept, packed, with "
         "the time "
         "it was made. Whatever goes wrong, the last good forecast stays in use and its age is told; the "
         "exit code "
         "is then 75, or 69 where there is no forecast at all.\n"
         "A service is entered by hand in site.json: {{\"service\": \"met-norway\", \"contact\": "
         "\"grower@example.org\"}}, with \"base_url\" for another address."),
      {{"graftcast weather fetch --dry-run met-norway", tr("what a service would be asked for this place")},
       {"graftcast weather fetch --dry-run nws open-meteo --json", tr("the same of two, for a script")}},
      {{"--dry-run", "", "", tr("print what would be asked, and ask nothing"),
        tr("A service may be named then before it is entered in site.json."), tr("Of this command"),
        into(options->dry_run)}},
      {{"SOURCE", tr("a service of the site (default: all)"), false, true,
        [options](const std::string& text) { options->services.push_back(text); }}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
