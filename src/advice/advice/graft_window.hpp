#pragma once
// The weeks of the year in which a species is grafted.

#include <optional>

#include "graftcast/calendar_time.hpp"
#include "parameters/models.hpp"

namespace graftcast {

struct GraftWindow {
  bool open = false;
  LocalDay closes{};  ///< Last day of the window that is open, or of the next one.
  LocalDay opens{};   ///< First day of the next window that is not open yet; of the one in force where it is.
};

/// Of a species with `window_*` in models/species.json, as seen on `day`. Windows are days since midwinter,
/// so that both halves of the globe have them alike.
GraftWindow graft_window(const Species& species, double latitude_deg, LocalDay day);

}  // namespace graftcast
