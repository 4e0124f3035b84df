// Answers of MET Norway, damaged in any way: they are read or refused.

#include "answer_checks.hpp"

using namespace graftcast;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzzing::tolerate_bad_data([&] {
    fuzzing::check_answer(
        read_met_norway(fuzzing::text_of(data, size), fuzzing::terrace, fuzzing::fuzzed_origin()));
  });
  return 0;
}
