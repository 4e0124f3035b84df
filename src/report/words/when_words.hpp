#pragma once
// Grafts that might be made, in words (private to the layer).

#include <string>

#include "graftcast/season_weeks.hpp"
#include "graftcast/when.hpp"

namespace graftcast {

/// How it would be made: `citrus chip, wrap film, no cover, 50 % shade, bench`.
std::string way_words(const WhenCandidate& candidate);

/// Whether the bark slips, or from when on; empty for methods that do not ask for it.
std::string bark_words(const WhenCandidate& usual, LocalDay today);

/// `graft`, `graft with cover`, `wait`.
std::string when_verdict_words(WhenVerdict verdict);
/// Why, without a stop.
std::string when_ground_words(const WhenGround& ground);

/// What takes most; empty where nothing does.
std::string limit_words(const std::optional<Cause>& limiting);
/// Days to the callus bridge, `later` beyond the run.
std::string bridge_days_words(const WhenDay& day);

/// What its first week is known from, in a narrow column.
std::string source_words(StandIn source);

}  // namespace graftcast
