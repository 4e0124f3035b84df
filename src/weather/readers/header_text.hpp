#pragma once
// The text of a header field (private to the layer).

#include <string>
#include <string_view>

namespace graftcast {

/// A header as UTF-8 without blanks at its ends. Bytes that are no UTF-8 are taken for latin-1, as old
/// loggers write the degree sign.
std::string header_text(std::string_view raw);

/// `name [unit]` or `name (unit)` taken apart; the unit is empty where there is none.
struct HeaderParts {
  std::string_view name;
  std::string_view unit;
};
HeaderParts split_header(std::string_view header);

}  // namespace graftcast
