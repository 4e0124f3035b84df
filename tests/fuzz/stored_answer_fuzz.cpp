// What lies in the cache of a service, damaged in any way: answers with their headers, and the state.

#include "fuzz_input.hpp"
#include "services/fetch_state.hpp"
#include "services/gzip.hpp"
#include "weather/forecast_cache.hpp"

using namespace graftcast;

namespace {

/// What is read comes back from what is written of it.
void check_round_trip(const StoredAnswer& stored) {
  const StoredAnswer again = parse_stored(stored_bytes(stored), "again");
  fuzzing::require(again.url == stored.url && again.received_at == stored.received_at &&
                       again.answer.body == stored.answer.body,
                   "a stored answer comes back as it was");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes = fuzzing::text_of(data, size);
  fuzzing::tolerate_bad_data([&] { parse_stored(bytes, "answer"); });
  fuzzing::tolerate_bad_data([&] { check_round_trip(parse_stored(gzip_compressed(bytes), "answer")); });
  fuzzing::tolerate_bad_data([&] { parse_state(state_text(parse_state(bytes, "state.json")), "again"); });
  parse_http_date(std::string(bytes.substr(0, bytes.find('\0'))));
  return 0;
}
