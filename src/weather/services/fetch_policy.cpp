// When a service may be asked again, by what it answered.

#include <algorithm>
#include <charconv>

#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {

namespace {

/// Shortest time between two askings, whatever the answer says; 0 where its own word is enough.
std::chrono::seconds least_lifetime(Service service) {
  switch (service) {
    case Service::met_norway:
      return std::chrono::seconds(0);
    case Service::nws:
      return std::chrono::minutes(30);
    case Service::open_meteo_archive:
      return std::chrono::hours(24);
    case Service::url:
      return std::chrono::minutes(10);
    default:
      return std::chrono::hours(1);
  }
}

/// However long a service tells: what holds for a year is a slip, and would go unseen for as long.
constexpr std::chrono::seconds longest_pause = std::chrono::days(7);

std::optional<long> whole_number(std::string_view text) {
  long number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  constexpr long year_s = 366L * 86400;
  return fault == std::errc{} && number >= 0 ? std::optional(std::min(number, year_s)) : std::nullopt;
}

/// `max-age=98, s-maxage=3600`: the part for us, not for caches between.
std::optional<std::chrono::seconds> max_age(const HttpAnswer& answer) {
  const std::string control = answer.header("cache-control").value_or("");
  constexpr std::string_view key = "max-age=";
  for (std::size_t at = control.find(key); at != std::string::npos; at = control.find(key, at + 1)) {
    if (at > 0 && control[at - 1] != ' ' && control[at - 1] != ',') continue;
    if (const auto number = whole_number(std::string_view(control).substr(at + key.size())))
      return std::chrono::seconds(*number);
  }
  return std::nullopt;
}

std::optional<Instant> date_header(const HttpAnswer& answer, const char* name) {
  const auto text = answer.header(name);
  return text ? parse_http_date(*text) : std::nullopt;
}

/// How long the answer holds. The server's two times are compared with each other, so that our clock may be
/// wrong.
std::chrono::seconds lifetime_of(const HttpAnswer& answer, Service service, Instant now) {
  constexpr std::chrono::minutes where_not_told{30};
  std::chrono::seconds lifetime = where_not_told;
  if (const auto age = max_age(answer)) lifetime = *age;
  if (const auto expires = date_header(answer, "expires"))
    lifetime = *expires - date_header(answer, "date").value_or(now);
  return std::clamp(lifetime, least_lifetime(service), longest_pause);
}

std::chrono::seconds doubled(std::chrono::seconds first, int failures, std::chrono::seconds most) {
  constexpr int enough = 16;
  return std::min(first * (1L << std::clamp(failures - 1, 0, enough)), most);
}

std::chrono::seconds scaled(std::chrono::seconds length, double factor) {
  return std::chrono::seconds(static_cast<long>(static_cast<double>(length.count()) * factor));
}

/// `Retry-After` in seconds or as a date.
std::chrono::seconds retry_after(const HttpAnswer& answer, Instant now) {
  const std::string text = answer.header("retry-after").value_or("");
  if (const auto number = whole_number(text)) return std::chrono::seconds(*number);
  const auto date = parse_http_date(text);
  return date ? std::max(*date - now, std::chrono::seconds(0)) : std::chrono::seconds(0);
}

void answered(FetchState& state, Service service, const HttpAnswer& answer, Instant now) {
  state.failures = 0;
  state.trouble.clear();
  state.answered_at = now;
  state.not_before = now + lifetime_of(answer, service, now);
  if (answer.status != 304) state.last_modified = answer.header("last-modified").value_or("");
}

void throttled(FetchState& state, const HttpAnswer& answer, Instant now, double jitter) {
  const std::chrono::seconds pause =
      scaled(doubled(std::chrono::hours(1), state.failures, std::chrono::hours(24)), 1 + jitter / 4);
  state.not_before = now + std::min(std::max(pause, retry_after(answer, now)), longest_pause);
}

bool is_settled(long status) {
  return status == 400 || status == 404 || status == 410 || status == 422;
}

std::string trouble_of(const HttpOutcome& outcome) {
  if (outcome.fault != FetchFault::none) return outcome.reason;
  const std::string_view body = trimmed(outcome.answer.body);
  if (body.empty())
    return tr("the service answered with status {status}", "status"_a = outcome.answer.status);
  return tr("the service answered with status {status}: {text}", "status"_a = outcome.answer.status,
            "text"_a = shown(body, 120));
}

}  // namespace

FetchState after_outcome(FetchState state, Service service, const HttpOutcome& outcome, Instant now,
                         double jitter) {
  const long status = outcome.fault == FetchFault::none ? outcome.answer.status : 0;
  state.asked_at = now;
  if (status == 200 || status == 203 || status == 304) {
    answered(state, service, outcome.answer, now);
    return state;
  }
  ++state.failures;
  state.trouble = trouble_of(outcome);
  if (status == 401 || status == 403) {
    state.banned = true;
  } else if (status == 429) {
    throttled(state, outcome.answer, now, jitter);
  } else if (is_settled(status)) {
    state.not_before = now + std::chrono::hours(24);
  } else {
    state.not_before = now + scaled(doubled(std::chrono::minutes(5), state.failures, std::chrono::hours(6)),
                                    0.75 + jitter / 2);
  }
  return state;
}

}  // namespace graftcast
