#include "json_parts.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace graftcast {

Json number(double value, int decimals) {
  if (!std::isfinite(value)) return nullptr;
  const double scale = std::pow(10.0, decimals);
  return std::round(value * scale) / scale + 0.0;  // No negative zero.
}

Json number(const std::optional<double>& value, int decimals) {
  return value ? number(*value, decimals) : Json(nullptr);
}

Json time_json(const std::optional<Instant>& instant) {
  return instant ? Json(utc_text(*instant)) : Json(nullptr);
}

Json day_json(const std::optional<LocalDay>& day) {
  return day ? Json(day_text(*day)) : Json(nullptr);
}

Json flags_json(const DayFlags& flags) {
  Json names = Json::array();
  for (const DayFlag flag : flags) names.push_back(day_flag_name(flag));
  return names;
}

Json card_json(const GraftCard& card, std::initializer_list<const char*> members) {
  const Json all{{"id", card.id},
                 {"scion", text_or_null(card.scion)},
                 {"rootstock", text_or_null(card.stock)},
                 {"species", card.species},
                 {"method", card.method},
                 {"graft_method", card.method},
                 {"spot", text_or_null(card.spot)},
                 {"count", card.count},
                 {"priority", number(card.priority, 4)},
                 {"grafted_on", day_text(card.grafted_on)}};
  Json json = Json::object();
  for (const char* member : members) json[member] = all.at(member);
  return json;
}

Json text_or_null(std::string_view text) {
  return text.empty() ? Json(nullptr) : Json(text);
}

void Unknowns::note(std::string_view member, const std::string& id) {
  auto found = std::ranges::find(ids_, member, [](const auto& item) { return std::string_view(item.first); });
  if (found == ids_.end()) found = ids_.insert(ids_.end(), {std::string(member), {}});
  if (found->second.empty() || found->second.back() != id) found->second.push_back(id);
}

void Unknowns::warn(ReportBasis& basis, std::string_view member, std::string_view reason) const {
  const auto found =
      std::ranges::find(ids_, member, [](const auto& item) { return std::string_view(item.first); });
  if (found == ids_.end()) return;
  constexpr std::size_t most = 8;
  const auto& ids = found->second;
  const std::vector<std::string> shown(ids.begin(),
                                       ids.begin() + static_cast<long>(std::min(most, ids.size())));
  const std::string more = ids.size() > most ? fmt::format(" and {} more", ids.size() - most) : "";
  basis.warnings.push_back(
      fmt::format("{} is null for {}{}: {}", member, fmt::join(shown, ", "), more, reason));
}

}  // namespace graftcast
