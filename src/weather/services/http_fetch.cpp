#include "weather/http_fetch.hpp"

#include <algorithm>
#include <array>
#include <memory>

#include <curl/curl.h>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using SteadyClock = std::chrono::steady_clock;

struct CurlDeleter {
  void operator()(CURL* handle) const { curl_easy_cleanup(handle); }
  void operator()(curl_slist* list) const { curl_slist_free_all(list); }
  void operator()(CURLU* url) const { curl_url_cleanup(url); }
  void operator()(char* text) const { curl_free(text); }
};
using CurlHandle = std::unique_ptr<CURL, CurlDeleter>;
using CurlList = std::unique_ptr<curl_slist, CurlDeleter>;
using CurlUrl = std::unique_ptr<CURLU, CurlDeleter>;
using CurlText = std::unique_ptr<char, CurlDeleter>;

/// Once in the process, before the first handle.
bool is_curl_ready() {
  static const bool ready = curl_global_init(CURL_GLOBAL_DEFAULT) == CURLE_OK;
  return ready;
}

std::string lower(std::string_view text) {
  std::string folded(text);
  for (char& letter : folded)
    letter = letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
  return folded;
}

// ---- Addresses ----

std::string part_of(CURLU* url, CURLUPart part) {
  char* text = nullptr;
  if (curl_url_get(url, part, &text, 0) != CURLUE_OK) return {};
  return CurlText(text).get();
}

struct Address {
  bool is_https = false;
  bool is_loopback = false;
};

/// The address taken apart by the same parser that will connect to it; nothing where it may not be asked at
/// all.
std::optional<Address> address_of(const std::string& text) {
  const CurlUrl url(curl_url());
  if (!url || curl_url_set(url.get(), CURLUPART_URL, text.c_str(), 0) != CURLUE_OK) return std::nullopt;
  if (!part_of(url.get(), CURLUPART_USER).empty() || !part_of(url.get(), CURLUPART_PASSWORD).empty())
    return std::nullopt;
  constexpr std::array<std::string_view, 3> loopbacks{"localhost", "127.0.0.1", "[::1]"};
  const std::string scheme = part_of(url.get(), CURLUPART_SCHEME);
  const std::string host = lower(part_of(url.get(), CURLUPART_HOST));
  const Address address{scheme == "https", std::ranges::find(loopbacks, host) != loopbacks.end()};
  const bool allowed = address.is_https || (scheme == "http" && address.is_loopback);
  return allowed ? std::optional(address) : std::nullopt;
}

// ---- What comes in ----

/// One exchange while it runs.
struct Intake {
  HttpAnswer answer;
  const HttpLimits& limits;
  std::size_t header_bytes = 0;
  bool too_large = false;
};

std::size_t take_body(const char* data, std::size_t, std::size_t size, void* into) {
  Intake& intake = *static_cast<Intake*>(into);
  if (size > intake.limits.body_bytes - intake.answer.body.size()) {
    intake.too_large = true;
    return 0;  // Ends the transfer.
  }
  intake.answer.body.append(data, size);
  return size;
}

std::size_t take_header(const char* data, std::size_t, std::size_t size, void* into) {
  Intake& intake = *static_cast<Intake*>(into);
  intake.header_bytes += size;
  if (intake.header_bytes > intake.limits.header_bytes) {
    intake.too_large = true;
    return 0;
  }
  const std::string_view line(data, size);
  const std::size_t colon = line.find(':');
  if (line.starts_with("HTTP/")) intake.answer.headers.clear();  // A new head, after `100 Continue`.
  if (!line.starts_with("HTTP/") && colon != std::string_view::npos)
    intake.answer.headers.emplace_back(lower(trimmed(line.substr(0, colon))),
                                       trimmed(line.substr(colon + 1)));
  return size;
}

// ---- One exchange ----

FetchFault fault_of(CURLcode code, const Intake& intake) {
  if (intake.too_large) return FetchFault::too_large;
  switch (code) {
    case CURLE_OK:
      return FetchFault::none;
    case CURLE_OPERATION_TIMEDOUT:
      return FetchFault::timed_out;
    case CURLE_FILESIZE_EXCEEDED:
    case CURLE_OUT_OF_MEMORY:  // Also a header line beyond the library's own limit.
      return FetchFault::too_large;
    case CURLE_PEER_FAILED_VERIFICATION:
    case CURLE_SSL_CACERT_BADFILE:
    case CURLE_SSL_CERTPROBLEM:
    case CURLE_SSL_ISSUER_ERROR:
      return FetchFault::untrusted;
    case CURLE_BAD_CONTENT_ENCODING:
    case CURLE_UNSUPPORTED_PROTOCOL:  // Also an answer in HTTP/0.9, which is anything.
    case CURLE_WEIRD_SERVER_REPLY:
    case CURLE_HTTP2:
      return FetchFault::garbled;
    case CURLE_URL_MALFORMAT:
      return FetchFault::refused;
    default:
      return FetchFault::unreachable;
  }
}

CurlList header_lines(const HttpRequest& request) {
  CurlList lines;
  const auto add = [&](const std::string& line) {
    curl_slist* const longer = curl_slist_append(lines.get(), line.c_str());
    if (longer == nullptr) return;
    static_cast<void>(lines.release());
    lines.reset(longer);
  };
  if (is_header_value(request.accept)) add("Accept: " + request.accept);
  if (is_header_value(request.if_modified_since)) add("If-Modified-Since: " + request.if_modified_since);
  return lines;
}

void set_transport(CURL* handle, const Address& address, std::chrono::milliseconds time) {
  curl_easy_setopt(handle, CURLOPT_PROTOCOLS_STR, address.is_https ? "https" : "http");
  curl_easy_setopt(handle, CURLOPT_FOLLOWLOCATION, 0L);
  curl_easy_setopt(handle, CURLOPT_SSL_VERIFYPEER, 1L);
  curl_easy_setopt(handle, CURLOPT_SSL_VERIFYHOST, 2L);
  curl_easy_setopt(handle, CURLOPT_TIMEOUT_MS, static_cast<long>(std::max<long long>(time.count(), 1)));
  curl_easy_setopt(handle, CURLOPT_NOSIGNAL, 1L);
  if (address.is_loopback) curl_easy_setopt(handle, CURLOPT_PROXY, "");
}

void set_request(CURL* handle, const HttpRequest& request, curl_slist* lines, Intake& intake) {
  curl_easy_setopt(handle, CURLOPT_USERAGENT, request.user_agent.c_str());
  curl_easy_setopt(handle, CURLOPT_HTTPHEADER, lines);
  curl_easy_setopt(handle, CURLOPT_ACCEPT_ENCODING, "gzip");
  curl_easy_setopt(handle, CURLOPT_MAXFILESIZE_LARGE, static_cast<curl_off_t>(intake.limits.body_bytes));
  curl_easy_setopt(handle, CURLOPT_WRITEFUNCTION, take_body);
  curl_easy_setopt(handle, CURLOPT_WRITEDATA, &intake);
  curl_easy_setopt(handle, CURLOPT_HEADERFUNCTION, take_header);
  curl_easy_setopt(handle, CURLOPT_HEADERDATA, &intake);
}

std::string reason_of(FetchFault fault, const char* words, const HttpLimits& limits) {
  if (fault == FetchFault::too_large)
    return tr("the answer is larger than {limit} bytes", "limit"_a = limits.body_bytes);
  if (fault == FetchFault::timed_out)
    return tr("no complete answer within {seconds:.3g} s",
              "seconds"_a = static_cast<double>(limits.time.count()) / 1000);
  return words;
}

struct Exchange {
  HttpOutcome outcome;
  std::string redirect;  ///< Absolute address that the answer points to; else empty.
};

Exchange exchange(const std::string& url, const Address& address, const HttpRequest& request,
                  const HttpLimits& limits, std::chrono::milliseconds time) {
  const CurlHandle handle(is_curl_ready() ? curl_easy_init() : nullptr);
  if (!handle) return {{{}, FetchFault::unreachable, tr("the network library does not start")}, {}};
  std::array<char, CURL_ERROR_SIZE> words{};
  Intake intake{{}, limits};
  const CurlList lines = header_lines(request);
  curl_easy_setopt(handle.get(), CURLOPT_URL, url.c_str());
  curl_easy_setopt(handle.get(), CURLOPT_ERRORBUFFER, words.data());
  set_transport(handle.get(), address, time);
  set_request(handle.get(), request, lines.get(), intake);
  const CURLcode code = curl_easy_perform(handle.get());
  Exchange result;
  result.outcome.fault = fault_of(code, intake);
  if (code != CURLE_OK)
    result.outcome.reason =
        reason_of(result.outcome.fault, words[0] != '\0' ? words.data() : curl_easy_strerror(code), limits);
  curl_easy_getinfo(handle.get(), CURLINFO_RESPONSE_CODE, &intake.answer.status);
  const char* target = nullptr;
  curl_easy_getinfo(handle.get(), CURLINFO_REDIRECT_URL, &target);
  if (target != nullptr) result.redirect = target;
  result.outcome.answer = std::move(intake.answer);
  return result;
}

bool is_redirect(long status) {
  return status == 301 || status == 302 || status == 303 || status == 307 || status == 308;
}

HttpOutcome stopped(FetchFault fault, std::string reason) {
  return {{}, fault, std::move(reason)};
}

}  // namespace

std::optional<std::string> HttpAnswer::header(std::string_view name) const {
  const auto found = std::ranges::find(headers, name, &std::pair<std::string, std::string>::first);
  return found == headers.end() ? std::nullopt : std::optional(found->second);
}

HttpOutcome http_get(const HttpRequest& request, const HttpLimits& limits) {
  if (!is_header_value(request.user_agent))
    return stopped(FetchFault::refused, tr("the request does not say who asks"));
  const SteadyClock::time_point deadline = SteadyClock::now() + limits.time;
  std::string url = request.url;
  auto address = address_of(url);
  if (!address)
    return stopped(FetchFault::refused, tr("{address} is not an address of https", "address"_a = shown(url)));
  for (int hop = 0; hop <= limits.redirects; ++hop) {
    const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(deadline - SteadyClock::now());
    if (left.count() <= 0)
      return stopped(FetchFault::timed_out, reason_of(FetchFault::timed_out, "", limits));
    Exchange done = exchange(url, *address, request, limits, left);
    if (done.outcome.fault != FetchFault::none || !is_redirect(done.outcome.answer.status) ||
        done.redirect.empty())
      return std::move(done.outcome);
    const auto next = address_of(done.redirect);
    if (!next || (address->is_https && !next->is_https) || (!address->is_loopback && next->is_loopback))
      return stopped(FetchFault::redirected,
                     tr("redirected to {address}, away from https", "address"_a = shown(done.redirect)));
    url = done.redirect;
    address = next;
  }
  return stopped(FetchFault::redirected,
                 tr("redirected more than {redirects} times", "redirects"_a = limits.redirects));
}

std::optional<Instant> parse_http_date(const std::string& text) {
  const std::time_t seconds = curl_getdate(text.c_str(), nullptr);
  return seconds < 0 ? std::nullopt : std::optional(Instant(std::chrono::seconds(seconds)));
}

bool is_header_value(std::string_view text) noexcept {
  const bool printable =
      std::ranges::all_of(text, [](char letter) { return letter >= ' ' && letter <= '~'; });
  return printable && !trimmed(text).empty();
}

}  // namespace graftcast
