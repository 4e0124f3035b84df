#include "setting_change.hpp"

#include <algorithm>
#include <array>
#include <string_view>

namespace graftcast {

namespace {

constexpr const char* clear_bag = "clear-bag";
constexpr const char* vented_bag = "vented-bag";
constexpr const char* paper_over_bag = "paper-over-bag";
constexpr const char* foil_over_bag = "foil-over-bag";
constexpr const char* paper_bag = "paper-bag";
constexpr const char* none = "none";

/// What a line is set against.
struct LineOfCase {
  const DiaryLine& line;
  const GraftCase& graft;
  const Models& models;

  bool is_bagged(const Setting& s) const { return cover_optics(models.covers.at(s.cover)).vapour_kept > 0; }
};

using Change = void (*)(Setting&, const LineOfCase&);

void bag_on(Setting& s, const LineOfCase& of) {
  s.cover = of.line.value.empty() ? clear_bag : of.line.value;
}
void bag_off(Setting& s, const LineOfCase&) {
  s.cover = none;
}
void vent(Setting& s, const LineOfCase&) {
  s.cover = vented_bag;
}
void paper_on(Setting& s, const LineOfCase& of) {
  s.cover = of.is_bagged(s) ? paper_over_bag : paper_bag;
}
void paper_off(Setting& s, const LineOfCase&) {
  if (s.cover == paper_bag) s.cover = none;
  if (s.cover == paper_over_bag) s.cover = clear_bag;
}
void foil_on(Setting& s, const LineOfCase& of) {
  if (of.is_bagged(s)) s.cover = foil_over_bag;
}
void foil_off(Setting& s, const LineOfCase&) {
  if (s.cover == foil_over_bag) s.cover = clear_bag;
}
void shade(Setting& s, const LineOfCase& of) {
  s.shade = of.line.number().value_or(s.shade);
}
void wrap_on(Setting& s, const LineOfCase& of) {
  const std::string& usual = of.graft.method->word("usual_wrap");
  put_wrap_on(s, of.line.value.empty() ? usual : of.line.value, of.graft.organ, of.models);
}
/// By the time a wrap is slit or taken off the cut edges have healed over.
void wrap_open(Setting& s, const LineOfCase&) {
  s.wrap = none;
  s.edges_open = false;
}
void seal_tip(Setting& s, const LineOfCase&) {
  s.tip_open = false;
}
void frost_cover_on(Setting& s, const LineOfCase& of) {
  s.night_gain_k = of.models.actions.frost_cover_gain_k;
}
void frost_cover_off(Setting& s, const LineOfCase&) {
  s.night_gain_k = 0;
}
void whitewash_on(Setting& s, const LineOfCase& of) {
  s.absorptance = of.models.climate.whitewash_absorptance;
}
void whitewash_off(Setting& s, const LineOfCase&) {
  s.absorptance.reset();
}
void move(Setting& s, const LineOfCase& of) {
  s.spot = of.line.value;
}
void head_stock(Setting& s, const LineOfCase&) {
  s.full_head = false;
}

struct EffectChange {
  Effect effect;
  Change apply;
};
constexpr std::array changes{EffectChange{Effect::bag_on, bag_on},
                             EffectChange{Effect::bag_off, bag_off},
                             EffectChange{Effect::vent, vent},
                             EffectChange{Effect::paper_on, paper_on},
                             EffectChange{Effect::paper_off, paper_off},
                             EffectChange{Effect::foil_on, foil_on},
                             EffectChange{Effect::foil_off, foil_off},
                             EffectChange{Effect::shade, shade},
                             EffectChange{Effect::wrap_on, wrap_on},
                             EffectChange{Effect::wrap_open, wrap_open},
                             EffectChange{Effect::seal_tip, seal_tip},
                             EffectChange{Effect::frost_cover_on, frost_cover_on},
                             EffectChange{Effect::frost_cover_off, frost_cover_off},
                             EffectChange{Effect::whitewash_on, whitewash_on},
                             EffectChange{Effect::whitewash_off, whitewash_off},
                             EffectChange{Effect::move, move},
                             EffectChange{Effect::head_stock, head_stock}};

}  // namespace

std::optional<Setting> changed_setting(const DiaryLine& line, const GraftCase& graft, const Models& models) {
  const auto change = std::ranges::find(changes, about(line.event).effect, &EffectChange::effect);
  if (change == changes.end()) return std::nullopt;
  Setting next = graft.settings.back();
  next.from = line.when;
  change->apply(next, {line, graft, models});
  return next;
}

void put_wrap_on(Setting& setting, const std::string& name, Organ organ, const Models& models) {
  const Wrap& wrap = models.wraps.at(name);
  setting.wrap = name;
  if (wrap.tip_sealed == TipSeal::yes) setting.tip_open = false;
  setting.edges_open = organ == Organ::bud && !wrap.cut_edges_sealed;
}

}  // namespace graftcast
