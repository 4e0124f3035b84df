#pragma once
// Is this a week to graft? Grafts that might be made, run ahead like those that have been.

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "graftcast/cause.hpp"
#include "graftcast/notice.hpp"
#include "graftcast/stand_in.hpp"

namespace graftcast {

/// A graft that might be made. Empty words take the method's usual wrap and cover, and the open.
struct WhenAsk {
  std::string species, method, wrap, cover, spot;
  double shade = 0;  ///< Share of the sun that a cloth keeps off it, 0..0.95.
  std::optional<double> pot_litres;
};

/// One morning on which it might be made.
struct WhenDay {
  LocalDay day{};
  double take = 0, low = 0,
         high = 0;  ///< Chance of take, 0..1, plain failure included; 10 % and 90 % over members.
  std::optional<double> bridge_days;  ///< Median days to the callus bridge; absent beyond the run.
  std::optional<Cause> limiting;      ///< What takes most; absent: nothing much.
  std::optional<LocalDay> worst_day;  ///< The day that takes most, where weather takes anything to speak of.
  StandIn source = StandIn::none;     ///< The weakest that its first week is known from; none: a forecast.
};

/// One way to make it, over the days ahead.
struct WhenCandidate {
  WhenAsk graft;
  bool is_covered = false;                  ///< A cover or shade beyond the method's usual one.
  bool needs_slip = false;                  ///< The method lifts the bark from the wood.
  std::optional<bool> bark_slips_now;       ///< Only for methods that need it; absent where it is not known.
  std::optional<LocalDay> bark_slips_from;  ///< First morning ahead on which it slips.
  std::vector<WhenDay> days;
  std::optional<std::size_t> best;  ///< Of `days`; absent where the bark never slips.
};

enum class WhenVerdict : std::uint8_t { graft, graft_with_cover, wait };
/// The code in JSON: `graft`, `graft with cover`, `wait`.
std::string_view when_verdict_name(WhenVerdict verdict);

/// What a verdict rests on: `graft` for the first kind, `graft with cover` for the second, then `wait`.
/// Chances of take, 0..1.
struct TakesThisWeek {
  double take = 0;  ///< With the usual aftercare.
};
struct TakesUnderCover {
  double take = 0;       ///< With paper over a bag and shade ...
  double uncovered = 0;  ///< ... and without.
};
/// Its stock was seen bleeding.
struct StockBleeds {
  LocalDay seen{};
};
/// The bark does not slip within the fortnight.
struct BarkIsTight {};
struct BetterLater {
  double now = 0;    ///< At best this week ...
  double later = 0;  ///< ... and at best in the fortnight.
  LocalDay from{};   ///< The morning on which that begins.
};
/// No morning of the fortnight is good.
struct NoGoodDay {
  double best = 0;
};
using WhenGround =
    std::variant<TakesThisWeek, TakesUnderCover, StockBleeds, BarkIsTight, BetterLater, NoGoodDay>;
WhenVerdict verdict_of(const WhenGround& ground);

/// The answer for one species and method.
struct WhenAnswer {
  WhenCandidate usual;
  std::optional<WhenCandidate>
      covered;  ///< With paper over a bag and the owner's shade, where that is not usual.
  WhenGround ground;

  WhenVerdict verdict() const { return verdict_of(ground); }
};

struct WhenReport {
  std::vector<WhenAnswer> answers;  ///< The best chance in the coming week first.
  std::vector<Notice> notices;
};

/// How many days ahead are tried, and how many more each graft is followed.
inline constexpr int when_days = 14;
inline constexpr int when_follow_days = 75;

}  // namespace graftcast
