// An answer on disk: a head of lines, a blank line, the body; all of it in gzip.

#include <charconv>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/gzip.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {

namespace {

constexpr std::string_view asked_mark = "GET ";
constexpr std::string_view received_mark = "received ";
constexpr std::string_view status_mark = "status ";

/// Takes a line off the front of `text`; nothing without a line end.
std::optional<std::string_view> take_line(std::string_view& text) {
  const std::size_t end = text.find('\n');
  if (end == std::string_view::npos) return std::nullopt;
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(end + 1);
  return line;
}

/// The next line without `mark`, which it has to begin with.
std::string_view take_marked(std::string_view& text, std::string_view mark, const std::string& name) {
  const auto line = take_line(text);
  if (!line || !line->starts_with(mark))
    throw DataError({name, 0, 0}, tr("not a stored answer"), tr("delete it; it will be fetched again"));
  return line->substr(mark.size());
}

Instant instant_of(std::string_view text, const std::string& name) {
  const auto time = parse_time(text);
  if (!time || !time->offset) throw DataError({name, 2, 1}, tr("not a time"));
  return Instant(time->reading.time_since_epoch() - *time->offset);
}

}  // namespace

std::string stored_bytes(const StoredAnswer& stored) {
  std::string text = fmt::format("{}{}\n{}{}\n{}{}\n", asked_mark, stored.url, received_mark,
                                 utc_text(stored.received_at), status_mark, stored.answer.status);
  for (const auto& [name, value] : stored.answer.headers) text += fmt::format("{}: {}\n", name, value);
  return gzip_compressed(text + '\n' + stored.answer.body);
}

StoredAnswer parse_stored(std::string_view bytes, const std::string& name) {
  const HttpLimits limits;
  const std::string text = gzip_expanded(bytes, limits.body_bytes + 2 * limits.header_bytes, name);
  std::string_view rest = text;
  StoredAnswer stored;
  stored.url = take_marked(rest, asked_mark, name);
  stored.received_at = instant_of(take_marked(rest, received_mark, name), name);
  const std::string_view status = take_marked(rest, status_mark, name);
  std::from_chars(status.data(), status.data() + status.size(), stored.answer.status);
  for (std::string_view line = take_marked(rest, "", name); !line.empty();
       line = take_marked(rest, "", name)) {
    const std::size_t colon = std::min(line.find(':'), line.size());
    stored.answer.headers.emplace_back(line.substr(0, colon),
                                       trimmed(line.substr(std::min(colon + 1, line.size()))));
  }
  stored.answer.body = rest;
  return stored;
}

}  // namespace graftcast
