#pragma once
// Words that the page's tables and its script share (private to the layer).

#include <string>

namespace graftcast {

/// Heads of columns by which the script finds what it reads out.
std::string limit_head();
std::string stage_head();
std::string hard_day_head();

}  // namespace graftcast
