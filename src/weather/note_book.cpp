#include "note_book.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

bool is_about_format(const QualityNote& note) {
  constexpr std::array<std::string_view, 14> kinds = {
      "day-boundary", "doubled-hour",   "elsewhere",    "failed-check",  "footer",
      "no-rain",      "offset-assumed", "overshoot",    "running-total", "several-days",
      "time-format",  "typical-year",   "unit-assumed", "unused-column"};
  return std::find(kinds.begin(), kinds.end(), note.kind) != kinds.end();
}

bool NoteBook::count(std::string_view kind, std::string_view text, std::size_t cases) {
  constexpr std::size_t most_examples = 3;
  for (last_ = 0; last_ < notes_.size(); ++last_) {
    if (notes_[last_].kind == kind && notes_[last_].text == text) break;
  }
  if (last_ == notes_.size()) notes_.push_back({source_, std::string(kind), 0, std::string(text), {}});
  notes_[last_].count += cases;
  return notes_[last_].examples.size() < most_examples;
}

void NoteBook::example(std::string text) {
  notes_.at(last_).examples.push_back(std::move(text));
}

void NoteBook::reaches(Instant end) {
  auto& latest = notes_.at(last_).latest;
  latest = latest ? std::max(*latest, end) : end;
}

}  // namespace graftcast
