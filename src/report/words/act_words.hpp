#pragma once
// What can be done for a graft, in words (private to the layer).

#include <string>
#include <string_view>

#include "graftcast/act.hpp"

namespace graftcast {

/// `put paper over the bag`: an infinitive, to stand alone or within a sentence. Empty for none.
std::string act_words(const Act& act);
/// Why it must not be done.
std::string exclusion_words(Exclusion exclusion);
/// Where a graft is under `cover`, within a sentence: `in its clear bag`.
std::string place_words_of(std::string_view cover);

}  // namespace graftcast
