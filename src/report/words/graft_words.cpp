#include "words/graft_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string scion_on_stock_words(std::string_view scion, std::string_view stock) {
  if (stock.empty()) return std::string(scion);
  if (scion.empty()) return tr("on {stock}", "stock"_a = stock);
  return tr("{scion} on {stock}", "scion"_a = scion, "stock"_a = stock);
}

std::string kind_words(std::string_view species, std::string_view method) {
  return trc("kind of graft", "{species} {method}", "species"_a = species, "method"_a = method);
}

}  // namespace graftcast
