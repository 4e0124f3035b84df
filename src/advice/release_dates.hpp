#pragma once
// When a union gets where: dates with their band over the ensemble.

#include "advice/aftercare.hpp"
#include "advice/since.hpp"
#include "ensemble/graft_run.hpp"

namespace graftcast {

/// The states of one union at the beginning of each local day from grafting to the end of the outlook.
struct UnionCourse {
  std::vector<std::size_t> marks;   ///< Hours of the series.
  std::vector<UnionStates> states;  ///< At each mark.
  std::vector<double> weights;      ///< Of the members.
};

/// One of the numbers of a state, `&UnionStates::healing` for example.
using StateNumber = Eigen::ArrayXd UnionStates::*;
/// The local day on which the number gets to `level`, with weighted 10 and 90 % of the members; absent where
/// the share of members that get there is smaller.
DateBand level_band(const Season& season, const UnionCourse& course, StateNumber number, double level);

/// The day on which healing gets to `healing`.
DateBand healing_band(const Season& season, const UnionCourse& course, double healing);
/// ... from which the wrap may be slit: firm enough, and no sooner than the method's days after `grafted_on`.
DateBand slit_wrap_band(const GraftRun& run, const UnionCourse& course, LocalDay grafted_on);
/// ... on which the buds of the scion push.
DateBand bud_band(const Season& season, const UnionCourse& course);

/// What the work on the stock and the shoot hangs on; `coming` are the days ahead as the graft will live
/// them.
CareDates care_dates(const GraftRun& run, const UnionCourse& course, LocalDay grafted_on,
                     std::span<const UnionDay> coming);

}  // namespace graftcast
