#pragma once
// One graft as the model sees it: the ledger's row, the diary's lines and the models' numbers put together.

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "parameters/models.hpp"
#include "plant/scion_climate.hpp"
#include "records/diary.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"

namespace graftcast {

/// How a graft stands and is covered from an instant on, until the next setting.
struct Setting {
  Instant from{};
  std::string spot;
  std::string cover = "none";
  double shade = 0;
  std::string wrap = "film";
  bool tip_open = false;
  bool edges_open = false;  ///< A chip's cut edges lie bare (never wrapped; healed once a wrap comes off).
  bool full_head = false;   ///< The stock still has its leaves.
  double night_gain_k = 0;  ///< A frost cover's gain.
  std::optional<double> absorptance;  ///< Set by whitewash, else the wrap's.

  /// The same but for the moment from which it holds.
  bool is_like(const Setting& other) const;
};

/// The one of `settings` in force at `when`: the first one before it. At least one; rising by `from`.
const Setting& setting_at(std::span<const Setting> settings, Instant when);

struct Watering {
  Instant when{};
  std::optional<double> litres;  ///< Empty: to capacity.
};

/// Something seen, with the counts that a batch gives.
struct Observation {
  Instant when{};
  Event event{};
  int count = 1;
};

struct GraftCase {
  std::string id;
  const Species* species = nullptr;
  const Method* method = nullptr;
  const ScionState* scion_state = nullptr;
  const std::vector<ColdRow>* cold_rows = nullptr;
  Organ organ = Organ::stick;
  Instant grafted{};
  double diameter_m = 0;  ///< Of the stick, or of the stem under a bud.
  double bark_area_m2 = 0;
  double water_store_g = 0;
  int buds = 1;
  double first_water = 1;             ///< Share of the full store when grafted; less where its wood was kept.
  std::optional<double> match_share;  ///< Known share of the cambium that meets.
  bool match_one_side = false;
  std::optional<double> pot_litres;
  int count = 1;
  double priority = 1;

  std::vector<Setting> settings;  ///< In order of time; the first holds from grafting.
  std::vector<Watering> waterings;
  bool watering_assumed = false;  ///< No `watered` line: watered at grafting and weekly is assumed.
  std::vector<Observation> observations;
  std::optional<Instant> bleeding_seen;  ///< When its stock was last seen to bleed.
  std::optional<Instant> staked;         ///< Since when it is tied to a stake.
  int taken = 0, lost = 0, removed = 0;  ///< Outcomes noted so far.
  std::vector<std::string> assumed;      ///< Cells that were empty and matter.

  Shifts shifts;  ///< Learned from the site's own results.

  /// Share that takes when the weather takes none.
  double take_share() const;
  int open_count() const { return std::max(0, count - taken - lost - removed); }
  /// The setting in force at `when` (the first one before grafting).
  const Setting& setting_at(Instant when) const { return graftcast::setting_at(settings, when); }
};

/// Puts a case together from what was known at `as_of` (later diary lines do not count).
/// Errors: DataError where the row names something the models or the site do not have.
GraftCase graft_case(const GraftRow& row, std::span<const DiaryLine> lines, const Site& site,
                     const Clock& clock, const Models& models, Instant as_of);

/// The exposure of a graft under a setting.
Exposure exposure_of(const GraftCase& graft, const Setting& setting, const Site& site, const Models& models);

}  // namespace graftcast
