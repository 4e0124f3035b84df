// An hour of a union is the same to the last bit whatever the processor's lanes, also in the code that is
// made for other processors than the oldest.

#include "science/widest_lanes.hpp"

#include <gtest/gtest.h>

#include <vector>

#include "member_lanes.hpp"
#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

constexpr std::size_t hours = 24 * 20;
constexpr int probes = 8;

/// Eight members of a cleft graft under made-up hours, frost and great heat among them.
struct ProbeRun {
  const UnionConstants& constants;
  const UnionMembers& members;
  std::vector<double>& water_healing_heat;

  template <int width>
  void over() const {
    for (int first = 0; first < probes; first += width) course<width>(first);
  }

 private:
  template <int width>
  void course(int first) const {
    using Real = Lanes<width>;
    const PreparedMember<Real> its(constants, lanes_of<width>(members, first));
    UnionState<Real> state = lanes_of<width>(fresh_states(probes), first);
    for (std::size_t hour = 0; hour < hours; ++hour) {
      const double turn = static_cast<double>(hour % 53) / 53;
      const UnionHour<Real> now{Real::Constant(-4 + 50 * turn), Real::Constant(0.03 * turn),
                                Real::Constant(0.02 * turn),    Real::Constant(0.3 + turn),
                                Real::Constant(1e-3 * turn),    Real::Constant(0.5 + 2 * turn),
                                Real::Constant(1 - 0.5 * turn), Real::Constant(hour % 2 == 0 ? 1 : 0)};
      step_union(constants, its, now, state);
      double* to = water_healing_heat.data() + 3 * probes * hour + first;
      state.water.store(to);
      state.healing.store(to + probes);
      state.heat_dose.store(to + 2 * probes);
    }
  }
};

TEST(WidestLanes, StepAUnionToTheSameBitsOnEveryProcessor) {
  const Models& models = published_models();
  const MadeRun made = run_made({}, made_weather(std::chrono::January / 5 / 2025, 1,
                                                 [](int) { return MadeDay{10, 25, 50, 2, 500, 6}; }));
  MemberQuantiles quantiles(3, probes);
  quantiles.set_match_shapes(models);
  const UnionMembers members = union_members(made.graft, made.graft.settings[0], models, quantiles);
  const UnionConstants constants = union_constants(models);
  const auto run_by = [&](auto over_lanes) {
    std::vector<double> values(3 * probes * hours);
    over_lanes(ProbeRun{constants, members, values});
    return values;
  };
  const std::vector<double> narrow = run_by([](const ProbeRun& run) { over_two_lanes(run); });
  EXPECT_GT(narrow.back(), 0);
  EXPECT_EQ(run_by([](const ProbeRun& run) { over_widest_lanes(run); }), narrow);
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && defined(__OPTIMIZE__)
  if (__builtin_cpu_supports("avx2")) {
    EXPECT_EQ(run_by([](const ProbeRun& run) { over_four_lanes(run); }), narrow);
  }
#endif
}

}  // namespace
}  // namespace graftcast::testing
