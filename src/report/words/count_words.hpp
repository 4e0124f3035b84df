#pragma once
// Counts of things, in words (private to the layer).

#include <cstddef>
#include <string>

namespace graftcast {

/// `1 graft`, `7 grafts`; the others likewise.
std::string grafts_words(std::size_t count);
std::string rows_words(std::size_t count);
std::string outcomes_words(std::size_t count);
std::string forecasts_words(std::size_t count);
std::string hours_words(std::size_t count);
std::string days_words(std::size_t count);
std::string weeks_words(std::size_t count);

}  // namespace graftcast
