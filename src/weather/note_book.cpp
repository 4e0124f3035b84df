#include "note_book.hpp"

namespace graftcast {

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

}  // namespace graftcast
