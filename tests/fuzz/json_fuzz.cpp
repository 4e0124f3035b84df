// JSON of any bytes: what is accepted is what the parser alone accepts, and every value has a place in the
// text.

#include "fuzz_input.hpp"
#include "text/json_document.hpp"

using namespace graftcast;
using fuzzing::require;

namespace {

void check_places(const JsonDocument& document, const nlohmann::json& value, const std::string& pointer) {
  require(document.position(pointer).line > 0, "every value has a place");
  if (value.is_array()) {
    for (std::size_t k = 0; k < value.size(); ++k)
      check_places(document, value[k], pointer + '/' + std::to_string(k));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto text = fuzzing::text_of(data, size);
  fuzzing::tolerate_bad_data([&] {
    const JsonDocument document = JsonDocument::from_text(text, "input");
    require(document.root() == nlohmann::json::parse(text),
            "the document is what the parser alone would give");
    check_places(document, document.root(), "");
  });
  return 0;
}
