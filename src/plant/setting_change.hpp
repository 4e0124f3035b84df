#pragma once
// What a line of the diary changes in how a graft stands (private to the layer).

#include <optional>

#include "plant/graft_case.hpp"

namespace graftcast {

/// The setting after `line`, in force from its time on; nothing where its event changes none. `graft` is the
/// case as far as it is known by then.
std::optional<Setting> changed_setting(const DiaryLine& line, const GraftCase& graft, const Models& models);

/// Puts on a wrap: what it seals is sealed.
void put_wrap_on(Setting& setting, const std::string& name, Organ organ, const Models& models);

}  // namespace graftcast
