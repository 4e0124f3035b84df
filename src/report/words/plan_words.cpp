#include "words/plan_words.hpp"

#include "text/tr.hpp"
#include "words/act_words.hpp"

namespace graftcast {

namespace {

std::string together(const std::vector<std::string>& supplies) {
  std::string words;
  for (const std::string& supply : supplies)
    words = words.empty() ? supply : tr("{first} and {next}", "first"_a = words, "next"_a = supply);
  return words;
}

std::string dearer_words(const DearerAct& dearer) {
  const std::string act = act_words(dearer.act);
  const double percent = 100 * dearer.p_after;
  if (dearer.supplies.empty())
    return tr("to {act} would leave {percent:.0f} %, but that time saves more elsewhere", "act"_a = act,
              "percent"_a = percent);
  return tr("to {act} would leave {percent:.0f} %, but that {supplies} saves more elsewhere", "act"_a = act,
            "percent"_a = percent, "supplies"_a = together(dearer.supplies));
}

}  // namespace

std::string plan_reason_words(const PlannedAct& planned) {
  const std::string change = tr("risk {before:.0f} to {after:.0f} %", "before"_a = 100 * planned.p_before,
                                "after"_a = 100 * planned.p_after);
  return planned.dearer ? change + "; " + dearer_words(*planned.dearer) : change;
}

}  // namespace graftcast
