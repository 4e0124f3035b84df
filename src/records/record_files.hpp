#pragma once
// Names of the files of a site folder (private to the layer).

namespace graftcast {

inline constexpr const char* site_file = "site.json";
inline constexpr const char* grafts_file = "grafts.csv";
inline constexpr const char* diary_file = "diary.csv";
inline constexpr const char* wood_file = "wood.csv";

}  // namespace graftcast
