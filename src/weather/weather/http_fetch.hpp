#pragma once
// One request to a weather service, with limits, and without trust in what comes back.

#include <chrono>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "graftcast/calendar_time.hpp"

namespace graftcast {

struct HttpRequest {
  std::string url;         ///< https, or http to this machine (`localhost`, `127.0.0.1`, `[::1]`) only.
  std::string user_agent;  ///< Names program and owner; never empty.
  std::string accept;      ///< For example `application/geo+json`; empty: anything.
  std::string
      if_modified_since;  ///< The last answer's Last-Modified, word for word; empty: ask for all of it.
};

struct HttpLimits {
  std::size_t body_bytes = std::size_t{16} << 20U;  ///< After decompression.
  std::size_t header_bytes = std::size_t{64} << 10U;
  std::chrono::milliseconds time{30'000};  ///< From the first look-up to the last byte, over all redirects.
  int redirects = 3;
};

/// An answer as it came, decompressed.
struct HttpAnswer {
  long status = 0;
  std::vector<std::pair<std::string, std::string>> headers;  ///< Names in lower case, in the order they came.
  std::string body;

  /// Value of the first header `name` (lower case), or nothing.
  std::optional<std::string> header(std::string_view name) const;
};

/// Why there is no answer.
enum class FetchFault : std::uint8_t {
  none,
  unreachable,  ///< No connection, no such host, or the connection broke before the answer was complete.
  timed_out,
  too_large,   ///< More than the limit, also after decompression.
  redirected,  ///< Too many redirects, or one that leads away from https.
  untrusted,   ///< The certificate does not hold.
  refused,     ///< The request itself is not one to make: no User-Agent, not https.
  garbled,     ///< Not HTTP, or not decompressible.
};

struct HttpOutcome {
  HttpAnswer answer;  ///< Meaningful when `fault` is none; any status.
  FetchFault fault = FetchFault::none;
  std::string reason;  ///< One clause on the fault.
};

/// Asks once with GET: gzip accepted, certificates checked, redirects followed by hand within the limits and
/// never from https to http. Asks nothing, with fault `refused`, where the request breaks the rules above.
/// Never throws on what the network does. Safe to call from several threads.
HttpOutcome http_get(const HttpRequest& request, const HttpLimits& limits = {});

/// An HTTP date (`Wed, 29 Oct 2025 01:43:37 GMT`), or nothing.
std::optional<Instant> parse_http_date(const std::string& text);

/// A value that can stand in a header line: printable ASCII and blanks between, not empty.
bool is_header_value(std::string_view text) noexcept;

}  // namespace graftcast
