#pragma once
// Covers by parts: what goes round a graft, and what is done to that.

#include <map>
#include <string>
#include <vector>

#include "parameters/models.hpp"
#include "plant/scion_climate.hpp"

namespace graftcast {

/// A cover taken apart. A sheet over a vented bag closes it.
struct CoverParts {
  enum class Over { nothing, vent, paper, foil };

  std::string bag;  ///< A cover of the models, `clear-bag` or the owner's own; empty: none.
  Over over = Over::nothing;

  bool operator==(const CoverParts&) const = default;
};

/// The parts of the cover called `name`: one of the models, or what `cover_name` gives for parts that have no
/// entry of their own. An own cover is a bag that is not taken apart.
CoverParts parts_of_cover(const std::string& name, const Models& models);

/// The name of such a cover: that of the models where they have one, else such as `sock+paper`.
std::string cover_name(const CoverParts& parts);

/// What the cover called `name` does to light, heat and vapour. Parts without an entry of their own are put
/// together: a sheet does over any bag what it does over the clear one, and so does a vent.
CoverOptics cover_optics(const std::string& name, const Models& models);

/// Whether it keeps vapour in.
bool is_bag(const std::string& name, const Models& models);

/// Supplies of one such cover.
std::map<std::string, int> cover_needs(const std::string& name, const Models& models);

/// Every supply that a cover of the models needs.
std::vector<std::string> supplies_of_covers(const Models& models);

/// The covers that are no part of the published ones: the owner's own, by name.
std::vector<std::string> own_covers(const Models& models);

/// The entry of the cover called `name`, or of its bag where the parts have none of their own.
const Cover& cover_entry(const std::string& name, const Models& models);

}  // namespace graftcast
