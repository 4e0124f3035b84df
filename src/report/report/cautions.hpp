#pragma once
// Short warnings that belong to an answer: heat for people, knives, hygiene, rules for moving wood.

#include <optional>
#include <string>
#include <vector>

#include "ensemble/season.hpp"
#include "graftcast/due_work.hpp"
#include "graftcast/morning.hpp"
#include "graftcast/since.hpp"
#include "graftcast/why.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// A coming local day that is hot for people.
struct HotDay {
  LocalDay day{};
  double heat_index_c = 0;           ///< Greatest of the day, in the shade.
  std::vector<Instant> hours_below;  ///< Hours that people are up in (5 to 20, local) and stay below caution.
};

/// Days from now to `days` ahead whose heat index (heat_index.hpp) reaches `caution`. Hours of the past do
/// not count.
std::vector<HotDay> hot_days(const Season& season, int days);

/// `heat index 37 °C in the shade (extreme caution); better: 05:00 to 10:00`.
std::string hot_day_words(const HotDay& hot, const Clock& clock, const TerminalStyle& style);

/// Heat index [degC] in the shade in the hour that holds `when`; nothing outside the season's hours.
std::optional<double> heat_index_c_at(const Season& season, Instant when);

/// Heat for people in the coming `days`, in one sentence with the better hours, then the advice of
/// models/hazards.json; empty when no day reaches caution.
std::vector<std::string> heat_cautions(const Season& season, int days, const TerminalStyle& style);

/// Cautions of a morning's list, those of the report among them: heat, the label of a paint that is advised,
/// sap, and what the risk does not hold.
std::vector<std::string> morning_cautions(const MorningReport& report, const Season& season,
                                          const TerminalStyle& style);
/// Cautions of what is due: heat, knives and hygiene where something is cut, and what the risk does not hold.
std::vector<std::string> calendar_cautions(const std::vector<DueWork>& works, const Season& season,
                                           const TerminalStyle& style);
/// Those that belong to one thing that is due: heat at its hour and on its day with the better hours of it,
/// knives and hygiene where something is cut.
std::vector<std::string> due_cautions(const DueWork& work, const Season& season, const TerminalStyle& style);
/// Cautions of `since`: knives, hygiene and quarantine where something is to be cut or grafted again.
std::vector<std::string> since_cautions(const SinceReport& report, const Models& models);
/// Cautions of `why`: what the model does not hold; hygiene where a sign may be disease.
std::vector<std::string> why_cautions(const std::vector<GraftWhy>& grafts, const Models& models);
/// Cautions for making grafts of these species.
std::vector<std::string> grafting_cautions(const std::vector<std::string>& species, const Models& models);

}  // namespace graftcast
