// Answers of Open-Meteo, JSON and CSV, forecast, ensemble and archive, damaged in any way.

#include "answer_checks.hpp"

using namespace graftcast;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text = fuzzing::text_of(data, size);
  recognised_service(text);
  fuzzing::tolerate_bad_data([&] {
    fuzzing::check_answer(read_open_meteo(text, fuzzing::terrace, fuzzing::fuzzed_origin(), size % 2 == 0));
  });
  return 0;
}
