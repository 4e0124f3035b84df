#pragma once
// Small sites drawn at random: place, weather with a spell of heat or frost, grafts of all kinds with notes.

#include <cstdint>
#include <memory>
#include <vector>

#include "model/made_season.hpp"

namespace graftcast::testing {

struct RandomSite {
  std::unique_ptr<MadeSeason> made;
  std::vector<GraftRecord> grafts;

  const Season& season() const { return made->season; }
  const GraftRecord& record(const std::string& id) const;
};

/// The site of `seed`; equal seeds give equal sites.
RandomSite random_site(std::uint64_t seed, int grafts = 4);

}  // namespace graftcast::testing
