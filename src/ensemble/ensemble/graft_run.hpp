#pragma once
// One graft carried through the season: from grafting to now, and from now on under any setting.

#include <map>
#include <memory>
#include <optional>
#include <span>
#include <tuple>
#include <vector>

#include "ensemble/season.hpp"
#include "ensemble/survival.hpp"
#include "plant/flags.hpp"

namespace graftcast {

struct NoteEvidence;

/// A way to treat the graft: its settings in order of time, and the stock's water through all hours of the
/// series.
struct Treatment {
  std::vector<Setting> settings;
  std::vector<double> stock_stress;
};

/// The graft as the weather and the notes leave it at this moment.
struct UnionNow {
  UnionStates states;
  std::vector<double> weights;   ///< Of the members, after what was seen; sum 1.
  std::vector<double> survival;  ///< Of each member, from grafting to now and without the notes.
  /// Of the members, for what concerns the graft's own life: summed over members with their survival at any
  /// hour from now on they give the chance that an open graft is alive then, given the notes.
  std::vector<double> alive_weights;
  bool contradicted = false;  ///< What was seen is all but impossible for every member.
  double alive() const;       ///< Chance that an open graft lives now.
  int redrawn = 0;            ///< How often the members were drawn anew to fit what was seen.
};

class GraftRun {
 public:
  /// `recorded`: a union of the ledger, whose run begins at this moment at the latest. `when_made`: one that
  /// may yet be made; it begins ahead, and has no `to_now`.
  enum class Start { recorded, when_made };
  GraftRun(const Season& season, GraftCase graft, Start start = Start::recorded);

  const GraftCase& graft() const { return graft_; }
  const Season& season() const { return season_; }
  const SurvivalLimits& limits() const { return limits_; }
  const StageLimits& stages() const { return stages_; }
  /// First hour of the union, as index into the season's series.
  std::size_t begin() const { return begin_; }

  /// The graft as it stands, with the waterings noted (or assumed).
  const Treatment& as_it_is() const { return as_it_is_; }
  /// From `when` on under `setting`, else as it is; optionally watered to capacity then. From `undone`
  /// (later than `when`) on it stands again as it stood last.
  Treatment changed(Instant when, const Setting& setting, bool watered,
                    std::optional<Instant> undone = {}) const;
  /// Under `settings` from grafting on, and watered to capacity at the moments of `more` as well.
  Treatment treated(std::vector<Setting> settings, std::span<const Instant> more) const;

  /// Members as they are made.
  UnionStates fresh() const;
  /// From grafting to now; `marks` as in run_union. Where few members fit what was seen they are drawn anew
  /// (see NoteTempering) and all runs from then on are of those.
  UnionNow to_now(std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks);
  /// Runs `states` from hour `from` to hour `to` under `treatment`.
  void run(const Treatment& treatment, std::size_t from, std::size_t to, UnionStates& states,
           std::span<const std::size_t> marks, std::vector<UnionStates>& at_marks) const;

  /// What a local day (whole or cut) was like for it, from the states at its beginning and end.
  UnionDay day(const Treatment& treatment, const DaySpan& span, const UnionStates& before,
               const UnionStates& after, std::span<const double> weights) const;
  /// Tissue temperature [degC] of each hour of [from, to), the mean over courses of weather or sides of a
  /// bud.
  std::vector<double> tissue_c(const Treatment& treatment, std::size_t from, std::size_t to) const;
  /// Stock waterlogged as of now (pots only).
  bool waterlogged() const { return waterlogged_; }
  double stock_depletion_now() const { return depletion_now_; }

 private:
  const UnionMembers& members(const Setting& setting) const;
  /// Stretches of a run, with a share in the climates that they point to.
  struct Stretches {
    std::vector<Stretch> in_order;
    std::vector<std::shared_ptr<const ScionClimate>> held;
  };
  Stretches stretches(const Treatment& treatment, std::size_t from, std::size_t to) const;
  StockWater stock_of(const std::vector<Setting>& settings, std::span<const Watering> waterings) const;
  /// One life of all members from grafting to now.
  struct Life {
    UnionStates states;
    std::vector<UnionStates> at_marks, at_observations;
  };
  Life live(std::span<const std::size_t> marks) const;
  std::vector<std::size_t> observation_hours() const;
  NoteEvidence evidence(const Life& life) const;
  bool last_seen_alive() const;
  void draw_anew(std::span<const std::size_t> ancestors, std::span<const double> weights, int round);

  const Season& season_;
  GraftCase graft_;
  SurvivalLimits limits_;
  StageLimits stages_;
  std::size_t begin_;
  double heat_factor_;
  bool warm_species_;
  bool waterlogged_ = false;
  double depletion_now_ = 0;
  Treatment as_it_is_;
  std::shared_ptr<const MemberQuantiles> own_quantiles_;  ///< Where notes called for members of its own.
  mutable std::map<std::tuple<std::string, bool, bool>, UnionMembers> members_;
};

}  // namespace graftcast
