#include "why_words.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "wording.hpp"

namespace graftcast {

namespace {

using Words = std::string (*)(const GraftWhy&, const GraftRun&);

template <class Of>
const WhyDay& most(const GraftWhy& graft, Of&& of) {
  return *std::ranges::max_element(graft.days, {}, of);
}

std::string degrees(const GraftRun& run, double celsius) {
  return degrees_text(run.season(), celsius);
}

/// A difference of temperatures.
std::string warmer(const GraftRun& run, double kelvin) {
  return run.season().settings.us_units ? fmt::format("{:.0f} degF", kelvin * 1.8)
                                        : fmt::format("{:.0f} K", kelvin);
}

std::string cover_then(const GraftRun& run, LocalDay day) {
  const Season& season = run.season();
  return place_words(run.graft().setting_at(season.clock.noon_of(day)).cover);
}

std::string heat_fact(const GraftWhy& graft, const GraftRun& run) {
  const WhyDay& day = most(graft, &WhyDay::tissue_max_c);
  return fmt::format("tissue up to {} {} on {}, air {}", degrees(run, day.tissue_max_c),
                     cover_then(run, day.day), weekday_text(day.day), degrees(run, day.air_max_c));
}

std::string dry_air_fact(const GraftWhy& graft, const GraftRun&) {
  const WhyDay& day = most(graft, &WhyDay::vpd_max_kpa);
  return fmt::format(
      "vapour pressure deficit up to {:.1f} kPa in the open on {}, {:.1f} kPa at the graft; "
      "water down to {:.0f} % of full",
      day.vpd_max_kpa, weekday_text(day.day), day.own_vpd_max_kpa,
      100 * std::ranges::min(graft.days, {}, &WhyDay::water).water);
}

std::string wind_fact(const GraftWhy& graft, const GraftRun&) {
  const WhyDay& day = most(graft, &WhyDay::wind_max_m_s);
  return fmt::format("wind up to {:.1f} m/s at 2 m on {}", day.wind_max_m_s, weekday_text(day.day));
}

std::string cover_sun_fact(const GraftWhy& graft, const GraftRun& run) {
  const WhyDay& day = most(graft, &WhyDay::tissue_max_c);
  return fmt::format("{} the tissue got to {} on {}, {} hotter than the air", cover_then(run, day.day),
                     degrees(run, day.tissue_max_c), weekday_text(day.day),
                     warmer(run, day.tissue_max_c - day.air_max_c));
}

std::string missing_cover_fact(const GraftWhy&, const GraftRun& run) {
  const Setting& had = run.graft().settings.front();
  const Setting usual = with_usual_protection(run.graft(), had, run.season().models);
  std::vector<std::string> lacks;
  if (usual.wrap != had.wrap) lacks.push_back(fmt::format("wrap {} where {} is usual", had.wrap, usual.wrap));
  if (usual.wrap == had.wrap && had.tip_open) lacks.emplace_back("the cut tip open");
  if (usual.wrap == had.wrap && had.edges_open && !usual.edges_open)
    lacks.emplace_back("the chip's edges open");
  if (usual.cover != had.cover)
    lacks.push_back(fmt::format("cover {} where {} is usual", had.cover, usual.cover));
  return lacks.empty() ? "wrap or cover came off before the vessels joined"
                       : fmt::format("{}", fmt::join(lacks, "; "));
}

std::string dry_stock_fact(const GraftWhy& graft, const GraftRun& run) {
  const auto short_of =
      std::ranges::count_if(graft.days, [](const WhyDay& day) { return day.stock_stress_min < 1; });
  const WhyDay& day = most(graft, [](const WhyDay& d) { return -d.stock_stress_min; });
  return fmt::format(
      "the stock was short of water on {} of {} days; on {} it gave {:.0f} % of what was asked{}", short_of,
      graft.days.size(), weekday_text(day.day), 100 * day.stock_stress_min,
      run.graft().watering_assumed ? " (weekly watering assumed)" : "");
}

std::string cold_fact(const GraftWhy& graft, const GraftRun& run) {
  const WhyDay& day = most(graft, [](const WhyDay& d) { return -d.tissue_min_c; });
  return fmt::format("tissue down to {} on {}, air {}", degrees(run, day.tissue_min_c), weekday_text(day.day),
                     degrees(run, day.air_min_c));
}

std::string slow_callus_fact(const GraftWhy& graft, const GraftRun& run) {
  const double best_days = run.graft().species->bridge_days / run.graft().method->rate_factor;
  return fmt::format("{:.0f} % of the callus bridge in {:.0f} days; {:.0f} days make it at {}",
                     100 * std::min(1.0, graft.healing), graft.age_days, best_days,
                     degrees(run, run.graft().species->callus_optimum_c));
}

std::string on_day(const std::optional<LocalDay>& day, const char* otherwise) {
  return day ? "on " + weekday_text(*day) : std::string(otherwise);
}

std::string early_push_fact(const GraftWhy& graft, const GraftRun&) {
  return fmt::format("buds moved {}, vessels joined {}", on_day(graft.buds_moved_on.median, "late"),
                     on_day(graft.drinking_from.median, "not by then"));
}

std::string match_fact(const GraftWhy&, const GraftRun& run) {
  const GraftCase& graft = run.graft();
  if (graft.match_share) return fmt::format("{:.0f} % of the cambium met", 100 * *graft.match_share);
  return graft.match_one_side ? "the cambium met on one side only" : "not all of the cambium meets as a rule";
}

std::string plain_fact(const GraftWhy& graft, const GraftRun&) {
  return fmt::format(
      "{:.0f} in 100 grafts by {} fail in any weather: poor fit, slipped or dead wood, disease, "
      "incompatibility",
      100 * graft.plain_failure, graft.method);
}

struct NamedCause {
  std::string_view name, title;
  Words fact;
};
constexpr std::array named_causes{NamedCause{"heat", "heat", heat_fact},
                                  NamedCause{"dry_air", "dry air", dry_air_fact},
                                  NamedCause{"wind", "wind", wind_fact},
                                  NamedCause{"cover_sun", "sun on the cover", cover_sun_fact},
                                  NamedCause{"missing_cover", "missing wrap or cover", missing_cover_fact},
                                  NamedCause{"dry_stock", "dry stock", dry_stock_fact},
                                  NamedCause{"cold", "cold", cold_fact},
                                  NamedCause{"slow_callus", "slow callus", slow_callus_fact},
                                  NamedCause{"early_push", "buds ahead of the union", early_push_fact},
                                  NamedCause{"match", "poor match of the cambium", match_fact},
                                  NamedCause{"not_weather", "not the weather", plain_fact}};

const NamedCause& named(std::string_view cause) {
  return *std::ranges::find(named_causes, cause, &NamedCause::name);
}

}  // namespace

std::string_view cause_title(std::string_view cause) {
  return named(cause).title;
}

std::string cause_fact(const GraftWhy& graft, const GraftRun& run, std::string_view cause) {
  return graft.days.empty() ? std::string() : named(cause).fact(graft, run);
}

std::string place_words(const std::string& cover) {
  static const std::map<std::string, std::string, std::less<>> inside{
      {"clear-bag", "in its clear bag"},
      {"vented-bag", "in its vented bag"},
      {"paper-over-bag", "under paper and bag"},
      {"foil-over-bag", "under foil and bag"},
      {"paper-bag", "in its paper bag"}};
  const auto text = inside.find(cover);
  if (text != inside.end()) return text->second;
  return cover == "none" ? "in the open" : fmt::format("under its {}", cover);
}

}  // namespace graftcast
