#include "records/split_batch.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "diary_lines.hpp"
#include "record_files.hpp"
#include "records/folder_lock.hpp"
#include "table_text.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

const GraftRow& batch_named(const Ledger& ledger, std::string_view id) {
  if (const GraftRow* row = ledger.find(id)) return *row;
  std::vector<std::string> ids;
  for (const GraftRow& row : ledger.rows) ids.push_back(row.id);
  throw UsageError(tr("the graft {id} is not in the ledger", "id"_a = shown(id)), nearest_hint(id, ids));
}

std::string free_part_id(const Ledger& ledger, std::string_view id) {
  for (int number = 1;; ++number) {
    std::string part = fmt::format("{}.{}", id, number);
    if (ledger.find(part) == nullptr) return part;
  }
}

// Those of the batch that are noted by number as taken or dead stay with it.
int settled_count(const std::vector<DiaryLine>& diary, std::string_view id) {
  double settled = 0;
  for (const DiaryLine& line : lines_for(diary, id)) {
    if (about(line.event).is_outcome) settled += line.number().value_or(0);
  }
  return static_cast<int>(settled);
}

void check_count(const GraftRow& batch, int count, int settled) {
  if (count < 1 || count >= batch.count) {
    throw UsageError(tr("{count} cannot be split off {id}, which has {all}", "count"_a = count,
                        "id"_a = batch.id, "all"_a = batch.count),
                     batch.count > 1 ? tr("give a number from 1 to {most}", "most"_a = batch.count - 1)
                                     : tr("it is a single graft"));
  }
  if (count > batch.count - settled) {
    throw UsageError(tr("{count} cannot be split off {id}: of {all}, {settled} are noted as taken or dead",
                        "count"_a = count, "id"_a = batch.id, "all"_a = batch.count, "settled"_a = settled),
                     tr("give a number up to {count}", "count"_a = batch.count - settled));
  }
}

void check_time(const GraftRow& batch, const Clock& clock, Instant at) {
  if (clock.day_of(at) >= batch.grafted_on) return;
  throw UsageError(tr("{id} was grafted on {grafted_on}, after the time of the split", "id"_a = batch.id,
                      "grafted_on"_a = day_text(batch.grafted_on)));
}

}  // namespace

SplitRows split_batch(const std::filesystem::path& folder, const Site& site, const Clock& clock,
                      const KnownNames& known, std::string_view id, int count, Instant at) {
  const FolderLock lock(folder);
  const std::filesystem::path ledger_path = folder / grafts_file;
  const std::filesystem::path diary_path = folder / diary_file;
  TableText grafts = TableText::open(ledger_path, graft_columns());
  TableText diary = TableText::open(diary_path, diary_columns());
  const Ledger before = ledger_from_text(grafts.text(), ledger_path.string(), site, clock, known);
  const GraftRow& batch = batch_named(before, id);
  const auto lines = diary_from_text(diary.text(), diary_path.string(), site, clock, known, before);
  check_time(batch, clock, at);
  check_count(batch, count, settled_count(lines, id));

  const std::string part = free_part_id(before, id);
  grafts.set_cell(batch.line, "count", std::to_string(batch.count - count));
  grafts.append_copy(batch.line, {{"id", part}, {"count", std::to_string(count)}});
  append_entry(diary, {stamp_of(clock, at), batch.id, Event::split, part});
  const Ledger after = ledger_from_text(grafts.text(), ledger_path.string(), site, clock, known);
  diary_from_text(diary.text(), diary_path.string(), site, clock, known, after);
  replace_file(diary_path, diary.text());
  replace_file(ledger_path, grafts.text());
  return {*after.find(id), *after.find(part)};
}

}  // namespace graftcast
