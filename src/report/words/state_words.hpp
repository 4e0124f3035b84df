#pragma once
// A union's stage and what made its days hard, in a word (private to the layer).

#include <string>
#include <vector>

#include "graftcast/day_flag.hpp"
#include "graftcast/stage.hpp"

namespace graftcast {

std::string stage_words(Stage stage);
std::string day_flag_words(DayFlag flag);
std::vector<std::string> day_flags_words(const DayFlags& flags);

}  // namespace graftcast
