#include "advice/stock_history.hpp"

#include <algorithm>
#include <set>

#include "card_of.hpp"

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

AttemptOutcome outcome_of_attempt(const Attempt& attempt) {
  if (attempt.open + attempt.dead + attempt.taken == 0) return AttemptOutcome::removed;
  if (attempt.open == 0 && attempt.dead == 0) return AttemptOutcome::taken;
  if (attempt.open == 0 && attempt.taken == 0) return AttemptOutcome::lost;
  return attempt.taken == 0 && attempt.dead == 0 ? AttemptOutcome::open : AttemptOutcome::part;
}

Attempt attempt_of(const GraftRecord& graft, const std::vector<GraftRecord>& grafts, Instant as_of) {
  const GraftRow& row = graft.row;
  const Outcome outcome = outcome_of(row, graft.lines, as_of);
  Attempt attempt;
  static_cast<GraftCard&>(attempt) = card_of(row);
  attempt.position = row.position;
  attempt.replaces = row.replaces;
  attempt.taken = outcome.taken;
  attempt.dead = outcome.dead;
  attempt.open = outcome.open;
  attempt.removed = outcome.removed;
  for (const GraftRecord& other : grafts)
    if (other.row.replaces == row.id) attempt.replaced_by = other.row.id;
  attempt.outcome = outcome_of_attempt(attempt);
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
