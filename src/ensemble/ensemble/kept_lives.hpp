#pragma once
// Lives of unions up to an hour that is past and measured, kept from one answer to the next, so that the next
// morning works out the new hours only. An answer is the same with them and without.

#include <array>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

#include "ensemble/ensemble.hpp"
#include "weather/hourly_weather.hpp"

namespace graftcast {

/// Mixed from everything that a life depends on; equal keys mean equal lives.
using LifeKey = std::array<std::uint64_t, 2>;

/// What is told of a union at the beginning of a day, in single precision.
inline constexpr std::array course_fields{&UnionState<Pack>::healing, &UnionState<Pack>::water,
                                          &UnionState<Pack>::bud_clock, &UnionState<Pack>::leaf_share};

/// One union's life from `begin` to `end`.
struct KeptLife {
  LifeKey key{};
  Hour begin{}, end{};
  UnionStates states;              ///< At the end.
  std::vector<Hour> marks;         ///< In order; the last one is the end.
  std::vector<float> course;       ///< Per mark the course_fields of every member.
  std::vector<Hour> observations;  ///< When it was looked at before the end.
  std::vector<UnionStates> at_observations;
};

/// Lives by graft id. Thread-safe.
class KeptLives {
 public:
  std::shared_ptr<const KeptLife> find(const std::string& id) const;
  void keep(const std::string& id, KeptLife life);

  /// Hours times members that were worked out since reading.
  void count_worked_out(std::size_t member_hours);
  std::size_t member_hours_worked_out() const;

  /// All lives that were found or kept since reading, as one block with a sum over it.
  std::string bytes() const;
  /// Takes in what bytes() gave. False, and nothing is taken in, where `bytes` is anything else.
  bool take_in(std::string_view bytes);

 private:
  struct Held {
    std::shared_ptr<const KeptLife> life;
    mutable bool is_asked_for = false;
  };
  mutable std::mutex mutex_;
  std::map<std::string, Held> lives_;
  std::size_t member_hours_worked_out_ = 0;
};

}  // namespace graftcast
