#pragma once
// What a site's results teach, in words (private to the layer).

#include <string>

#include "graftcast/learn.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// Whether the shifts are used and why, without a stop.
std::string learn_verdict_words(const LearnReport& report);
std::string group_by_words(GroupBy by);
std::string rate_verdict_words(RateVerdict verdict);

/// `citrus, 41 outcomes: heals 14 % faster (3 % slower to 34 % faster); dries ...; plain failure odds ...`.
std::string shifts_words(const std::string& name, const LearnedShifts& shifts);

/// `2.0 K higher`, `as published`.
std::string base_words(double shift_k, UnitSystem units);

}  // namespace graftcast
