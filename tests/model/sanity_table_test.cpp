// The survival table and dates of an independent prototype of the union model (project specification, section
// 15; computed, not published): 256 members, fixed weather, parameter spread only. Agreement within 0.15 is
// asked for.

#include <gtest/gtest.h>

#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

using namespace std::chrono_literals;
constexpr auto first_day = std::chrono::January / 30 / 2025;

MadeDay ordinary(int day) {
  return {15 + 0.05 * day, 27 + 0.05 * day, 40, 1.8, 850, 5.5};
}
constexpr MadeDay heat_wave{23, 39, 14, 2.5, 900, 5.5};

HourlyWeather weather_with_wave_at(int wave_day) {
  return made_weather(first_day, wave_day + 8, [&](int day) {
    return day >= wave_day && day < wave_day + 4 ? heat_wave : ordinary(day);
  });
}

struct Row {
  const char* name;
  MadeCase made;
  double early, late;
};

MadeCase made(const char* method, const char* wrap, const char* cover, double shade = 0,
              bool tip_open = false) {
  MadeCase m;
  m.method = method;
  m.wrap = wrap;
  m.cover = cover;
  m.shade = shade;
  m.tip_open = tip_open;
  return m;
}

class SanityTable : public ::testing::TestWithParam<Row> {};

TEST_P(SanityTable, SurvivalOfTheHeatWaveAgreesWithThePrototype) {
  const Row& row = GetParam();
  for (const auto& [wave_day, expected] : {std::pair{5, row.early}, std::pair{30, row.late}}) {
    const MadeRun run = run_made(row.made, weather_with_wave_at(wave_day));
    std::printf("  %-45s day %2d: %.2f (prototype %.2f)  water %.2f heat %.2f stores %.2f\n", row.name,
                wave_day, run.mean_survival(), expected, run.mean_part(&SurvivalParts::water),
                run.mean_part(&SurvivalParts::heat), run.mean_part(&SurvivalParts::stores));
    EXPECT_NEAR(run.mean_survival(), expected, 0.15) << row.name << ", wave at day " << wave_day;
  }
}

INSTANTIATE_TEST_SUITE_P(
    Rows, SanityTable,
    ::testing::Values(
        Row{"chip, film-bud-out, open", made("chip", "film-bud-out", "none"), 0.41, 0.81},
        Row{"chip, film, open", made("chip", "film", "none"), 0.98, 0.94},
        Row{"chip, film-bud-out, clear bag in sun", made("chip", "film-bud-out", "clear-bag"), 0.08, 0.01},
        Row{"chip, film-bud-out, clear bag, shade 0.7", made("chip", "film-bud-out", "clear-bag", 0.7), 0.98,
            0.96},
        Row{"cleft, film, open", made("cleft", "film", "none"), 0.82, 0.82},
        Row{"cleft, none, tip open, open", made("cleft", "none", "none", 0, true), 0.00, 0.00},
        Row{"cleft, film, clear bag in sun", made("cleft", "film", "clear-bag"), 0.08, 0.01},
        Row{"cleft, film, paper over bag", made("cleft", "film", "paper-over-bag"), 0.91, 0.81}));

TEST(SanityDates, MildCoastalSpringBridgesAndLeavesAsThePrototype) {
  MadeCase m = made("cleft", "film", "clear-bag", 0.7);
  m.species = "subtropical-evergreen";
  for (const auto& [start, bridge, leaves] : {std::tuple{0, 34, 48}, std::tuple{21, 29, 40}}) {
    const auto weather = made_weather(first_day, 70, [start = start](int day) {
      const int d = day + start;
      return MadeDay{8.5 + 0.09 * d, 18.5 + 0.09 * d, 50, 1.8, 550.0 + 5 * d, 6.3};
    });
    const MadeRun run = run_made(m, weather);
    const int bridged = run.median_day(&UnionStates::healing, 1.0);
    const int leafed = run.median_day(&UnionStates::leaf_share, 0.15);
    std::printf("  spring from day %d: bridge on day %d (prototype %d), leaves on day %d (%d)\n", start,
                bridged, bridge, leafed, leaves);
    EXPECT_NEAR(bridged, bridge, 3);
    EXPECT_NEAR(leafed, leaves, 3);
  }
}

TEST(SanityDates, LateWinterAppleInFilmLivesAndBareDriesOut) {
  const auto weather = made_weather(
      first_day, 70, [](int d) { return MadeDay{3 + 0.12 * d, 12 + 0.16 * d, 55, 2, 400.0 + 6 * d, 6.5}; });
  MadeCase m = made("cleft", "film", "none");
  m.species = "apple";
  m.latitude_deg = 45;
  const MadeRun film = run_made(m, weather);
  m.wrap = "none";
  const MadeRun bare = run_made(m, weather);
  std::printf("  apple: film bridge %d survives %.2f; bare %.2f\n",
              film.median_day(&UnionStates::healing, 1.0), film.mean_survival(), bare.mean_survival());
  EXPECT_NEAR(film.median_day(&UnionStates::healing, 1.0), 33, 3);
  EXPECT_NEAR(film.mean_survival(), 1.00, 0.15);
  EXPECT_NEAR(bare.mean_survival(), 0.03, 0.15);
}

}  // namespace
}  // namespace graftcast::testing
