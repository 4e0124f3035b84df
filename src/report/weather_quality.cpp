// What the checks on the weather found, as text and as JSON.

#include <algorithm>

#include <fmt/format.h>

#include "json_parts.hpp"
#include "report/figures.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "weather/quality_checks.hpp"

namespace graftcast {

namespace {

/// What one check found, over all sources.
struct CheckResult {
  QualityCheck check;
  std::size_t count = 0;
  std::vector<QualityNote> found;
};

std::vector<CheckResult> check_results(const SiteWeather& weather) {
  std::vector<CheckResult> results;
  for (const QualityCheck& check : quality_checks()) {
    CheckResult result{check, 0, {}};
    for (const auto* const notes : {&weather.notes, &weather.findings}) {
      for (const QualityNote& note : *notes) {
        if (note.kind != check.kind) continue;
        result.count += note.count;
        result.found.push_back(note);
      }
    }
    results.push_back(std::move(result));
  }
  return results;
}

Json found_json(const QualityNote& note) {
  return {{"source", note.source},
          {"count", note.count},
          {"text", note.text},
          {"examples", note.examples},
          {"latest", time_json(note.latest)}};
}

std::string check_words(const QualityCheck& check) {
  const std::string_view about = translated(check.about);
  return check.is_impossible
             ? tr("{about} ({check}): not used", "about"_a = about, "check"_a = check.kind)
             : tr("{about} ({check}): used as it is", "about"_a = about, "check"_a = check.kind);
}

std::string found_text(const CheckResult& result, const TerminalStyle& style) {
  std::string text =
      labelled(style, Tone::attentive, fmt::format("{}", std::min<std::size_t>(result.count, 999999)),
               check_words(result.check));
  for (const QualityNote& note : result.found) {
    text += labelled(style, Tone::quiet, "", printable(fmt::format("{}: {}", note.source, note.text)));
    for (const std::string& example : note.examples)
      text += labelled(style, Tone::quiet, "", printable("- " + example));
  }
  return text;
}

}  // namespace

nlohmann::ordered_json weather_quality_json(const SiteWeather& weather, const ReportBasis& basis) {
  Json checks = Json::array();
  for (const CheckResult& result : check_results(weather)) {
    Json found = Json::array();
    for (const QualityNote& note : result.found) found.push_back(found_json(note));
    checks.push_back({{"check", result.check.kind},
                      {"about", result.check.about},
                      {"used", !result.check.is_impossible},
                      {"count", result.count},
                      {"found", std::move(found)}});
  }
  Json json = basis_json(basis);
  json["quality"] = std::move(checks);
  return json;
}

std::string weather_quality_text(const SiteWeather& weather, const ReportBasis& basis,
                                 const TerminalStyle& style) {
  std::string text = heading(basis, style) + '\n';
  std::vector<std::string> clean;
  for (const CheckResult& result : check_results(weather)) {
    if (result.found.empty()) {
      clean.emplace_back(translated(result.check.about));
    } else {
      text += found_text(result, style);
    }
  }
  if (!clean.empty()) text += labelled(style, Tone::quiet, trc("label", "none"), with_semicolons(clean));
  return finished(style, ended(text, basis, style));
}

}  // namespace graftcast
