#pragma once
// Which grafts a diary line speaks of (private to the layer).

#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "records/ledger.hpp"

namespace graftcast {

/// The `graft` cell of a diary line, taken apart: an id, a range `R3-14..20`, `*`, `stock:NAME` or
/// `spot:NAME`.
struct GraftSelector {
  enum class Kind { one, range, all, stock, spot };
  Kind kind = Kind::one;
  std::string name;  ///< Id, common prefix of the ids of a range, stock or spot.
  long from = 0;     ///< First and last number of a range.
  long to = 0;
};

/// Nothing when `text` holds `..` but is no range.
std::optional<GraftSelector> parse_selector(std::string_view text);

/// The rows of a ledger by id. Refers to the ledger.
class LedgerIndex {
 public:
  explicit LedgerIndex(const Ledger& ledger);

  const std::vector<GraftRow>& rows() const { return ledger_.rows; }
  std::optional<std::size_t> row_named(std::string_view id) const;
  /// Rows that `selector` means, in the order of the ledger, whenever they were made; `spots` says where each
  /// row stands.
  std::vector<std::size_t> select(const GraftSelector& selector, const std::vector<std::string>& spots) const;

  /// What is wrong with a selection that cannot mean anything here; empty message when nothing is.
  struct Fault {
    std::string message, hint;
  };
  Fault fault_of(const GraftSelector& selector, const Site& site) const;

 private:
  Fault fault_of_range(const GraftSelector& selector) const;
  bool has_number(const GraftSelector& range, long number) const;
  std::vector<std::string> ids() const;
  std::vector<std::string> stocks() const;

  const Ledger& ledger_;
  std::unordered_map<std::string_view, std::size_t> by_id_;
};

}  // namespace graftcast
