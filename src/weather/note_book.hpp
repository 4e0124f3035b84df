#pragma once
// Collects quality notes, a few examples each (private to the layer).

#include <string>
#include <string_view>
#include <vector>

#include "weather/reading.hpp"

namespace graftcast {

class NoteBook {
 public:
  explicit NoteBook(std::string source) : source_(std::move(source)) {}

  /// Counts one more case of `kind` and `text`. True while another example of it is wanted.
  bool count(std::string_view kind, std::string_view text, std::size_t cases = 1);
  /// Adds an example to the note counted last.
  void example(std::string text);
  /// The note counted last concerns hours up to `end`.
  void reaches(Instant end);
  const std::vector<QualityNote>& notes() const { return notes_; }
  std::vector<QualityNote> take() { return std::move(notes_); }

 private:
  std::string source_;
  std::vector<QualityNote> notes_;
  std::size_t last_ = 0;
};

}  // namespace graftcast
