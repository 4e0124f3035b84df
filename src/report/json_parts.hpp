#pragma once
// Small values of JSON that several answers share (private to the layer).

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json.hpp>

#include "graftcast/day_flag.hpp"
#include "graftcast/graft_card.hpp"
#include "report/report_basis.hpp"

namespace graftcast {

using Json = nlohmann::ordered_json;

/// `value` to `decimals`; null where it is not known.
Json number(double value, int decimals);
Json number(const std::optional<double>& value, int decimals);

Json time_json(const std::optional<Instant>& instant);
Json day_json(const std::optional<LocalDay>& day);
Json flags_json(const DayFlags& flags);
/// Of `card` those of `id`, `scion`, `rootstock`, `species`, `method` (also as `graft_method`), `spot`,
/// `count`, `priority` and `grafted_on` that are named, in the order given.
Json card_json(const GraftCard& card, std::initializer_list<const char*> members);
/// null for an empty text.
Json text_or_null(std::string_view text);

/// Collects which grafts have null for which member, so that one warning a member says why.
class Unknowns {
 public:
  void note(std::string_view member, const std::string& id);
  /// A warning a member noted: `degree_days is null for G1, G3: REASON`.
  void warn(ReportBasis& basis, std::string_view member, std::string_view reason) const;

 private:
  std::vector<std::pair<std::string, std::vector<std::string>>> ids_;
};

}  // namespace graftcast
