#include "morning_reasons.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "wording.hpp"

namespace graftcast {

namespace {

std::string place_text(const GraftRun& run) {
  const std::string& cover = run.graft().settings.back().cover;
  static const std::map<std::string, std::string> inside{{"clear-bag", "in its clear bag"},
                                                         {"vented-bag", "in its vented bag"},
                                                         {"paper-over-bag", "under paper and bag"},
                                                         {"foil-over-bag", "under foil and bag"},
                                                         {"paper-bag", "in its paper bag"}};
  const auto text = inside.find(cover);
  if (text != inside.end()) return text->second;
  return cover == "none" ? "in the open" : fmt::format("under its {}", cover);
}

std::string heat_text(const ReasonInput& in) {
  const auto hottest = std::max_element(in.coming.begin(), in.coming.end(), [](const auto& a, const auto& b) {
    return a.tissue_max_c < b.tissue_max_c;
  });
  const Season& season = in.run.season();
  return fmt::format("tissue up to {} {} on {}, air {}", degrees_text(season, hottest->tissue_max_c),
                     place_text(in.run), weekday_text(hottest->day),
                     degrees_text(season, hottest->air_max_c));
}

std::string drying_text(const ReasonInput& in) {
  const auto driest = std::max_element(in.coming.begin(), in.coming.end(),
                                       [](const auto& a, const auto& b) { return a.net_loss < b.net_loss; });
  return fmt::format(
      "water {:.0f} % of full now, down to {:.0f} % ahead ({} takes most); at {:.0f} % half are lost",
      100 * in.water_now, 100 * in.water_low, weekday_text(driest->day), 100 * in.run.limits().lost_water);
}

std::string cold_text(const ReasonInput& in) {
  const auto coldest = std::min_element(in.coming.begin(), in.coming.end(), [](const auto& a, const auto& b) {
    return a.tissue_min_c < b.tissue_min_c;
  });
  return fmt::format("tissue down to {} on {}", degrees_text(in.run.season(), coldest->tissue_min_c),
                     weekday_text(coldest->day));
}

std::string cause_text(const ReasonInput& in) {
  if (in.cause == "drying") return drying_text(in);
  if (in.cause == "heat") return heat_text(in);
  if (in.cause == "cold") return cold_text(in);
  if (in.cause == "spent-stores") return "its stores run out before the vessels join";
  return {};
}

void add_state_notes(const ReasonInput& in, std::vector<std::string>& texts) {
  const Stage stage = in.coming.empty() ? Stage::fresh : in.coming.front().stage;
  if (in.bud_clock >= 1 && stage < Stage::drinking) {
    texts.emplace_back("the buds move before the vessels join: leaves will draw on the store");
  }
  if (in.run.stock_depletion_now() > 1 - 0.5 * 0.5 && in.run.graft().pot_litres) {
    texts.push_back(
        fmt::format("the pot holds {:.0f} % of its water", 100 * (1 - in.run.stock_depletion_now())));
  }
  if (in.now.contradicted)
    texts.emplace_back("what was noted does not fit the weather it had: look at this one");
}

void add_wind(const ReasonInput& in, std::vector<std::string>& texts) {
  const Models& models = in.run.season().models;
  for (const UnionDay& day : in.coming) {
    if (!has(day_flags(day, models), DayFlag::wind)) continue;
    texts.push_back(fmt::format("gusts of {} on {} can break or shift it",
                                wind_text(in.run.season(), day.gust_m_s), weekday_text(day.day)));
    return;
  }
}

void add_assumptions(const ReasonInput& in, std::vector<std::string>& texts) {
  const GraftCase& graft = in.run.graft();
  if (graft.watering_assumed && graft.pot_litres) {
    texts.emplace_back("no watering is noted: watered at grafting and weekly is assumed");
  }
  if (!graft.assumed.empty()) {
    texts.push_back(fmt::format("not given and assumed: {}", fmt::join(graft.assumed, ", ")));
  }
}

}  // namespace

std::string main_cause(const RiskOfTreatment& risk, double negligible) {
  if (risk.risk.p < negligible) return {};
  const std::array<std::pair<double, const char*>, 4> ways{{{risk.lost.water, "drying"},
                                                            {risk.lost.heat, "heat"},
                                                            {risk.lost.cold, "cold"},
                                                            {risk.lost.stores, "spent-stores"}}};
  return std::max_element(ways.begin(), ways.end(),
                          [](const auto& a, const auto& b) { return a.first < b.first; })
      ->second;
}

std::vector<std::string> reasons(const ReasonInput& input) {
  std::vector<std::string> texts;
  if (std::string text = cause_text(input); !text.empty()) texts.push_back(std::move(text));
  add_wind(input, texts);
  add_state_notes(input, texts);
  add_assumptions(input, texts);
  return texts;
}

}  // namespace graftcast
