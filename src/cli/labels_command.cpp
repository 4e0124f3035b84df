// `labels`: sheets of labels to print.

#include <algorithm>
#include <cmath>
#include <memory>
#include <tuple>

#include <unistd.h>
#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "report/cautions.hpp"
#include "report/figures.hpp"
#include "report/json_report.hpp"
#include "report/label_sheet.hpp"
#include "report/terminal_report.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

constexpr int most_labels = 20000;

struct LabelOptions {
  std::vector<std::string> ids;
  std::string file;
  SheetLayout layout;
  bool each_graft = false;
  int copies = 1;
};

/// `60x30` as two lengths in mm.
std::pair<double, double> lengths_of(std::string_view option, const std::string& text, double low,
                                     double high) {
  const std::size_t cross = text.find('x');
  if (cross == std::string::npos) {
    throw UsageError(tr("{option} does not take {text}", "option"_a = option, "text"_a = shown(text)),
                     tr("write width and height in mm, such as 60x30"));
  }
  return {decimal_number(option, text.substr(0, cross), low, high),
          decimal_number(option, text.substr(cross + 1), low, high)};
}

void set_page(SheetLayout& layout, const std::string& text) {
  std::pair<double, double> page{210, 297};  // A4, ISO 216
  if (text == "letter") {
    page = {215.9, 279.4};  // 8.5 by 11 inches, ANSI A
  } else if (text != "A4" && text != "a4") {
    page = lengths_of("--page", text, 20, 2000);
  }
  std::tie(layout.page_width, layout.page_height) = page;
}

std::vector<GraftRow> rows_of(const LabelOptions& options, const OpenSite& open) {
  std::vector<GraftRow> rows =
      read_ledger(open.folder, open.site, open.clock, open.models.known_names()).rows;
  std::vector<std::string> known;
  known.reserve(rows.size());
  for (const GraftRow& row : rows) known.push_back(row.id);
  for (const std::string& id : options.ids) {
    if (std::ranges::find(known, id) == known.end()) {
      const std::string near = nearest_hint(id, known);
      throw UsageError(tr("there is no graft {id}", "id"_a = shown(id)),
                       near.empty() ? tr("its id stands in grafts.csv") : near);
    }
  }
  if (!options.ids.empty()) {
    std::erase_if(rows, [&](const GraftRow& row) {
      return std::ranges::find(options.ids, row.id) == options.ids.end();
    });
  }
  return rows;
}

std::vector<GraftLabel> labels_of(const LabelOptions& options, const std::vector<GraftRow>& rows) {
  long long count = 0;
  for (const GraftRow& row : rows) count += 1LL * options.copies * (options.each_graft ? row.count : 1);
  if (count > most_labels) {
    throw UsageError(tr("that would be {count} labels", "count"_a = count),
                     tr("name fewer rows; {most} labels are the most at a time", "most"_a = most_labels));
  }
  return graft_labels(rows, options.each_graft, options.copies);
}

std::vector<std::string> species_of(const std::vector<GraftRow>& rows) {
  std::vector<std::string> species;
  species.reserve(rows.size());
  for (const GraftRow& row : rows) species.push_back(row.species);
  return species;
}

nlohmann::ordered_json json_of(const std::vector<GraftLabel>& labels, const LabelOptions& options,
                               const ReportBasis& basis) {
  const SheetLayout& layout = options.layout;
  auto json = basis_json(basis);
  json["file"] =
      options.file.empty() ? nlohmann::ordered_json(nullptr) : nlohmann::ordered_json(options.file);
  json["layout"] = {{"page_mm", {layout.page_width, layout.page_height}},
                    {"label_mm", {layout.label_width, layout.label_height}},
                    {"margin_mm", layout.margin},
                    {"gap_mm", layout.gap},
                    {"columns", layout.columns()},
                    {"lines", layout.lines()},
                    {"from", layout.first}};
  json["labels"] = nlohmann::ordered_json::array();
  for (const GraftLabel& label : labels) {
    json["labels"].push_back(
        {{"id", label.id},
         {"what", label.what},
         {"method", label.method},
         {"date", label.date},
         {"id_cap_height_mm", std::round(100 * id_letters(layout, label.id).cap_height_mm) / 100}});
  }
  return json;
}

void check_output(const LabelOptions& options, const GlobalOptions& global) {
  if (options.file.empty() && !global.json && ::isatty(STDOUT_FILENO) == 1) {
    throw UsageError(tr("sheets of labels are for a browser, not for a terminal"),
                     tr("name a file, such as --to labels.html, or redirect standard output"));
  }
}

std::vector<std::string> warnings_of(const std::vector<GraftLabel>& labels, const SheetLayout& layout) {
  if (labels.empty()) return {tr("there is no graft to label")};
  const std::vector<std::string> small = ids_too_small(labels, layout);
  if (small.empty()) return {};
  constexpr std::size_t named = 5;
  std::vector<std::string> words = small;
  if (small.size() > named) {
    words.resize(named);
    words.push_back(trn("{count} more", "{count} more", static_cast<long>(small.size() - named),
                        "count"_a = small.size() - named));
  }
  return {
      tr("too long to be read at arm's length on labels of {width:g} x {height:g} mm: {ids}; "
         "a larger --size mends it",
         "width"_a = layout.label_width, "height"_a = layout.label_height, "ids"_a = listed(words))};
}

Answer run(const LabelOptions& options, const GlobalOptions& global) {
  check_output(options, global);
  check_layout(options.layout);
  const OpenSite open = open_site(global);
  const std::vector<GraftRow> rows = rows_of(options, open);
  const std::vector<GraftLabel> labels = labels_of(options, rows);
  ReportBasis basis = basis_of("labels", open, global);
  basis.warnings = warnings_of(labels, options.layout);
  basis.cautions = grafting_cautions(species_of(rows), open.models);
  const auto html = [&] { return label_sheet_html(labels, options.layout, open.site.name, basis.cautions); };
  if (!options.file.empty()) replace_file(options.file, html());
  return answered(
      global, basis, [&] { return json_of(labels, options, basis); },
      [&] {
        if (options.file.empty()) return html();
        return done_text(
            trn("{count} label of {width:g} x {height:g} mm, {places} to a page, in {file}; print at 100 %.",
                "{count} labels of {width:g} x {height:g} mm, {places} to a page, in {file}; print at 100 %.",
                static_cast<long>(labels.size()), "count"_a = labels.size(),
                "width"_a = options.layout.label_width, "height"_a = options.layout.label_height,
                "places"_a = options.layout.columns() * options.layout.lines(), "file"_a = options.file),
            basis, style_of(global));
      });
}

std::vector<OptionSpec> option_specs(const std::shared_ptr<LabelOptions>& options) {
  const std::string what = tr("Which labels");
  const std::string sheet = tr("The sheet, in mm");
  SheetLayout& layout = options->layout;
  return {
      {"--to", "", "FILE", tr("write the sheets to FILE"), tr("Else they go to standard output, as HTML."),
       what, into(options->file)},
      {"--each", "", "", tr("a label for each graft of a row (default: one a row)"), "", what,
       into(options->each_graft)},
      {"--copies", "", "N", tr("each label N times (default: 1)"), "", what,
       [options](const std::string& text) {
         options->copies = static_cast<int>(whole_number("--copies", text, 1, 100));
       }},
      {"--size", "", "WxH", tr("width and height of a label (default: 60x30)"),
       tr("The id is as large as fits: with 60x30 its capitals are 10 mm high, up to four letters. It is "
          "told "
          "where one is too small to be read at arm's length."),
       sheet,
       [&layout, options](const std::string& text) {
         std::tie(layout.label_width, layout.label_height) = lengths_of("--size", text, 10, 300);
       }},
      {"--page", "", "PAGE", tr("A4, letter, or WxH (default: A4)"), "", sheet,
       [&layout, options](const std::string& text) { set_page(layout, text); }},
      {"--margin", "", "MM", tr("at each edge of the page, at least (default: 8)"), "", sheet,
       [&layout, options](const std::string& text) {
         layout.margin = decimal_number("--margin", text, 0, 100);
       }},
      {"--gap", "", "MM", tr("between labels (default: 3)"), "", sheet,
       [&layout, options](const std::string& text) { layout.gap = decimal_number("--gap", text, 0, 100); }},
      {"--from", "", "N", tr("first free label of a sheet in use (default: 1)"),
       tr("Counted along the lines."), sheet, [&layout, options](const std::string& text) {
         layout.first = static_cast<int>(whole_number("--from", text, 1, 10000));
       }}};
}

}  // namespace

CommandSpec labels_command() {
  const auto options = std::make_shared<LabelOptions>();
  return {
      "labels",
      tr("sheets of labels to print"),
      tr("Each label has the id, large, then the scion on its stock, the method and the date. One HTML file, "
         "exact to the millimetre when printed at 100 %; print on weatherproof sheets with a laser printer, "
         "ink of a jet runs in the rain."),
      {{"graftcast labels", tr("all rows, on standard output")},
       {"graftcast labels AV1 C2 --each --size 50x25 --from 4 --to labels.html",
        tr("a label for each graft of two rows, on a sheet of which three are used up")}},
      option_specs(options),
      {{"ID", tr("grafts by their id (default: all)"), false, true,
        [options](const std::string& text) { options->ids.push_back(text); }, true}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
