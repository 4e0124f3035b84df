#include "why_signs.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

namespace {

/// From what the hand left undone to what the sky did: of those alike, the first is named.
constexpr std::array<Culprit, 11> nearest_to_the_hand{
    Factor::missing_cover, Factor::cover_sun,   Factor::dry_stock, Factor::early_push,
    Factor::match,         Factor::slow_callus, Factor::wind,      Factor::dry_air,
    Factor::heat,          Factor::cold,        not_weather};

std::size_t distance_from_the_hand(const CulpritShare& share) {
  return static_cast<std::size_t>(std::ranges::find(nearest_to_the_hand, share.culprit) -
                                  nearest_to_the_hand.begin());
}

bool speaks_only_of_losses(Event event) {
  return event == Event::callus || event == Event::buds_moving;
}

/// How often the event is seen after each cause; null where it tells nothing.
const SignChances* sign_of(Event event, const Models& models) {
  return models.sign_of(event_word(event));
}

double likelihood_of(const std::vector<SeenSign>& signs, Culprit culprit, const Models& models) {
  const std::string name(culprit_name(culprit));
  double product = 1;
  for (const SeenSign& sign : signs) product *= sign_of(sign.event, models)->given(name);
  return product;
}

}  // namespace

std::vector<SeenSign> seen_signs(const std::vector<DiaryLine>& lines, bool all_lost, const Models& models) {
  std::vector<SeenSign> signs;
  for (const DiaryLine& line : lines) {
    const SignChances* sign = sign_of(line.event, models);
    if (sign == nullptr || line.number() == 0.0) continue;
    if (speaks_only_of_losses(line.event) && !all_lost) continue;
    if (std::ranges::find(signs, line.event, &SeenSign::event) != signs.end()) continue;
    signs.push_back({line.event, sign->title, line.when});
  }
  return signs;
}

void weigh_culprits(std::vector<CulpritShare>& shares, const std::vector<SeenSign>& signs,
                    const Models& models) {
  double sum = 0;
  for (CulpritShare& share : shares)
    sum += share.chance = std::max(share.share, 0.0) * likelihood_of(signs, share.culprit, models);
  if (!(sum > 0)) return;
  for (CulpritShare& share : shares) share.chance /= sum;
  std::ranges::stable_sort(shares, std::greater{}, &CulpritShare::chance);
  const double near = models.why.near_share * shares.front().chance;
  const auto far =
      std::ranges::find_if(shares, [&](const CulpritShare& share) { return share.chance < near; });
  const auto first = std::ranges::min_element(shares.begin(), far, {}, distance_from_the_hand);
  std::rotate(shares.begin(), first, first + 1);
}

}  // namespace graftcast
