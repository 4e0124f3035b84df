#pragma once
// The site and ledger that fuzzed records are read against.

#include "records/diary.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"

namespace graftcast::fuzzing {

inline const Site& place() {
  static const Site site = site_from_text(
      R"({"format": 1, "latitude": 41, "longitude": -7, "elevation_m": 9, "time_zone": "Europe/Lisbon",
          "spots": {"bench": {}, "store": {}}})",
      "site.json");
  return site;
}

inline const Clock& clock() {
  static const Clock site_clock(place().time_zone);
  return site_clock;
}

inline const KnownNames& names() {
  static const KnownNames known{
      {"apple", "pear"}, {"cleft", "chip"}, {"none", "film"}, {"none", "clear-bag"}};
  return known;
}

}  // namespace graftcast::fuzzing
