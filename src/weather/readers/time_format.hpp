#pragma once
// The layout of a log's time stamps, decided from all of them (private to the layer).

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "readers/time_pattern.hpp"

namespace graftcast {

/// Takes the texts of a time column one after the other and keeps the layouts that fit all of them: the usual
/// orders of day, month and year with or without a time of day, seconds or AM and PM, and the day numbers of
/// spreadsheets.
class TimeFormatGuess {
 public:
  TimeFormatGuess();
  void take(std::string_view text);

  struct Answer {
    std::string format;               ///< Empty: none fits, or several do.
    std::vector<std::string> equals;  ///< Those that fit alike, where day and month cannot be told apart.
  };
  /// Where day/month and month/day both fit to the end, the one under which the rows follow one another: the
  /// other then leaps back, or on by more than 20 days, at least twice.
  Answer answer() const;

 private:
  struct Candidate {
    std::string format;
    TimePattern pattern;
    std::optional<std::chrono::local_seconds> last;
    std::size_t leaps = 0;
    std::size_t falls = 0;
    std::size_t rises = 0;
  };
  static bool fits(Candidate& candidate, std::string_view text);

  std::vector<Candidate> candidates_;
  std::size_t count_ = 0;
};

}  // namespace graftcast
