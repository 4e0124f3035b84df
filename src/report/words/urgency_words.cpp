#include "words/urgency_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string urgency_words(Urgency urgency) {
  switch (urgency) {
    case Urgency::now:
      return trc("urgency", "now");
    case Urgency::soon:
      return trc("urgency", "soon");
    case Urgency::watch:
      return trc("urgency", "watch");
    default:
      return trc("urgency", "leave");
  }
}

}  // namespace graftcast
