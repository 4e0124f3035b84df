#pragma once
// Writing a spot's sun and wind shares into site.json.

#include <filesystem>
#include <string>

#include "graftcast/spot.hpp"

namespace graftcast {

/// `site_text` with the shares of the spot called `spot`; everything else stays as it is, byte for byte.
/// Errors: DataError when the text is no JSON; RangeError when it has no such spot.
std::string with_spot_shares(const std::string& site_text, const std::string& shown_name,
                             const std::string& spot, const SpotShares& shares);

/// Does so in `folder`/site.json, durably. Hold the site's lock around it. Errors: those of
/// `with_spot_shares`, DataError where the result would not be a valid site, WriteError.
void write_spot_shares(const std::filesystem::path& folder, const std::string& spot,
                       const SpotShares& shares);

}  // namespace graftcast
