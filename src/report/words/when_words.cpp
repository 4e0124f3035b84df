#include "words/when_words.hpp"

#include <vector>

#include <fmt/format.h>

#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/date_words.hpp"
#include "words/graft_words.hpp"
#include "words/weather_words.hpp"

namespace graftcast {

namespace {

/// A sentence of one ground; chances in percents.
struct GroundWords {
  std::string operator()(const TakesThisWeek& ground) const {
    return tr("{take:.0f} % take this week with the usual aftercare", "take"_a = 100 * ground.take);
  }
  std::string operator()(const TakesUnderCover& ground) const {
    return tr("{take:.0f} % take this week with paper over a bag and shade, {uncovered:.0f} % without",
              "take"_a = 100 * ground.take, "uncovered"_a = 100 * ground.uncovered);
  }
  std::string operator()(const StockBleeds& ground) const {
    return tr(
        "its stock was seen bleeding on {day}: wait until the leaves are open, or relieve it with a "
        "drain cut below the graft",
        "day"_a = day_words(ground.seen));
  }
  std::string operator()(const BarkIsTight&) const { return tr("the bark does not slip yet"); }
  std::string operator()(const BetterLater& ground) const {
    return tr("{now:.0f} % take this week at best, {later:.0f} % from {day} on", "now"_a = 100 * ground.now,
              "later"_a = 100 * ground.later, "day"_a = day_text(ground.from));
  }
  std::string operator()(const NoGoodDay& ground) const {
    return tr("no day of the coming fortnight gives more than {best:.0f} %", "best"_a = 100 * ground.best);
  }
};

}  // namespace

std::string way_words(const WhenCandidate& candidate) {
  const WhenAsk& graft = candidate.graft;
  std::vector<std::string> parts{kind_words(graft.species, graft.method)};
  if (!graft.wrap.empty()) parts.push_back(tr("wrap {wrap}", "wrap"_a = graft.wrap));
  parts.push_back(graft.cover == "none" ? tr("no cover") : graft.cover);
  if (graft.shade > 0) parts.push_back(tr("{share:.0f} % shade", "share"_a = 100 * graft.shade));
  if (!graft.spot.empty()) parts.push_back(graft.spot);
  return printable(with_commas(parts));
}

std::string bark_words(const WhenCandidate& usual, LocalDay today) {
  if (!usual.needs_slip) return {};
  if (!usual.bark_slips_now)
    return tr(
        "Whether the bark slips is not known, for the log does not reach back to midwinter: try a flap.");
  if (*usual.bark_slips_now) return tr("The bark slips.");
  if (!usual.bark_slips_from) return tr("The bark does not slip within the run.");
  return tr("The bark slips from {day} on.", "day"_a = day_words(*usual.bark_slips_from, today));
}

std::string when_verdict_words(WhenVerdict verdict) {
  switch (verdict) {
    case WhenVerdict::graft:
      return trc("verdict", "graft");
    case WhenVerdict::graft_with_cover:
      return trc("verdict", "graft with cover");
    default:
      return trc("verdict", "wait");
  }
}

std::string when_ground_words(const WhenGround& ground) {
  return std::visit(GroundWords{}, ground);
}

std::string limit_words(const std::optional<Cause>& limiting) {
  if (!limiting) return {};
  switch (*limiting) {
    case Cause::drying:
      return trc("limit of a take", "drying");
    case Cause::heat:
      return trc("limit of a take", "heat");
    case Cause::cold:
      return trc("limit of a take", "cold");
    case Cause::spent_stores:
      return trc("limit of a take", "spent-stores");
    case Cause::slow_callus:
      return trc("limit of a take", "slow-callus");
    default:
      return trc("limit of a take", "bark");
  }
}

std::string bridge_days_words(const WhenDay& day) {
  return day.bridge_days ? fmt::format("{:.0f}", *day.bridge_days) : trc("days to the bridge", "later");
}

std::string source_words(StandIn source) {
  return source == StandIn::monthly_climate ? trc("stand-in for weather", "climate") : stand_in_words(source);
}

}  // namespace graftcast
