// Setting the lines of a diary against each other: voids, splits, selections, counts.

#include <algorithm>
#include <numeric>
#include <optional>
#include <span>
#include <unordered_map>

#include "diary_lines.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Lines = std::vector<ParsedDiaryLine>;
using Kind = GraftSelector::Kind;

[[noreturn]] void fail(const std::string& name, const DiaryPlace& place, const std::string& message,
                       const std::string& hint) {
  throw DataError({name, place.line, place.column}, message, hint);
}

// Order in which things happened.
bool is_before(const ParsedDiaryLine& a, const ParsedDiaryLine& b) {
  return a.line.when != b.line.when ? a.line.when < b.line.when : a.line.line < b.line.line;
}

// What a void line takes back: a stamp, and one event only where it is named.
struct VoidTarget {
  std::string_view stamp;
  std::optional<Event> event;
};

VoidTarget target_of(std::string_view value) {
  const std::size_t blank = value.rfind(' ');
  if (blank == std::string_view::npos) return {value, {}};
  const auto event = event_named(value.substr(blank + 1));
  return event ? VoidTarget{trimmed(value.substr(0, blank)), event} : VoidTarget{value, {}};
}

std::string words_of(const DiaryLine& line) {
  return fmt::format("{} {} {}", line.stamp, line.graft, note_words({line.event, line.value}));
}

// Finds the lines that each void line takes back.
class Voiding {
 public:
  Voiding(Lines& lines, const std::string& name) : lines_(lines), name_(name) {}

  void mark() {
    for (std::size_t k = 0; k < lines_.size(); ++k)
      if (!is_void(lines_[k])) by_id_.emplace(lines_[k].line.id, k);
    for (std::size_t k = 0; k < lines_.size(); ++k) {
      if (is_void(lines_[k]))
        mark_one(k);
      else
        by_stamp_[lines_[k].line.stamp].push_back(k);
    }
  }

 private:
  void mark_one(std::size_t number) {
    const std::vector<std::size_t> named = lines_named(lines_[number]);
    if (named.empty()) fail_unknown(number);
    for (const std::size_t k : named) take_back(k, number);
  }

  std::vector<std::size_t> lines_named(ParsedDiaryLine& taking) const {
    const std::string& value = taking.line.value;
    if (const auto of_id = by_id_.find(value); of_id != by_id_.end()) return {of_id->second};
    taking.by_stamp = true;
    const VoidTarget target = target_of(value);
    const auto of_stamp = by_stamp_.find(target.stamp);
    if (of_stamp == by_stamp_.end()) return {};
    std::vector<std::size_t> named = of_stamp->second;
    std::erase_if(named, [&](auto k) { return target.event && lines_[k].line.event != *target.event; });
    return named;
  }

  void take_back(std::size_t number, std::size_t void_number) {
    ParsedDiaryLine& line = lines_[number];
    ParsedDiaryLine& taking = lines_[void_number];
    if (line.line.graft != taking.line.graft) {
      line.void_for.push_back(void_number);
      return;
    }
    taking.takes_back_wholly = true;
    if (!line.is_void_wholly) taking.taken_back.push_back({line.line.id, words_of(line.line)});
    line.is_void_wholly = true;
  }

  [[noreturn]] void fail_unknown(std::size_t number) const {
    const ParsedDiaryLine& taking = lines_[number];
    std::vector<std::string> known;
    for (const ParsedDiaryLine& line : std::span(lines_).first(number)) {
      if (is_void(line)) continue;
      known.push_back(line.line.stamp);
      known.push_back(line.line.id);
    }
    const std::string near = nearest_hint(taking.line.value, known, 1);
    fail(name_, taking.value_place, tr("no earlier line is of {value}", "value"_a = shown(taking.line.value)),
         near.empty() ? tr("give the id of the line to take back, or its time as it stands there") : near);
  }

  Lines& lines_;
  const std::string& name_;
  std::unordered_map<std::string_view, std::size_t> by_id_;
  std::unordered_map<std::string_view, std::vector<std::size_t>> by_stamp_;  // Those that came before.
};

// Works out, in order of time, which rows each line means.
class Expansion {
 public:
  Expansion(Lines& lines, const std::string& name, const Clock& clock, const LedgerIndex& index)
      : lines_(lines),
        name_(name),
        clock_(clock),
        index_(index),
        split_at_(index.rows().size()),
        parent_(index.rows().size()) {
    for (const GraftRow& row : index.rows()) spots_.push_back(row.spot);
    for (std::size_t k = 0; k < lines.size(); ++k) note_split(k);
  }

  void run() {
    std::vector<std::size_t> order(lines_.size());
    std::iota(order.begin(), order.end(), 0U);
    std::sort(order.begin(), order.end(), [&](auto a, auto b) { return is_before(lines_[a], lines_[b]); });
    for (const std::size_t number : order) {
      ParsedDiaryLine& line = lines_[number];
      if (!line.is_void_wholly && !is_void(line) && !is_split(line)) expand(line);
    }
    check_voids();
  }

 private:
  // A split whose child is not in the ledger was cut short and never happened.
  void note_split(std::size_t number) {
    const ParsedDiaryLine& line = lines_[number];
    if (!is_split(line) || line.is_void_wholly) return;
    const bool is_child =
        line.selector.kind == Kind::one && line.line.value.starts_with(line.selector.name + '.');
    if (!is_child) {
      fail(name_, line.value_place,
           tr("{value} is not a part of {graft}", "value"_a = shown(line.line.value),
              "graft"_a = shown(line.line.graft)),
           tr("a row split off R3-14 is called R3-14.1"));
    }
    const auto child = index_.row_named(line.line.value);
    if (!child) return;
    parent_[*child] = index_.row_named(line.selector.name);
    has_parts_ = true;
    split_at_[*child] = number;
  }

  void expand(ParsedDiaryLine& line) {
    std::vector<bool> means(index_.rows().size());
    const std::size_t count = mark_selected(line, means);
    if (has_count(line) && line.selector.kind != Kind::one && count != 1) {
      fail(name_, line.value_place, tr("a number of grafts is seen on one batch at a time"),
           tr("write a line for each batch"));
    }
    if (!has_count(line)) mark_later_parts(line, means);
    for (const std::size_t number : line.void_for) take_back(line, number, means);
    for (std::size_t row = 0; row < means.size(); ++row) {
      if (means[row]) apply(line, row);
    }
  }

  std::size_t mark_selected(const ParsedDiaryLine& line, std::vector<bool>& means) const {
    const LocalDay day = clock_.day_of(line.line.when);
    const bool takes_unmade = about(line.line.event).of_stock &&
                              (line.selector.kind == Kind::stock || line.selector.kind == Kind::one);
    std::size_t count = 0;
    for (const std::size_t row : index_.select(line.selector, spots_)) {
      const LocalDay grafted_on = index_.rows()[row].grafted_on;
      if (grafted_on > day && !takes_unmade) {
        if (line.selector.kind == Kind::one) fail_before_grafting(line, grafted_on);
        continue;
      }
      means[row] = true;
      ++count;
    }
    return count;
  }

  [[noreturn]] void fail_before_grafting(const ParsedDiaryLine& line, LocalDay grafted_on) const {
    fail(name_, line.when_place,
         tr("{graft} was grafted on {grafted_on}, after this {event}", "graft"_a = line.line.graft,
            "grafted_on"_a = day_text(grafted_on), "event"_a = event_word(line.line.event)),
         tr("check the date of the line and of the graft"));
  }

  // Rows come after those they were split off, or not: go on until no part is left to add.
  void mark_later_parts(const ParsedDiaryLine& line, std::vector<bool>& means) const {
    for (bool added = has_parts_; added;) {
      added = false;
      for (std::size_t row = 0; row < means.size(); ++row) {
        if (means[row] || !parent_[row] || !means[*parent_[row]]) continue;
        if (!is_before(line, lines_[*split_at_[row]])) continue;
        means[row] = added = true;
      }
    }
  }

  void take_back(const ParsedDiaryLine& line, std::size_t void_line, std::vector<bool>& means) {
    bool any = false;
    for (const std::size_t row : index_.select(lines_[void_line].selector, spots_)) {
      any = any || means[row];
      means[row] = false;
    }
    if (any) lines_[void_line].taken_back.push_back({line.line.id, words_of(line.line)});
  }

  void apply(ParsedDiaryLine& line, std::size_t row) {
    line.line.grafts.push_back(index_.rows()[row].id);
    if (about(line.line.event).value == EventValue::spot) spots_[row] = line.line.value;
  }

  void check_voids() const {
    for (std::size_t k = 0; k < lines_.size(); ++k) {
      if (!is_void(lines_[k]) || !lines_[k].taken_back.empty() || lines_[k].takes_back_wholly) continue;
      fail(name_, lines_[k].graft_place,
           tr("the lines of {value} do not concern {graft}", "value"_a = shown(lines_[k].line.value),
              "graft"_a = shown(lines_[k].line.graft)),
           tr("name the grafts as the line to take back does, or some of them"));
    }
  }

  Lines& lines_;
  const std::string& name_;
  const Clock& clock_;
  const LedgerIndex& index_;
  std::vector<std::string> spots_;                    // Where each row stands at the time reached.
  std::vector<std::optional<std::size_t>> split_at_;  // Line that split the row off.
  std::vector<std::optional<std::size_t>> parent_;    // Row that it was split off.
  bool has_parts_ = false;                            // Any row was split off another.
};

bool is_outcome(const ParsedDiaryLine& line) {
  return about(line.line.event).is_outcome;
}

// How many grafts the row that each line names had when the line was written: those split off later were
// among them.
std::vector<int> counts_then(const Lines& lines, const LedgerIndex& index) {
  std::vector<int> counts;
  for (const GraftRow& row : index.rows()) counts.push_back(row.count);
  std::vector<int> then(lines.size());
  std::vector<bool> is_back(counts.size());  // An earlier split of the same part was cut short.
  for (std::size_t k = lines.size(); k-- > 0;) {
    const auto row = index.row_named(lines[k].line.graft);
    if (!row) continue;
    if (is_split(lines[k]) && !lines[k].is_void_wholly) {
      const auto child = index.row_named(lines[k].line.value);
      if (child && !is_back[*child]) counts[*row] += counts[*child];
      if (child) is_back[*child] = true;
    }
    then[k] = counts[*row];
  }
  return then;
}

// In the order of the file, so that the line written last is the one that is wrong.
void check_counts(const Lines& lines, const std::string& name, const LedgerIndex& index) {
  const std::vector<int> then = counts_then(lines, index);
  std::vector<double> settled(index.rows().size());  // taken and dead so far
  for (std::size_t k = 0; k < lines.size(); ++k) {
    const ParsedDiaryLine& line = lines[k];
    if (line.is_void_wholly || line.line.grafts.empty() || !has_count(line)) continue;
    const std::size_t row = *index.row_named(line.line.grafts.front());
    // The taken and the dead stay with the row when others are split off.
    const int count = is_outcome(line) ? index.rows()[row].count : then[k];
    const double number = *line.line.number();
    if (number > count) {
      fail(name, line.value_place,
           tr("{number} of {graft}, which has only {count}", "number"_a = number, "graft"_a = line.line.graft,
              "count"_a = count),
           tr("give a number up to {count}", "count"_a = count));
    }
    if (!is_outcome(line)) continue;
    if (settled[row] + number > count) {
      fail(name, line.value_place,
           tr("{event} {number} of {graft}, where {settled} of {count} are noted as taken or dead before",
              "event"_a = event_word(line.line.event), "number"_a = number, "graft"_a = line.line.graft,
              "settled"_a = settled[row], "count"_a = count),
           tr("give a number up to {left}, or take an earlier line back with void",
              "left"_a = count - settled[row]));
    }
    settled[row] += number;
  }
}

// The lines that stand, by time; those that take others back are taken out of them.
ExpandedDiary sorted_out(Lines lines) {
  ExpandedDiary result;
  for (ParsedDiaryLine& line : lines) {
    if (is_void(line)) result.voids.push_back({line.line.line, line.by_stamp, std::move(line.taken_back)});
  }
  std::sort(lines.begin(), lines.end(), is_before);
  for (ParsedDiaryLine& line : lines) {
    if (!line.is_void_wholly && !is_void(line) && !is_split(line))
      result.lines.push_back(std::move(line.line));
  }
  return result;
}

}  // namespace

ExpandedDiary expand_diary(std::vector<ParsedDiaryLine> lines, const std::string& shown_name,
                           const Clock& clock, const LedgerIndex& index) {
  Voiding(lines, shown_name).mark();
  Expansion(lines, shown_name, clock, index).run();
  check_counts(lines, shown_name, index);
  return sorted_out(std::move(lines));
}

}  // namespace graftcast
