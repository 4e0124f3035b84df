#pragma once
// Spots, and what a thermometer tells of one, in words (private to the layer).

#include <string>

#include "graftcast/spots.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// What takes part of the day, or sets the climate: `sun from 9 h until 15 h, skyline`.
std::string spot_limits_words(const Spot& spot, const TerminalStyle& style);

/// Why `fit` does not tell a share, without a stop.
std::string share_doubt_words(ShareDoubt doubt, const SpotFit& fit);

/// What was compared, with which thermometer.
std::string spot_fit_words(const SpotLearned& learned);
/// The share that was found beside that of site.json, or why it stays.
std::string sun_share_words(const SpotFit& fit, const Spot& before);
std::string wind_share_words(const SpotFit& fit, const Spot& before);
/// How well the thermometer is followed.
std::string fit_errors_words(const SpotFit& fit);
/// What to put into site.json.
std::string spot_proposal_words(const SpotLearned& learned);

}  // namespace graftcast
