// Asking a service: whether, what, how often, and what to keep.

#include <algorithm>
#include <cmath>
#include <memory>
#include <random>
#include <thread>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/cache_files.hpp"
#include "services/saved_forecasts.hpp"
#include "services/service_requests.hpp"
#include "text/tr.hpp"
#include "weather/forecast_cache.hpp"

namespace graftcast {

namespace {

using What = FetchResult::What;

std::string age_words(std::chrono::seconds age) {
  const double hours = static_cast<double>(age.count()) / 3600;
  return hours < 72 ? tr("{hours:.0f} h", "hours"_a = std::max(hours, 0.0))
                    : tr("{days:.0f} days", "days"_a = hours / 24);
}

/// What stands in for the answer that did not come.
std::string standing_words(const std::vector<PastForecast>& past, Instant now) {
  if (past.empty()) return tr("no forecast of this service is kept");
  return tr("the forecast made at {time}, {age} old, stands", "time"_a = utc_text(past.front().made_at),
            "age"_a = age_words(now - past.front().made_at));
}

/// The clock was ahead when the service was asked, and has been put back since.
bool was_asked_later(const FetchState& state, Instant now) {
  constexpr std::chrono::minutes small_correction{10};
  return state.asked_at && *state.asked_at > now + small_correction;
}

/// Worth another try within seconds.
bool is_passing(const HttpOutcome& outcome) {
  if (outcome.fault == FetchFault::unreachable) return true;
  return outcome.fault == FetchFault::none && outcome.answer.status >= 500 && outcome.answer.status < 600;
}

bool is_answer(const HttpOutcome& outcome) {
  return outcome.fault == FetchFault::none && (outcome.answer.status == 200 || outcome.answer.status == 203);
}

/// One asking of one source.
class Fetching {
 public:
  Fetching(const std::filesystem::path& site_folder, const SourceSettings& source, const Location& location,
           const Clock& clock, const FetchTools& tools, FetchPlan plan)
      : files_(site_folder, source),
        source_(source),
        location_(location),
        clock_(clock),
        tools_(tools),
        plan_(std::move(plan)) {}

  FetchResult run();

 private:
  HttpOutcome get(const HttpRequest& request);
  bool find_gridpoint();
  void take(const HttpOutcome& outcome);
  void read_and_note(const StoredAnswer& stored);
  bool read_unread();
  void read(const StoredAnswer& stored);
  void note(const HttpOutcome& outcome);
  FetchResult failure(const std::string& reason);

  CacheFiles files_;
  const SourceSettings& source_;
  const Location& location_;
  const Clock& clock_;
  const FetchTools& tools_;
  FetchPlan plan_;
  FetchState state_;
  FetchResult result_;
};

HttpOutcome Fetching::get(const HttpRequest& request) {
  constexpr int tries = 3;
  constexpr double first_wait_ms = 2000;
  HttpOutcome outcome = tools_.get(request);
  for (int again = 1; again < tries && is_passing(outcome); ++again) {
    tools_.wait(std::chrono::milliseconds(
        std::lround(first_wait_ms * std::pow(2, again - 1) * (0.5 + tools_.random()))));
    outcome = tools_.get(request);
  }
  return outcome;
}

/// Brings the state up to what the service said, and writes it down before anything is read.
void Fetching::note(const HttpOutcome& outcome) {
  state_ = after_outcome(std::move(state_), plan_.service, outcome, tools_.now(), tools_.random());
  // Until the answer has been read.
  if (is_answer(outcome)) state_.url.clear();
  files_.write_state(state_);
  result_.not_before = state_.not_before;
}

FetchResult Fetching::failure(const std::string& reason) {
  const std::vector<PastForecast> past = files_.past();
  result_.what = What::failed;
  if (!past.empty()) result_.made_at = past.front().made_at;
  result_.message = fmt::format("{}; {}", reason, standing_words(past, tools_.now()));
  return result_;
}

/// Turns the request into one for the grid cell's forecast. False where the service does not name it.
bool Fetching::find_gridpoint() {
  const std::string url = plan_.request.url;
  std::optional<StoredAnswer> points = files_.points(url, tools_.now());
  if (!points) {
    const HttpOutcome outcome = get(plan_.request);
    if (outcome.fault != FetchFault::none || outcome.answer.status != 200) {
      note(outcome);
      failure(state_.trouble.empty() ? tr("the service did not name the grid cell") : state_.trouble);
      return false;
    }
    points = StoredAnswer{url, tools_.now(), outcome.answer};
    files_.write_points(*points);
  }
  try {
    plan_.request.url = gridpoint_url(source_, points->answer.body, "points");
  } catch (const DataError& fault) {
    files_.drop_points();
    note({{}, FetchFault::garbled, fault.what()});
    failure(fault.what());
    return false;
  }
  return true;
}

void Fetching::read(const StoredAnswer& stored) {
  const ServiceAnswer answer = read_stored_answer(stored, source_, location_, clock_, source_.service);
  const Instant made_at = answer.readings.made_at.value_or(stored.received_at);
  if (answer.place && distance_km(location_, *answer.place) > farthest_km)
    throw DataError({source_.service, 0, 0}, tr("the answer is for a place {distance:.0f} km away",
                                                "distance"_a = distance_km(location_, *answer.place)));
  files_.keep(made_at, stored);
  if (plan_.service == Service::open_meteo_archive) files_.drop_older();
  result_.what = What::stored;
  result_.made_at = made_at;
  result_.credit = answer.readings.credit;
  result_.message = tr("stored the answer, made at {time}", "time"_a = utc_text(made_at));
  for (const QualityNote& each : answer.readings.notes)
    result_.warnings.push_back(trn("{text} ({count} value)", "{text} ({count} values)",
                                   static_cast<long>(each.count), "text"_a = each.text,
                                   "count"_a = each.count));
  constexpr std::chrono::hours stale{12};
  if (answer.readings.is_forecast && tools_.now() - made_at > stale)
    result_.warnings.push_back(
        tr("the service sent a forecast that is {age} old", "age"_a = age_words(tools_.now() - made_at)));
}

void Fetching::read_and_note(const StoredAnswer& stored) {
  try {
    read(stored);
    state_.url = stored.url;
  } catch (const Error& fault) {
    if (dynamic_cast<const WriteError*>(&fault) != nullptr) throw;
    // Nothing to be compared with "not modified" must be asked for until a good answer comes.
    state_.last_modified.clear();
    state_.trouble = tr("the answer cannot be read: {reason}", "reason"_a = fault.what());
    failure(state_.trouble);
  }
  files_.write_state(state_);
}

/// An answer is on disk before the state says that it came, and both are before anything is made of it:
/// killed in between, the next run asks again, or reads what is there.
void Fetching::take(const HttpOutcome& outcome) {
  const StoredAnswer stored{plan_.request.url, tools_.now(), outcome.answer};
  if (is_answer(outcome)) files_.write_latest(stored);
  note(outcome);
  const long status = outcome.fault == FetchFault::none ? outcome.answer.status : 0;
  if (status == 203)
    result_.warnings.emplace_back(tr("the service calls this version of its answers outdated (status 203)"));
  if (is_answer(outcome)) {
    read_and_note(stored);
  } else if (status == 304) {
    const std::vector<PastForecast> past = files_.past();
    result_.what = What::not_modified;
    if (!past.empty()) result_.made_at = past.front().made_at;
    result_.credit = translated(service_credit(plan_.service));
    result_.message =
        tr("the service has nothing newer; {standing}", "standing"_a = standing_words(past, tools_.now()));
  } else {
    if (status == 404 && plan_.service == Service::nws) files_.drop_points();
    failure(state_.trouble);
  }
}

/// Reads the answer that came before the program was cut short. False where there is none.
bool Fetching::read_unread() {
  if (!state_.url.empty() || !state_.trouble.empty() || !state_.answered_at) return false;
  const std::optional<StoredAnswer> stored = files_.latest();
  if (stored) read_and_note(*stored);
  return stored.has_value();
}

FetchResult Fetching::run() {
  files_.require_inside_site();
  state_ = files_.state();
  if (state_.subject != plan_.subject) state_ = FetchState{};
  if (state_.contact != plan_.contact) state_.banned = false;
  state_.subject = plan_.subject;
  state_.contact = plan_.contact;
  if (!plan_.may_ask) {
    if (read_unread()) return result_;
    failure(plan_.reason);
    result_.what = plan_.after_trouble ? What::left_alone : What::too_early;
    result_.credit = translated(service_credit(plan_.service));
    result_.not_before = plan_.not_before;
    return result_;
  }
  if (plan_.service == Service::nws && !find_gridpoint()) return result_;
  plan_.request.if_modified_since = state_.url == plan_.request.url ? state_.last_modified : "";
  take(get(plan_.request));
  return result_;
}

}  // namespace

FetchPlan plan_fetch(const std::filesystem::path& site_folder, const SourceSettings& source,
                     const Location& location, const std::string& program, Instant now) {
  FetchPlan plan;
  plan.service = parse_service(source.service);
  plan.subject = subject_of(plan.service, source, location);
  plan.contact = source.contact;
  plan.request = {request_url(plan.service, source, location, now), user_agent(program, source),
                  accepted_type(plan.service), ""};
  const FetchState state = CacheFiles(site_folder, source).state();
  plan.may_ask = true;
  if (plan.service == Service::nws) plan.reason = tr("then the forecast of the grid cell that it names");
  if (state.subject != plan.subject) return plan;
  if (state.url == plan.request.url) plan.request.if_modified_since = state.last_modified;
  if (state.banned && state.contact == plan.contact) {
    plan.may_ask = false;
    plan.after_trouble = true;
    plan.reason =
        tr("the service refused this program's requests ({trouble}); it is not asked again until the "
           "contact changes or the state of its cache is deleted",
           "trouble"_a = state.trouble);
  } else if (state.not_before && now < *state.not_before && !was_asked_later(state, now)) {
    plan.may_ask = false;
    plan.not_before = state.not_before;
    plan.after_trouble = !state.trouble.empty();
    plan.reason = state.trouble.empty()
                      ? tr("the last answer holds until {time}", "time"_a = utc_text(*state.not_before))
                      : tr("left alone until {time} after trouble: {trouble}",
                           "time"_a = utc_text(*state.not_before), "trouble"_a = state.trouble);
  }
  return plan;
}

FetchResult fetch_forecast(const std::filesystem::path& site_folder, const SourceSettings& source,
                           const Location& location, const Clock& clock, const std::string& program,
                           const FetchTools& tools) {
  FetchPlan plan = plan_fetch(site_folder, source, location, program, tools.now());
  return Fetching(site_folder, source, location, clock, tools, std::move(plan)).run();
}

FetchTools real_tools() {
  return {[](const HttpRequest& request) { return http_get(request); },
          [] { return std::chrono::floor<std::chrono::seconds>(std::chrono::system_clock::now()); },
          [](std::chrono::milliseconds length) { std::this_thread::sleep_for(length); },
          [source = std::make_shared<std::mt19937>(std::random_device{}())] {
            return std::uniform_real_distribution<double>(0, 1)(*source);
          }};
}

}  // namespace graftcast
