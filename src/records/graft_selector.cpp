#include "graft_selector.hpp"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "cell.hpp"
#include "ledger_columns.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Kind = GraftSelector::Kind;

constexpr std::string_view stock_prefix = "stock:";
constexpr std::string_view spot_prefix = "spot:";
constexpr std::string_view range_sign = "..";

std::optional<long> whole_number(std::string_view digits) {
  constexpr std::size_t most_digits = 9;
  if (digits.empty() || digits.size() > most_digits) return std::nullopt;
  long number = 0;
  const auto [end, fault] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  if (fault != std::errc() || end != digits.data() + digits.size() || digits.front() == '-')
    return std::nullopt;
  return number;
}

// `R3-14` as its prefix `R3-` and its number 14.
struct NumberedId {
  std::string_view prefix;
  long number;
};

std::optional<NumberedId> numbered(std::string_view id) {
  const std::size_t last_other = id.find_last_not_of("0123456789");
  const std::size_t begin = last_other == std::string_view::npos ? 0 : last_other + 1;
  const auto number = whole_number(id.substr(begin));
  if (!number) return std::nullopt;
  return NumberedId{id.substr(0, begin), *number};
}

std::optional<GraftSelector> parse_range(std::string_view text, std::size_t sign) {
  const auto first = numbered(text.substr(0, sign));
  const auto last = numbered(text.substr(sign + range_sign.size()));
  if (!first || !last || last->number < first->number) return std::nullopt;
  if (!last->prefix.empty() && last->prefix != first->prefix) return std::nullopt;
  return GraftSelector{Kind::range, std::string(first->prefix), first->number, last->number};
}

bool is_in_range(const GraftSelector& range, std::string_view id) {
  const auto own = numbered(id);
  return own && own->prefix == range.name && own->number >= range.from && own->number <= range.to;
}

bool selects(const GraftSelector& selector, const GraftRow& row, const std::string& spot) {
  switch (selector.kind) {
    case Kind::one:
      return row.id == selector.name;
    case Kind::range:
      return is_in_range(selector, row.id);
    case Kind::all:
      return true;
    case Kind::stock:
      return row.stock == selector.name;
    case Kind::spot:
      return spot == selector.name;
  }
  return false;
}

}  // namespace

std::optional<GraftSelector> parse_selector(std::string_view text) {
  if (text == "*") return GraftSelector{Kind::all, {}, 0, 0};
  if (text.starts_with(stock_prefix)) {
    return GraftSelector{Kind::stock, std::string(trimmed(text.substr(stock_prefix.size()))), 0, 0};
  }
  if (text.starts_with(spot_prefix)) {
    return GraftSelector{Kind::spot, std::string(trimmed(text.substr(spot_prefix.size()))), 0, 0};
  }
  const std::size_t sign = text.find(range_sign);
  if (sign != std::string_view::npos) return parse_range(text, sign);
  return GraftSelector{Kind::one, std::string(text), 0, 0};
}

LedgerIndex::LedgerIndex(const Ledger& ledger) : ledger_(ledger) {
  for (std::size_t k = 0; k < ledger.rows.size(); ++k) by_id_.emplace(ledger.rows[k].id, k);
}

std::optional<std::size_t> LedgerIndex::row_named(std::string_view id) const {
  const auto found = by_id_.find(id);
  if (found == by_id_.end()) return std::nullopt;
  return found->second;
}

std::vector<std::size_t> LedgerIndex::select(const GraftSelector& selector,
                                             const std::vector<std::string>& spots) const {
  std::vector<std::size_t> selected;
  if (selector.kind == Kind::one) {
    if (const auto row = row_named(selector.name)) selected.push_back(*row);
    return selected;
  }
  for (std::size_t k = 0; k < rows().size(); ++k) {
    if (selects(selector, rows()[k], spots[k])) selected.push_back(k);
  }
  return selected;
}

LedgerIndex::Fault LedgerIndex::fault_of(const GraftSelector& selector, const Site& site) const {
  switch (selector.kind) {
    case Kind::all:
      return {};
    case Kind::range:
      return fault_of_range(selector);
    case Kind::one:
      if (row_named(selector.name)) return {};
      return {tr("the graft {id} is not in the ledger", "id"_a = shown(selector.name)),
              nearest_hint(selector.name, ids())};
    case Kind::stock: {
      const auto known = stocks();
      if (std::binary_search(known.begin(), known.end(), selector.name)) return {};
      return {tr("no graft is on a stock {stock}", "stock"_a = shown(selector.name)),
              names_hint(selector.name, known)};
    }
    case Kind::spot:
      if (site.spots.contains(selector.name)) return {};
      return {tr("the site has no spot {spot}", "spot"_a = shown(selector.name)),
              names_hint(selector.name, spot_names(site))};
  }
  return {};
}

LedgerIndex::Fault LedgerIndex::fault_of_range(const GraftSelector& selector) const {
  for (const long number : {selector.from, selector.to}) {
    if (has_number(selector, number)) continue;
    return {tr("the graft {id} at the end of the range is not in the ledger",
               "id"_a = shown(fmt::format("{}{}", selector.name, number))),
            tr("let the range begin and end with grafts that are there")};
  }
  return {};
}

bool LedgerIndex::has_number(const GraftSelector& range, long number) const {
  const GraftSelector end{Kind::range, range.name, number, number};
  return std::any_of(rows().begin(), rows().end(),
                     [&](const GraftRow& row) { return is_in_range(end, row.id); });
}

std::vector<std::string> LedgerIndex::ids() const {
  std::vector<std::string> result;
  for (const GraftRow& row : rows()) result.push_back(row.id);
  return result;
}

std::vector<std::string> LedgerIndex::stocks() const {
  std::vector<std::string> result;
  for (const GraftRow& row : rows()) {
    if (!row.stock.empty()) result.push_back(row.stock);
  }
  std::sort(result.begin(), result.end());
  result.erase(std::unique(result.begin(), result.end()), result.end());
  return result;
}

}  // namespace graftcast
