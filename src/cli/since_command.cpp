// `since`: degree-days, healing and release dates since grafting.

#include <algorithm>
#include <memory>
#include <optional>

#include <nlohmann/json.hpp>

#include "advice/since.hpp"
#include "advice/stock_history.hpp"
#include "advice/wood_in_store.hpp"
#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "progress.hpp"
#include "report/answer_warnings.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct SinceOptions {
  std::vector<std::string> ids;
  std::string stock;
  DegreeDaySettings asked;
  std::vector<DegreeDayMethod> methods;  // Each given once or more.
  std::vector<Cutoff> cutoffs;
  bool daily = false;
};

void check_ids(const std::vector<std::string>& ids, const std::vector<GraftRecord>& grafts) {
  std::vector<std::string> known;
  for (const GraftRecord& graft : grafts) known.push_back(graft.row.id);
  for (const std::string& id : ids)
    if (std::ranges::find(known, id) == known.end()) {
      const std::string near = nearest_hint(id, known);
      throw UsageError(tr("no graft {id} had been made by then", "id"_a = shown(id)),
                       near.empty() ? tr("its id stands in grafts.csv") : near);
    }
}

std::vector<GraftRecord> chosen(const std::vector<std::string>& ids, std::vector<GraftRecord> grafts) {
  check_ids(ids, grafts);
  if (!ids.empty())
    std::erase_if(
        grafts, [&](const GraftRecord& graft) { return std::ranges::find(ids, graft.row.id) == ids.end(); });
  return grafts;
}

StockHistory known_stock(const std::string& name, const std::vector<GraftRecord>& grafts, Instant as_of) {
  StockHistory history = stock_history(name, grafts, as_of);
  if (!history.attempts.empty()) return history;
  std::vector<std::string> known;
  for (const GraftRecord& graft : grafts)
    if (!graft.row.stock.empty()) known.push_back(graft.row.stock);
  const std::string near = nearest_hint(name, known);
  throw UsageError(tr("no graft had been made on a stock {stock} by then", "stock"_a = shown(name)),
                   near.empty() ? tr("its name stands in the column stock of grafts.csv") : near);
}

/// The grafts named, or those of the tree named, or all.
std::vector<GraftRecord> chosen(const SinceOptions& options, std::vector<GraftRecord> grafts,
                                const std::optional<StockHistory>& stock) {
  if (!stock) return chosen(options.ids, std::move(grafts));
  std::vector<std::string> ids;
  for (const Attempt& attempt : stock->attempts) ids.push_back(attempt.id);
  return chosen(ids, std::move(grafts));
}

/// Every pair of a method and a cut-off that was asked for, the first of each leading.
std::vector<DegreeDaySettings> ways_to_count(const SinceOptions& options) {
  std::vector<DegreeDaySettings> ways{options.asked};
  const auto spread = [&](const auto& given, auto member) {
    if (given.empty()) return;
    std::vector<DegreeDaySettings> more;
    for (const DegreeDaySettings& way : ways)
      for (const auto value : given) {
        more.push_back(way);
        more.back().*member = value;
      }
    ways = std::move(more);
  };
  spread(options.methods, &DegreeDaySettings::method);
  spread(options.cutoffs, &DegreeDaySettings::cutoff);
  return ways;
}

/// Wood in store: all of it, or that of the grafts that were chosen.
std::vector<WoodInStore> wood_shown(const SinceOptions& options, const OpenSite& open,
                                    std::vector<WoodRow> wood, const std::vector<GraftRecord>& grafts) {
  if (!options.ids.empty() || !options.stock.empty())
    std::erase_if(wood, [&](const WoodRow& row) {
      return std::ranges::none_of(grafts, [&](const GraftRecord& g) { return g.row.scion == row.id; });
    });
  return wood_in_store(wood, grafts, open.models, open.clock.day_of(open.as_of));
}

Answer print(const SinceReport& report, const ReportBasis& basis, const GlobalOptions& global, bool daily) {
  return answered(
      global, basis, [&] { return since_json(report, basis); },
      [&] { return since_text(report, basis, style_of(global), daily); });
}

Answer run(const SinceOptions& options, const GlobalOptions& global) {
  if (!options.ids.empty() && !options.stock.empty())
    throw UsageError(tr("grafts and a stock are both named"),
                     tr("name grafts by their ids, or one tree with --stock"));
  const OpenSite open = open_site(global);
  OpenRecords records = records_of(open);
  ReportBasis basis = basis_of("since", open, global);
  basis.warnings = std::move(records.warnings);
  std::optional<StockHistory> stock;
  if (!options.stock.empty()) stock = known_stock(options.stock, records.grafts, open.as_of);
  const std::vector<GraftRecord> grafts = chosen(options, std::move(records.grafts), stock);
  std::vector<WoodInStore> wood = wood_shown(options, open, std::move(records.wood), grafts);
  if (grafts.empty()) {
    basis.weather = weather_basis(weather_of(open));
    SinceReport none;
    none.wood = std::move(wood);
    return print(none, basis, global, options.daily);
  }

  const Progress progress(tr("counting since grafting"));
  const SiteWeather weather = known_weather(open);
  SeasonSettings settings = season_settings(open);
  settings.own_errors = own_errors_of(open, weather);
  settings.outlook_days = dates_ahead_days;
  const Season season(open.site, open.clock, open.models, weather.hourly, earliest_of(open, grafts), settings,
                      weather.courses);
  std::vector<DegreeDaySettings> ways = ways_to_count(options);
  const DegreeDaySettings first = ways.front();
  ways.erase(ways.begin());
  SinceReport report = since(season, grafts, first, threads_of(global), ways);
  report.stock = std::move(stock);
  report.wood = std::move(wood);
  basis.weather = weather_basis(weather, season);
  append(basis.warnings, weather_warnings(weather));
  append(basis.warnings, notice_warnings(report.notices, open.clock));
  basis.cautions = since_cautions(report, open.models);
  return print(report, basis, global, options.daily);
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<SinceOptions>& options) {
  const std::string group = tr("How degree-days are counted");
  return {{"--method", "", "METHOD", tr("average, sine, hourly ... (default: the site's)"),
           tr("One of average, average-floored, triangle, double-triangle, sine, double-sine, hourly; hourly "
              "where the site names none. Given again: each is counted."),
           group,
           [options](const std::string& text) {
             options->methods.push_back(
                 *parse_degree_day_method(word_of("--method", text, degree_day_method_words())));
           }},
          {"--base", "", "DEGC", tr("temperature above which warmth counts"),
           tr("In degC; the species' own by default."), group,
           [options](const std::string& text) {
             options->asked.base_c = decimal_number("--base", text, -50, 60);
           }},
          {"--upper", "", "DEGC", tr("temperature above which more does not help"),
           tr("In degC; the species' own by default."), group,
           [options](const std::string& text) {
             options->asked.upper_c = decimal_number("--upper", text, -50, 100);
           }},
          {"--cutoff", "", "CUTOFF", tr("none, horizontal, intermediate or vertical"),
           tr("What warmth above --upper does. Given again: each is counted."), group,
           [options](const std::string& text) {
             options->cutoffs.push_back(*parse_cutoff(word_of("--cutoff", text, cutoff_words())));
           }},
          {"--stock", "", "NAME", tr("every graft tried on one tree, and what became of it"),
           tr("The tree of that name in grafts.csv, with what replaced what."), tr("Of this command"),
           into(options->stock)},
          {"--days", "", "", tr("a table of the days of each graft"), tr("JSON always has them."),
           tr("Of this command"), into(options->daily)}};
}

}  // namespace

CommandSpec since_command() {
  const auto options = std::make_shared<SinceOptions>();
  return {
      "since",
      tr("degree-days, healing and release dates since grafting"),
      tr("For each graft: how warm it has had it since, how far the callus bridge has come, when the bag "
         "can be opened "
         "and the wrap slit, when to expect the buds to move, and whether to wait, to check or to graft "
         "again, with what each is worth; then the work to come on the stock and the shoot. Dates "
         "are the middle of the ensemble, with the range that eight in ten members keep within. Wood in "
         "store is told how long it keeps."),
      {{"graftcast since AV1 --at 2025-06-09T06:30", tr("one graft")},
       {"graftcast since --stock \"citrus 13-20\" --at 2025-06-09T06:30", tr("every attempt on one tree")}},
      option_specs(options),
      {{"ID", tr("grafts by their id (default: all)"), false, true,
        [options](const std::string& text) { options->ids.push_back(text); }, true}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
