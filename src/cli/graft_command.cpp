// `graft`: record new grafts.

#include <algorithm>
#include <array>
#include <memory>

#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "open_site.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct GraftOptions {
  GraftCells cells;
};

struct ColumnHelp {
  std::string_view column, value, help;
};

constexpr std::array column_helps{
    ColumnHelp{"id", "ID", tr_later("its name (default: the next free one, G1, G2, ...)")},
    ColumnHelp{"grafted_on", "TIME", tr_later("date, or date and time (default: now)")},
    ColumnHelp{"scion", "NAME", tr_later("variety, or the id of a row in wood.csv")},
    ColumnHelp{"species", "NAME", tr_later("of the scion; 'graftcast models' lists them")},
    ColumnHelp{"method", "NAME", tr_later("cleft, chip, t-bud, ...; 'graftcast models' lists them")},
    ColumnHelp{"stock", "NAME", tr_later("tree or pot that carries it")},
    ColumnHelp{"stock_species", "NAME", tr_later("species of the stock (default: the scion's)")},
    ColumnHelp{"position", "TEXT", tr_later("where on the stock")},
    ColumnHelp{"replaces", "ID", tr_later("an earlier graft at that place")},
    ColumnHelp{"scion_state", "STATE", tr_later("dormant, leafless-evergreen or leafy")},
    ColumnHelp{"diameter_mm", "MM", tr_later("of the stick, or of the stem under a bud")},
    ColumnHelp{"length_mm", "MM", tr_later("of the stick")},
    ColumnHelp{"buds", "N", tr_later("buds on the scion")},
    ColumnHelp{"tip", "TIP", tr_later("sealed or open")},
    ColumnHelp{"cambium_match", "MATCH", tr_later("both, one-side, or a share from 0 to 1")},
    ColumnHelp{"spot", "NAME", tr_later("spot of site.json where it stands")},
    ColumnHelp{"wrap", "WRAP", tr_later("none, film, wax, ...; 'graftcast models' lists them")},
    ColumnHelp{"cover", "COVER", tr_later("none, clear-bag, ...; 'graftcast models' lists them")},
    ColumnHelp{"shade", "SHARE", tr_later("what a shade cloth keeps off, 0 to 0.95")},
    ColumnHelp{"pot_litres", "L", tr_later("size of the pot; leave out for the open ground")},
    ColumnHelp{"count", "N", tr_later("how many alike (default: 1)")},
    ColumnHelp{"priority", "X", tr_later("relative value (default: 1)")},
    ColumnHelp{"grafter", "NAME", tr_later("who made it")},
    ColumnHelp{"comment", "TEXT", tr_later("anything")}};

std::string option_name(std::string_view column) {
  if (column == "grafted_on") return "--on";
  std::string name = "--" + std::string(column);
  std::ranges::replace(name, '_', '-');
  return name;
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<GraftOptions>& options) {
  std::vector<OptionSpec> specs;
  for (const ColumnHelp& column : column_helps)
    specs.push_back({option_name(column.column), "", std::string(column.value),
                     std::string(translated(column.help)), "", tr("The graft"),
                     [options, name = std::string(column.column)](const std::string& text) {
                       options->cells[name] = text;
                     }});
  return specs;
}

std::string row_words(const GraftRow& row) {
  std::string words = tr("{id}: {species} {method} of {day}", "id"_a = row.id, "species"_a = row.species,
                         "method"_a = row.method, "day"_a = day_text(row.grafted_on));
  if (!row.scion.empty()) words = tr("{row}, {scion}", "row"_a = words, "scion"_a = row.scion);
  if (row.count != 1)
    words = trn("{row}, {count} alike", "{row}, {count} alike", row.count, "row"_a = words,
                "count"_a = row.count);
  return tr("{row}; added to grafts.csv", "row"_a = words);
}

Answer run(const GraftOptions& options, const GlobalOptions& global) {
  const OpenSite open = open_site(global);
  GraftCells cells = options.cells;
  cells.try_emplace("grafted_on", open.clock.local_text(open.as_of));
  const std::vector<GraftRow> rows =
      add_grafts(open.folder, open.site, open.clock, open.models.known_names(), {cells});
  ReportBasis basis = basis_of("graft", open, global);
  std::vector<std::string> species;
  for (const GraftRow& row : rows) species.push_back(row.species);
  basis.cautions = grafting_cautions(species, open.models);
  const auto json = [&] {
    auto answer = basis_json(basis);
    answer["grafts"] = nlohmann::ordered_json::array();
    for (const GraftRow& row : rows) answer["grafts"].push_back(graft_json(row));
    return answer;
  };
  return answered(global, basis, json, [&] {
    std::string words;
    for (const GraftRow& row : rows) words += row_words(row);
    return done_text(words, basis, style_of(global));
  });
}

}  // namespace

CommandSpec graft_command() {
  const auto options = std::make_shared<GraftOptions>();
  return {
      "graft",
      tr("record new grafts"),
      tr("Adds a row to grafts.csv; what stands there stays as it is. --species and --method must be given; "
         "what is left "
         "out takes the model's usual value and widens the range of the risk."),
      {{"graftcast graft --species apple --method cleft --scion Millrace --spot field --count 12",
        tr("twelve grafts made just now")},
       {"graftcast graft --species citrus --method chip --wrap film-bud-out --on 2025-06-08",
        tr("a bud put in the day before")}},
      option_specs(options),
      {},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
