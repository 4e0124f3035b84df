// Delimited text of any bytes: rows come in order, and what is written again as RFC 4180 reads back the same.

#include <string>
#include <vector>

#include "fuzz_input.hpp"
#include "text/delimited_rows.hpp"

using namespace graftcast;
using fuzzing::require;

namespace {

void check_rewritten(const std::vector<Field>& fields) {
  std::string line;
  for (const Field& field : fields)
    line += (line.empty() ? "" : ",") + ('"' + quoted_field(std::string(field.text) + "\"").substr(1));
  DelimitedRows again = DelimitedRows::from_memory(line, ',', "again");
  require(again.next(), "a row written again is a row");
  require(again.fields().size() == fields.size(), "a row written again has as many fields");
  for (std::size_t k = 0; k < fields.size(); ++k) {
    require(again.fields()[k].text == std::string(fields[k].text) + '"', "a field written again is the same");
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  constexpr char delimiters[] = {',', ';', '\t', 0};
  if (size == 0) return 0;
  fuzzing::tolerate_bad_data([&] {
    DelimitedRows rows =
        DelimitedRows::from_memory(fuzzing::text_of(data + 1, size - 1), delimiters[data[0] % 4], "input");
    for (std::size_t line = 0; rows.next(); line = rows.line()) {
      require(rows.line() > line, "rows come in order");
      require(!rows.fields().empty(), "a row has a field");
      for (std::size_t k = 0; k < rows.fields().size(); ++k) {
        require(rows.position(k).column == rows.fields()[k].column, "a field has one column");
      }
      check_rewritten(rows.fields());
    }
  });
  return 0;
}
