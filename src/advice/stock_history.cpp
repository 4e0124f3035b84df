#include "advice/stock_history.hpp"

#include <algorithm>
#include <set>

namespace graftcast {

namespace {

/// Adds to `ids` whatever replaced one of them or was replaced by one, until nothing more comes.
void follow_replacements(const std::vector<GraftRecord>& grafts, std::set<std::string>& ids) {
  for (std::size_t before = 0; before != ids.size();) {
    before = ids.size();
    for (const GraftRecord& graft : grafts) {
      if (graft.row.replaces.empty()) continue;
      if (ids.contains(graft.row.id)) ids.insert(graft.row.replaces);
      if (ids.contains(graft.row.replaces)) ids.insert(graft.row.id);
    }
  }
}

std::string outcome_word(const Attempt& attempt) {
  if (attempt.open + attempt.dead + attempt.taken == 0) return "removed";
  if (attempt.open == 0 && attempt.dead == 0) return "taken";
  if (attempt.open == 0 && attempt.taken == 0) return "lost";
  return attempt.taken == 0 && attempt.dead == 0 ? "open" : "part";
}

Attempt attempt_of(const GraftRecord& graft, const std::vector<GraftRecord>& grafts, Instant as_of) {
  const GraftRow& row = graft.row;
  const Outcome outcome = outcome_of(row, graft.lines, as_of);
  Attempt attempt{row.id,         row.scion,       row.species, row.method,    row.position,
                  row.grafted_on, row.replaces,    {},          outcome.taken, outcome.dead,
                  outcome.open,   outcome.removed, {}};
  for (const GraftRecord& other : grafts)
    if (other.row.replaces == row.id) attempt.replaced_by = other.row.id;
  attempt.outcome = outcome_word(attempt);
  return attempt;
}

}  // namespace

StockHistory stock_history(const std::string& name, const std::vector<GraftRecord>& grafts, Instant as_of) {
  std::set<std::string> ids;
  for (const GraftRecord& graft : grafts)
    if (graft.row.stock == name) ids.insert(graft.row.id);
  follow_replacements(grafts, ids);
  StockHistory history{name, {}};
  for (const GraftRecord& graft : grafts)
    if (ids.contains(graft.row.id)) history.attempts.push_back(attempt_of(graft, grafts, as_of));
  std::ranges::stable_sort(history.attempts, {}, &Attempt::grafted_on);
  return history;
}

}  // namespace graftcast
