#pragma once
// The morning's work: which grafts get the covers and the minutes at hand.

#include <optional>

#include "graftcast/morning.hpp"
#include "parameters/models.hpp"
#include "records/site.hpp"

namespace graftcast {

/// The assignment that saves most with the site's supplies and, where given, `minutes` of work; exact. Each
/// graft of a row gets one action or none; rows with the urgency `leave` and actions that save next to
/// nothing (a tenth of `watch_p`) are left out. Of plans that save alike, the one with less work is taken (a
/// minute counts for a millionth of a graft), then the one that takes fewer supplies.
MorningPlan morning_plan(const MorningReport& report, const Site& site, const Models& models,
                         std::optional<double> minutes);

}  // namespace graftcast
