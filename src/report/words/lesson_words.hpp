#pragma once
// The reasoning of a `why`, step by step, in words (private to the layer).

#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/why.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// A step of the reasoning with the sources of its numbers.
struct LessonStep {
  std::string title;
  std::string text;
  std::vector<std::string> sources;
};

/// The steps in their order; none where no lesson was asked for. Moments on the site's clock.
std::vector<LessonStep> lesson_steps(const GraftWhy& graft, const Clock& clock, UnitSystem units);

}  // namespace graftcast
