#pragma once
// A planned graft as JSON, by mornings and by weeks (private to the layer).

#include "graftcast/when.hpp"
#include "json_parts.hpp"

namespace graftcast {

/// The code of what takes most; null where nothing does.
Json limit_json(const WhenDay& day);
/// `forecast`, `past-years`, `last-week` ...
std::string_view when_source_name(const WhenDay& day);

}  // namespace graftcast
