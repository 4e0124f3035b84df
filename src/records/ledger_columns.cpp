#include "ledger_columns.hpp"

#include <algorithm>
#include <array>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Setting = LedgerSetting;

const std::vector<std::string> scion_states{"dormant", "leafless-evergreen", "leafy"};
const std::vector<std::string> tips{"sealed", "open"};
const std::vector<std::string> cambium_matches{"both", "one-side"};

void read_grafted_on(const Cell& cell, const Setting& setting, GraftRow& row) {
  require_content(cell);
  const RecordTime time = time_of(cell, setting.clock);
  row.grafted_on = time.day;
  row.grafted_at = time.instant;
}

void read_cambium_match(const Cell& cell, const Setting&, GraftRow& row) {
  if (parse_number(cell.text())) {
    row.cambium_match_share = cell.number(0, 1, {});
    return;
  }
  const std::string word = cell.word_of(cambium_matches);
  if (!word.empty()) row.cambium_match_word = word;
}

void read_spot(const Cell& cell, const Setting& setting, GraftRow& row) {
  row.spot = cell.line();
  if (row.spot.empty() || setting.site.spots.contains(row.spot)) return;
  cell.fail(tr("the site has no spot {spot}", "spot"_a = shown(row.spot)),
            names_hint(row.spot, spot_names(setting.site)));
}

// A chip, a bud or a batch grafted alike; a batch of a hundred thousand is beyond any nursery's single row.
void read_count(const Cell& cell, const Setting&, GraftRow& row) {
  row.count = cell.whole_number(1, 100'000).value_or(1);
}

void read_required_word(const Cell& cell, std::span<const std::string> known, std::string& word) {
  require_content(cell);
  word = cell.word_of(known);
}

// The limits of sizes catch slips of the decimal point and of the unit; common practice, no published source.
constexpr std::array readers{
    GraftColumn{"id", [](const Cell& cell, const Setting&, GraftRow& row) { row.id = id_of(cell); }},
    GraftColumn{"grafted_on", read_grafted_on},
    GraftColumn{"scion", [](const Cell& cell, const Setting&, GraftRow& row) { row.scion = cell.line(); }},
    GraftColumn{"species",
                [](const Cell& cell, const Setting& setting, GraftRow& row) {
                  read_required_word(cell, setting.known.species, row.species);
                }},
    GraftColumn{"method", [](const Cell& cell, const Setting& setting,
                             GraftRow& row) { read_required_word(cell, setting.known.methods, row.method); }},
    GraftColumn{"stock", [](const Cell& cell, const Setting&, GraftRow& row) { row.stock = cell.line(); }},
    GraftColumn{"stock_species",
                [](const Cell& cell, const Setting& setting, GraftRow& row) {
                  row.stock_species = cell.word_of(setting.known.species);
                }},
    GraftColumn{"position",
                [](const Cell& cell, const Setting&, GraftRow& row) { row.position = cell.line(); }},
    GraftColumn{"replaces",
                [](const Cell& cell, const Setting&, GraftRow& row) { row.replaces = cell.line(); }},
    GraftColumn{"scion_state", [](const Cell& cell, const Setting&,
                                  GraftRow& row) { row.scion_state = cell.word_of(scion_states); }},
    GraftColumn{"diameter_mm", [](const Cell& cell, const Setting&,
                                  GraftRow& row) { row.diameter_mm = cell.number(1, 100, "mm"); }},
    GraftColumn{"length_mm", [](const Cell& cell, const Setting&,
                                GraftRow& row) { row.length_mm = cell.number(5, 1000, "mm"); }},
    GraftColumn{"buds", [](const Cell& cell, const Setting&,
                           GraftRow& row) { row.buds = cell.whole_number(0, 100); }},
    GraftColumn{"tip", [](const Cell& cell, const Setting&, GraftRow& row) { row.tip = cell.word_of(tips); }},
    GraftColumn{"cambium_match", read_cambium_match},
    GraftColumn{"spot", read_spot},
    GraftColumn{"wrap", [](const Cell& cell, const Setting& setting,
                           GraftRow& row) { row.wrap = cell.word_of(setting.known.wraps); }},
    GraftColumn{"cover", [](const Cell& cell, const Setting& setting,
                            GraftRow& row) { row.cover = cell.word_of(setting.known.covers); }},
    GraftColumn{"shade", [](const Cell& cell, const Setting&,
                            GraftRow& row) { row.shade = cell.number(0, 0.95, {}); }},
    GraftColumn{"pot_litres",
                [](const Cell& cell, const Setting&, GraftRow& row) {
                  row.pot_litres = cell.number(0.05, 2000, tr_later("litres"));
                }},
    GraftColumn{"count", read_count},
    GraftColumn{"priority", [](const Cell& cell, const Setting&,
                               GraftRow& row) { row.priority = cell.number(0, 1000, {}).value_or(1); }},
    GraftColumn{"grafter",
                [](const Cell& cell, const Setting&, GraftRow& row) { row.grafter = cell.line(); }},
    GraftColumn{"comment",
                [](const Cell& cell, const Setting&, GraftRow& row) { row.comment = cell.words(); }},
};

}  // namespace

std::span<const GraftColumn> graft_column_readers() {
  return readers;
}

std::vector<std::string> spot_names(const Site& site) {
  std::vector<std::string> names;
  for (const auto& [name, spot] : site.spots) names.push_back(name);
  return names;
}

void require_content(const Cell& cell) {
  if (cell.empty()) cell.fail(tr("{column} is empty", "column"_a = cell.column()), tr("every row needs it"));
}

std::string id_of(const Cell& cell) {
  constexpr std::size_t longest = 64;
  require_content(cell);
  std::string id = cell.line();
  const bool is_word = id.find_first_of(" ,\"*:#") == std::string::npos && id.find("..") == std::string::npos;
  if (id.size() > longest || !is_word) {
    cell.fail(tr("{column} {id} cannot be used", "column"_a = cell.column(), "id"_a = shown(id)),
              tr("an id is one word of up to 64 letters, without blanks, commas, quotes, \"..\", *, : or #"));
  }
  return id;
}

}  // namespace graftcast
