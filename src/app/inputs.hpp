#pragma once
// Tells whether the files of a site are as they were (private to the layer).

#include <filesystem>
#include <string>

namespace graftcast {

/// Names, sizes and times of last change of all that an answer rests on beside the records: site.json,
/// learned.json, the owner's models, the weather with its cache. Equal texts: nothing has changed.
std::string inputs_of(const std::filesystem::path& folder);

}  // namespace graftcast
