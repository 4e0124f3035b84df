#include "services/iso_interval.hpp"

#include <charconv>

namespace graftcast {

namespace {

/// Seconds of the unit `letter`, before or after the `T`.
std::optional<long> unit_s(char letter, bool after_t) {
  if (!after_t && letter == 'W') return 7L * 86400;
  if (!after_t && letter == 'D') return 86400L;
  if (after_t && letter == 'H') return 3600L;
  if (after_t && letter == 'M') return 60L;
  if (after_t && letter == 'S') return 1L;
  return std::nullopt;
}

/// Takes a number and its unit from the front of `text`.
std::optional<long> take_part(std::string_view& text, bool after_t) {
  unsigned count = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), count);
  if (fault != std::errc{} || end == text.data() + text.size() || count > 1'000'000) return std::nullopt;
  const auto unit = unit_s(*end, after_t);
  text.remove_prefix(static_cast<std::size_t>(end - text.data()) + 1);
  return unit ? std::optional(*unit * static_cast<long>(count)) : std::nullopt;
}

std::optional<Instant> parse_instant(std::string_view text, Instant now) {
  if (text == "NOW") return now;
  const auto time = parse_time(text);
  if (!time || !time->offset) return std::nullopt;
  return Instant(time->reading.time_since_epoch() - *time->offset);
}

std::optional<Span> span_of(std::string_view left, std::string_view right, Instant now) {
  if (left.starts_with('P')) {
    const auto length = parse_duration(left);
    const auto end = parse_instant(right, now);
    return length && end ? std::optional(Span{*end - *length, *end}) : std::nullopt;
  }
  const auto begin = parse_instant(left, now);
  if (!begin) return std::nullopt;
  if (right.starts_with('P')) {
    const auto length = parse_duration(right);
    return length ? std::optional(Span{*begin, *begin + *length}) : std::nullopt;
  }
  const auto end = parse_instant(right, now);
  return end ? std::optional(Span{*begin, *end}) : std::nullopt;
}

}  // namespace

std::optional<std::chrono::seconds> parse_duration(std::string_view text) {
  constexpr long longest_s = 400L * 86400;
  if (!text.starts_with('P') || text.size() < 3) return std::nullopt;
  text.remove_prefix(1);
  long total = 0;
  for (bool after_t = false; !text.empty();) {
    if (!after_t && text.front() == 'T') {
      after_t = true;
      text.remove_prefix(1);
      if (text.empty()) return std::nullopt;
    }
    const auto part = take_part(text, after_t);
    if (!part) return std::nullopt;
    total += *part;
    if (total > longest_s) return std::nullopt;
  }
  return std::chrono::seconds(total);
}

std::optional<Span> parse_interval(std::string_view text, Instant now) {
  const std::size_t slash = text.find('/');
  if (slash == std::string_view::npos) return std::nullopt;
  const auto span = span_of(text.substr(0, slash), text.substr(slash + 1), now);
  if (!span || span->end <= span->begin) return std::nullopt;
  return span;
}

}  // namespace graftcast
