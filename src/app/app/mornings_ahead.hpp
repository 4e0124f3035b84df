#pragma once
// What trying grafts on the coming mornings needs of a site.

#include <vector>

#include "advice/when.hpp"
#include "app/open_site.hpp"

namespace graftcast {

/// For a season that reaches as far as when_to_graft asks for the coming `days`.
SeasonSettings mornings_settings(const OpenSite& open, const SiteWeather& weather, int days);

/// From the midwinter before on where the log knows it, so that the bark's slip is known; else now.
Instant midwinter_or_now(const OpenSite& open, const SiteWeather& weather);

/// The ways of grafting on record, those with most grafts first: no more than `most`.
std::vector<WhenAsk> ways_on_record(const std::vector<GraftRecord>& grafts, std::size_t most);

}  // namespace graftcast
