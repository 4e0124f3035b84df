#pragma once
// The figures behind each cause, in words.

#include <string>

#include "advice/why.hpp"
#include "ensemble/graft_run.hpp"

namespace graftcast {

/// What speaks for `cause`: the day that shows it best, in the open and at the graft. `graft` has its days,
/// dates and state.
std::string cause_fact(const GraftWhy& graft, const GraftRun& run, std::string_view cause);

/// "in its clear bag", "in the open".
std::string place_words(const std::string& cover);

}  // namespace graftcast
