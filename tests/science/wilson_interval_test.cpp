// Source: Newcombe (1998), Stat. Med. 17:857, table I, method 3 (recalled).

#include "graftcast/wilson_interval.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

TEST(WilsonInterval, GivesNewcombesExamples) {
  struct Case {
    double successes, trials, low, high;
  };
  for (const Case& c : {Case{81, 263, 0.2553, 0.3662}, Case{15, 148, 0.0624, 0.1605},
                        Case{0, 20, 0.0000, 0.1611}, Case{1, 29, 0.0061, 0.1718}}) {
    const RateInterval interval = wilson_interval(c.successes, c.trials);
    EXPECT_NEAR(interval.low, c.low, 5e-5) << c.successes;
    EXPECT_NEAR(interval.high, c.high, 5e-5) << c.successes;
  }
}

TEST(WilsonInterval, EndsWhereTheScoreTestWouldReject) {
  for (int k = 0; k <= 30; ++k) {
    const double rate = k / 30.0, z = 1.645;
    const RateInterval interval = wilson_interval(k, 30, z);
    for (const double p : {interval.low, interval.high}) {
      if (p <= 0 || p >= 1) continue;
      EXPECT_NEAR(std::abs(rate - p) / std::sqrt(p * (1 - p) / 30), z, 1e-9) << k;
    }
    EXPECT_LE(interval.low, rate);
    EXPECT_GE(interval.high, rate);
  }
}

TEST(WilsonInterval, RefusesWhatIsNoCount) {
  EXPECT_THROW(wilson_interval(3, 2), RangeError);
  EXPECT_THROW(wilson_interval(-1, 2), RangeError);
  EXPECT_THROW(wilson_interval(0, 0), RangeError);
}

}  // namespace
}  // namespace graftcast
