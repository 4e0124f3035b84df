#include "words/state_words.hpp"

#include "text/tr.hpp"

namespace graftcast {

std::string stage_words(Stage stage) {
  switch (stage) {
    case Stage::fresh:
      return trc("stage", "fresh");
    case Stage::callusing:
      return trc("stage", "callusing");
    case Stage::bridged:
      return trc("stage", "bridged");
    case Stage::drinking:
      return trc("stage", "drinking");
    default:
      return trc("stage", "firm");
  }
}

std::string day_flag_words(DayFlag flag) {
  switch (flag) {
    case DayFlag::heat:
      return trc("hard day", "heat");
    case DayFlag::drying:
      return trc("hard day", "drying");
    case DayFlag::cold:
      return trc("hard day", "cold");
    case DayFlag::mould:
      return trc("hard day", "mould");
    case DayFlag::soaked:
      return trc("hard day", "soaked");
    default:
      return trc("hard day", "wind");
  }
}

std::vector<std::string> day_flags_words(const DayFlags& flags) {
  std::vector<std::string> words;
  for (const DayFlag flag : flags) words.push_back(day_flag_words(flag));
  return words;
}

}  // namespace graftcast
