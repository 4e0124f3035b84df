#pragma once
// Where the numbers of a lesson are from (private to the layer).

#include <string>

#include "graftcast/why_lesson.hpp"

namespace graftcast {

/// `stores last 40 d: judgement ... (grade C)`.
std::string number_source_words(LessonNumber which, const UsedNumber& number);
/// `dry air: judgement ... (grade C)`: of how often a sign is seen after it.
std::string sign_source_words(const CulpritSign& chance);

/// Published relations that the steps rest on.
std::string balance_source_words();
std::string deficit_source_words();
std::string pace_source_words();
std::string shares_source_words();

}  // namespace graftcast
