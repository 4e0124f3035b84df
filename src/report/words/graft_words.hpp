#pragma once
// What a graft is, in words (private to the layer).

#include <string>
#include <string_view>

namespace graftcast {

/// `Sanguinelli on Carrizo`; of the two the one that is not empty.
std::string scion_on_stock_words(std::string_view scion, std::string_view stock);
/// `citrus chip`.
std::string kind_words(std::string_view species, std::string_view method);

}  // namespace graftcast
