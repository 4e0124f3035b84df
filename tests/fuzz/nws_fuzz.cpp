// Answers of the National Weather Service, damaged in any way: gridpoint forecasts, and what names the grid
// cell.

#include "answer_checks.hpp"
#include "services/service_requests.hpp"

using namespace graftcast;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzzing::text_of(data, size);
  fuzzing::tolerate_bad_data(
      [&] { fuzzing::check_answer(read_nws_gridpoint(text, fuzzing::terrace, fuzzing::fuzzed_origin())); });
  fuzzing::tolerate_bad_data([&] {
    const std::string url = gridpoint_url({}, text, "points");
    fuzzing::require(url.starts_with("https://api.weather.gov/gridpoints/") && url.size() < 80,
                     "the grid cell leads nowhere else");
  });
  return 0;
}
