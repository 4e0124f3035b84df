#pragma once
// The life of a lost graft, day by day.

#include <span>
#include <vector>

#include "advice/why.hpp"

namespace graftcast {

/// States as it was at the beginning of each local day from grafting to the end, and at the end.
struct LifeCourse {
  std::vector<std::size_t> marks;  ///< Hours of the series.
  std::vector<UnionStates> states;
  std::vector<double> weights;  ///< All alike: no note weighs.
  std::vector<double> lost;     ///< Mean loss at each mark.
};
LifeCourse life_course(const Counterfactuals& runs);

/// The days between the marks.
std::vector<WhyDay> why_days(const Counterfactuals& runs, const LifeCourse& course,
                             const std::vector<DiaryLine>& lines);

/// When the loss fell, given that it did and that the graft was alive at `alive_until`.
DateBand loss_dates(const Season& season, const LifeCourse& course, Instant alive_until);

}  // namespace graftcast
