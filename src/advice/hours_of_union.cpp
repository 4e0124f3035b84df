#include "hours_of_union.hpp"

#include <algorithm>
#include <array>
#include <numeric>

namespace graftcast {

namespace {

/// Weighted quantiles of a number of all members, hour after hour. The members' order hardly changes from one
/// hour to the next, so that putting them in order again takes next to nothing.
class MemberOrder {
 public:
  explicit MemberOrder(std::span<const double> weights)
      : weights_(weights),
        total_(std::accumulate(weights.begin(), weights.end(), 0.0)),
        order_(weights.size()),
        values_(weights.size()) {
    std::iota(order_.begin(), order_.end(), std::size_t{0});
  }

  void sort(const Eigen::ArrayXd& values) {
    values_.assign(values.begin(), values.end());
    for (std::size_t i = 1; i < order_.size(); ++i) {
      const std::size_t member = order_[i];
      std::size_t place = i;
      for (; place > 0 && values_[order_[place - 1]] > values_[member]; --place)
        order_[place] = order_[place - 1];
      order_[place] = member;
    }
  }

  /// As weighted_quantile has them, for `shares` in rising order.
  template <std::size_t count>
  std::array<double, count> at(const std::array<double, count>& shares) const {
    std::array<double, count> found{};
    found.fill(values_[order_.back()]);
    double cumulated = 0;
    std::size_t next = 0;
    for (const std::size_t member : order_) {
      cumulated += weights_[member];
      for (; next < count && cumulated >= shares.at(next) * total_; ++next) found.at(next) = values_[member];
    }
    return found;
  }

 private:
  std::span<const double> weights_;
  double total_;
  std::vector<std::size_t> order_;
  std::vector<double> values_;
};

}  // namespace

std::size_t hour_after(const Season& season, LocalDay day) {
  return season.index_of(season.clock.begin_of(day + std::chrono::days(1)));
}

std::vector<std::size_t> hours_and_marks(std::size_t from, std::size_t to,
                                         std::span<const std::size_t> marks) {
  std::vector<std::size_t> hours;
  for (std::size_t hour = from; from < to && hour <= to; ++hour) hours.push_back(hour);
  hours.insert(hours.end(), marks.begin(), marks.end());
  std::ranges::sort(hours);
  hours.erase(std::unique(hours.begin(), hours.end()), hours.end());
  return hours;
}

SinceHours hours_of_union(const GraftRun& run, std::span<const double> weights,
                          std::span<const UnionStates> states) {
  const Season& season = run.season();
  const std::size_t end = run.begin() + states.size() - 1;
  const auto& air_c = season.outlook.weather[Variable::air_temperature].value;
  SinceHours hours;
  hours.start = season.hour(run.begin());
  hours.air_c.assign(air_c.begin() + static_cast<std::ptrdiff_t>(run.begin()),
                     air_c.begin() + static_cast<std::ptrdiff_t>(end));
  hours.tissue_c = run.tissue_c(run.as_it_is(), run.begin(), end);
  MemberOrder by_water(weights), by_healing(weights);
  for (const UnionStates& then : states.subspan(1)) {
    by_water.sort(then.water);
    by_healing.sort(then.healing);
    const auto [low, middle, high] = by_water.at(std::array{0.1, 0.5, 0.9});
    hours.water_low.push_back(low);
    hours.water.push_back(middle);
    hours.water_high.push_back(high);
    hours.healing.push_back(by_healing.at(std::array{0.5}).front());
  }
  return hours;
}

}  // namespace graftcast
