#pragma once
// What is due on some day, in words (private to the layer).

#include <string>

#include "graftcast/due_work.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// `A1: put paper over the bag`.
std::string due_title_words(const DueWork& work);
/// Why it is due; empty where the kind says it all.
std::string due_reason_words(const DueWork& work, UnitSystem units);
/// Risk as it is and with it; empty for what is no act.
std::string due_risk_words(const DueWork& work);
/// What a date of this kind is about; empty where the title says it.
std::string due_meaning_words(const DueWork& work);
/// The range of its date, which has a middle.
std::string due_range_words(const DueWork& work, LocalDay today);

}  // namespace graftcast
