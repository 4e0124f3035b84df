#pragma once
// One graft that might be made, followed ahead (private to the layer).

#include "advice/when.hpp"

namespace graftcast {

/// Days that the source of a planned graft's weather is told of.
inline constexpr int first_week_days = 7;

/// Made on the morning of `day` and followed until every member drinks, `when_follow_days` at most.
WhenDay planned_graft(const Season& season, const WhenAsk& ask, LocalDay day);

/// What was asked with the method's usual wrap and cover where none is named; no days yet.
WhenCandidate usual_way(const Models& models, const WhenAsk& ask);
/// The same under paper over a bag and the owner's shade.
WhenCandidate covered_way(const Site& site, const WhenCandidate& usual, const WhenAsk& ask);

}  // namespace graftcast
