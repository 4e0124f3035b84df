#pragma once
// The weeks of the year in which a species is grafted.

#include "graftcast/since.hpp"
#include "parameters/models.hpp"

namespace graftcast {

/// Of a species with `window_*` in models/species.json, as seen on `day`. Windows are days since midwinter,
/// so that both halves of the globe have them alike.
GraftWindow graft_window(const Species& species, double latitude_deg, LocalDay day);

}  // namespace graftcast
