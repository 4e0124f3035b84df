#include "why_signs.hpp"

#include <algorithm>
#include <array>

namespace graftcast {

namespace {

/// From what the hand left undone to what the sky did: of causes alike, the first is named.
constexpr std::array<std::string_view, 11> nearest_to_the_hand{
    "missing_cover", "cover_sun", "dry_stock", "early_push", "match",      "slow_callus",
    "wind",          "dry_air",   "heat",      "cold",       "not_weather"};

std::size_t distance_from_the_hand(const CauseShare& cause) {
  return static_cast<std::size_t>(std::ranges::find(nearest_to_the_hand, cause.cause) -
                                  nearest_to_the_hand.begin());
}

bool speaks_only_of_losses(Event event) {
  return event == Event::callus || event == Event::buds_moving;
}

/// How often the event is seen after each cause; null where it tells nothing.
const SignChances* sign_of(Event event, const Models& models) {
  return models.sign_of(event_word(event));
}

double likelihood_of(const std::vector<SeenSign>& signs, const std::string& cause, const Models& models) {
  double product = 1;
  for (const SeenSign& sign : signs) product *= sign_of(sign.event, models)->given(cause);
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

void weigh_causes(std::vector<CauseShare>& causes, const std::vector<SeenSign>& signs, const Models& models) {
  double sum = 0;
  for (CauseShare& cause : causes)
    sum += cause.chance = std::max(cause.share, 0.0) * likelihood_of(signs, cause.cause, models);
  if (!(sum > 0)) return;
  for (CauseShare& cause : causes) cause.chance /= sum;
  std::ranges::stable_sort(causes, std::greater{}, &CauseShare::chance);
  const double near = models.why.near_share * causes.front().chance;
  const auto far = std::ranges::find_if(causes, [&](const CauseShare& cause) { return cause.chance < near; });
  const auto first = std::ranges::min_element(causes.begin(), far, {}, distance_from_the_hand);
  std::rotate(causes.begin(), first, first + 1);
}

}  // namespace graftcast
