// `graft`: record new grafts.

#include <algorithm>
#include <array>
#include <memory>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "open_site.hpp"
#include "report/cautions.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
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
    ColumnHelp{"id", "ID", "its name (default: the next free one, G1, G2, ...)"},
    ColumnHelp{"grafted_on", "TIME", "date, or date and time (default: now)"},
    ColumnHelp{"scion", "NAME", "variety, or the id of a row in wood.csv"},
    ColumnHelp{"species", "NAME", "of the scion; 'graftcast models' lists them"},
    ColumnHelp{"method", "NAME", "cleft, chip, t-bud, ...; 'graftcast models' lists them"},
    ColumnHelp{"stock", "NAME", "tree or pot that carries it"},
    ColumnHelp{"stock_species", "NAME", "species of the stock (default: the scion's)"},
    ColumnHelp{"position", "TEXT", "where on the stock"},
    ColumnHelp{"replaces", "ID", "an earlier graft at that place"},
    ColumnHelp{"scion_state", "STATE", "dormant, leafless-evergreen or leafy"},
    ColumnHelp{"diameter_mm", "MM", "of the stick, or of the stem under a bud"},
    ColumnHelp{"length_mm", "MM", "of the stick"},
    ColumnHelp{"buds", "N", "buds on the scion"},
    ColumnHelp{"tip", "TIP", "sealed or open"},
    ColumnHelp{"cambium_match", "MATCH", "both, one-side, or a share from 0 to 1"},
    ColumnHelp{"spot", "NAME", "spot of site.json where it stands"},
    ColumnHelp{"wrap", "WRAP", "none, film, wax, ...; 'graftcast models' lists them"},
    ColumnHelp{"cover", "COVER", "none, clear-bag, ...; 'graftcast models' lists them"},
    ColumnHelp{"shade", "SHARE", "what a shade cloth keeps off, 0 to 0.95"},
    ColumnHelp{"pot_litres", "L", "size of the pot; leave out for the open ground"},
    ColumnHelp{"count", "N", "how many alike (default: 1)"},
    ColumnHelp{"priority", "X", "relative value (default: 1)"},
    ColumnHelp{"grafter", "NAME", "who made it"},
    ColumnHelp{"comment", "TEXT", "anything"}};

std::string option_name(std::string_view column) {
  if (column == "grafted_on") return "--on";
  std::string name = "--" + std::string(column);
  std::ranges::replace(name, '_', '-');
  return name;
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<GraftOptions>& options) {
  std::vector<OptionSpec> specs;
  for (const ColumnHelp& column : column_helps)
    specs.push_back({option_name(column.column), "", std::string(column.value), std::string(column.help), "",
                     "The graft", [options, name = std::string(column.column)](const std::string& text) {
                       options->cells[name] = text;
                     }});
  return specs;
}

std::string row_words(const GraftRow& row) {
  std::string words =
      fmt::format("{}: {} {} of {}", row.id, row.species, row.method, day_text(row.grafted_on));
  if (!row.scion.empty()) words += ", " + row.scion;
  if (row.count != 1) words += fmt::format(", {} alike", row.count);
  return words + "; added to grafts.csv";
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
  return {"graft",
          "record new grafts",
          "Adds a row to grafts.csv; what stands there stays as it is. --species and --method must be given; "
          "what is left "
          "out takes the model's usual value and widens the range of the risk.",
          {{"graftcast graft --species apple --method cleft --scion Millrace --spot field --count 12",
            "twelve grafts made just now"},
           {"graftcast graft --species citrus --method chip --wrap film-bud-out --on 2025-06-08",
            "a bud put in the day before"}},
          option_specs(options),
          {},
          [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
