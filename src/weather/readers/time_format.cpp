#include "readers/time_format.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

namespace {

constexpr std::array<std::string_view, 13> dates = {
    "%d/%m/%Y", "%m/%d/%Y", "%d.%m.%Y", "%d-%m-%Y", "%m-%d-%Y", "%Y/%m/%d", "%Y-%m-%d",
    "%d/%m/%y", "%m/%d/%y", "%d.%m.%y", "%d-%b-%Y", "%d %b %Y", "%Y%m%d"};
// With AM and PM first: %H would take the hour and leave the rest, but the whole text must fit.
constexpr std::array<std::string_view, 8> times = {"",          " %I:%M %p", " %I:%M:%S %p", " %H:%M",
                                                   " %H:%M:%S", "T%H:%M",    ":%H%M",        "%H%M"};

constexpr std::chrono::days leap{20};

}  // namespace

TimeFormatGuess::TimeFormatGuess() {
  for (const std::string_view date : dates) {
    for (const std::string_view time : times) {
      const bool digits_only = date == "%Y%m%d";
      if (!digits_only && (time == ":%H%M" || time == "%H%M")) continue;
      std::string format = std::string(date) + std::string(time);
      TimePattern pattern(format);
      candidates_.push_back({std::move(format), std::move(pattern), std::nullopt});
    }
  }
  for (const char* const serial : {"%N", "%n"})
    candidates_.push_back({serial, TimePattern(serial), std::nullopt});
}

bool TimeFormatGuess::fits(Candidate& candidate, std::string_view text) {
  const auto time = candidate.pattern.parse(text);
  if (!time) return false;
  if (candidate.last) {
    const auto step = time->reading - *candidate.last;
    candidate.rises += step.count() > 0;
    candidate.falls += step.count() < 0;
    candidate.leaps += step > leap || step < -leap;
  }
  candidate.last = time->reading;
  return true;
}

void TimeFormatGuess::take(std::string_view text) {
  ++count_;
  std::erase_if(candidates_, [&](Candidate& candidate) { return !fits(candidate, text); });
}

TimeFormatGuess::Answer TimeFormatGuess::answer() const {
  if (candidates_.empty() || count_ == 0) return {};
  if (candidates_.size() == 1) return {candidates_.front().format, {}};
  // Whole day numbers fit both forms of them; the daily one is meant.
  const auto daily = std::find_if(candidates_.begin(), candidates_.end(),
                                  [](const Candidate& each) { return each.format == "%n"; });
  if (daily != candidates_.end()) return {daily->format, {}};
  // Leaps, and turns against the usual direction: an export may have its newest row first.
  const auto oddities = [](const Candidate& each) { return each.leaps + std::min(each.falls, each.rises); };
  std::vector<const Candidate*> order;
  for (const Candidate& each : candidates_) order.push_back(&each);
  std::stable_sort(order.begin(), order.end(),
                   [&](const Candidate* a, const Candidate* b) { return oddities(*a) < oddities(*b); });
  constexpr std::size_t convincing = 2;
  if (oddities(*order[0]) + convincing <= oddities(*order[1])) return {order[0]->format, {}};
  return {{}, {order[0]->format, order[1]->format}};
}

}  // namespace graftcast
