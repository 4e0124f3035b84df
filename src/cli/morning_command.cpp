// `morning`: which fresh grafts are at risk, ranked, with what to do.

#include <algorithm>
#include <memory>
#include <optional>

#include <nlohmann/json.hpp>

#include "app/site_memory.hpp"
#include "commands.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/answer_warnings.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

constexpr int longest_horizon_days = 14;
constexpr int alert_code = 10;

struct MorningOptions {
  int horizon_days = 7;
  std::optional<double> minutes, alert;
  bool brief = false;
};

bool is_alarming(const MorningReport& report, double alert) {
  return std::ranges::any_of(report.grafts, [&](const GraftMorning& graft) { return graft.risk.p >= alert; });
}

Answer print(const MorningReport& report, const ReportBasis& basis, const MorningOptions& options,
             const GlobalOptions& global) {
  Answer answer = answered(
      global, basis, [&] { return morning_json(report, basis); },
      [&] {
        const TerminalStyle style = style_of(global);
        return options.brief ? morning_brief(report, basis, style) : morning_text(report, basis, style);
      });
  if (!options.alert) return answer;
  if (is_alarming(report, *options.alert)) {
    answer.exit_code = alert_code;
  } else if (!global.json) {
    answer.text.clear();  // A scheduler mails whatever is printed.
  }
  return answer;
}

Answer run(const MorningOptions& options, const GlobalOptions& global) {
  const Progress progress(tr("working out this morning's list"));
  SiteMemory memory(global.site, ask_settings(global));
  const AskedMorning asked =
      memory.morning([&](const Clock& clock) { return moment_of(global, clock); },
                     {.horizon_days = options.horizon_days, .minutes = options.minutes});
  const OpenSite& open = asked.basis->open;
  ReportBasis basis = basis_of("morning", open, global);
  basis.warnings = asked.records->warnings;
  if (!asked.basis->season) {
    basis.weather = weather_basis(asked.basis->weather);
    return print({}, basis, options, global);
  }
  basis.weather = weather_basis(asked.basis->weather, *asked.basis->season);
  append(basis.warnings, weather_warnings(asked.basis->weather));
  append(basis.warnings, notice_warnings(asked.report.notices, open.clock));
  basis.cautions =
      morning_cautions(asked.report, *asked.basis->season, {.utf8 = false, .units = global.units});
  return print(asked.report, basis, options, global);
}

}  // namespace

CommandSpec morning_command() {
  const auto options = std::make_shared<MorningOptions>();
  return {
      "morning",
      tr("which fresh grafts are at risk, ranked, with what to do"),
      tr("Every open graft is carried hour by hour from its grafting to now and on through the coming days: "
         "the "
         "climate "
         "at the scion, its water, its healing. Those that need something come first, with the one thing to "
         "do "
         "and by "
         "when; then those to watch, and how many to leave alone.\n"
         "Risk is the chance of loss to weather within the horizon, with the range that nine in ten members "
         "of "
         "the "
         "ensemble keep below and above. Where no forecast is at hand, past years or the last week stand in, "
         "and the "
         "first line says so."),
      {{"graftcast morning --at 2025-06-09T06:30",
        tr("the list as it was that morning, by what was known then")},
       {"graftcast morning --at 2025-06-09T06:30 --horizon 3 --json",
        tr("the next three days, for a script")}},
      {{"--horizon", "", "DAYS", tr("how far ahead risk is counted (default: 7)"), tr("From 1 to 14 days."),
        tr("Of this command"),
        [options](const std::string& text) {
          options->horizon_days = static_cast<int>(whole_number("--horizon", text, 1, longest_horizon_days));
        }},
       {"--minutes", "", "N", tr("the plan may take no more than N minutes of work"),
        tr("Minutes an action takes are those of site.json, else of models/union.json."),
        tr("Of this command"),
        [options](const std::string& text) {
          options->minutes = decimal_number("--minutes", text, 0, 100000);
        }},
       {"--alert", "", "P", tr("silent unless a risk is P or more; then exit code 10"),
        tr("From 0 to 1, for example 0.25. For cron: what is printed is mailed."), tr("Of this command"),
        [options](const std::string& text) { options->alert = decimal_number("--alert", text, 0, 1); }},
       {"--brief", "", "", tr("one line in all"),
        tr("How many rows of each urgency, and the row at greatest risk."), tr("Of this command"),
        into(options->brief)}},
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
