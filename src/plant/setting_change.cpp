#include "setting_change.hpp"

#include <algorithm>
#include <array>

#include "plant/cover_parts.hpp"

namespace graftcast {

namespace {

constexpr const char* usual_bag = "clear-bag";

/// What a line is set against.
struct LineOfCase {
  const DiaryLine& line;
  const GraftCase& graft;
  const Models& models;
};

using Change = void (*)(Setting&, const LineOfCase&);

/// Does something to the bag that is on.
void do_over(Setting& s, CoverParts::Over over, const Models& models) {
  CoverParts parts = parts_of_cover(s.cover, models);
  parts.over = over;
  s.cover = cover_name(parts);
}
void undo_over(Setting& s, CoverParts::Over over, const Models& models) {
  if (parts_of_cover(s.cover, models).over == over) do_over(s, CoverParts::Over::nothing, models);
}

void bag_on(Setting& s, const LineOfCase& of) {
  s.cover = of.line.value.empty() ? cover_name({usual_bag}) : of.line.value;
}
void bag_off(Setting& s, const LineOfCase&) {
  s.cover = cover_name({});
}
/// What is vented is a bag, noted or not.
void vent(Setting& s, const LineOfCase& of) {
  if (parts_of_cover(s.cover, of.models).bag.empty()) s.cover = cover_name({usual_bag});
  do_over(s, CoverParts::Over::vent, of.models);
}
void paper_on(Setting& s, const LineOfCase& of) {
  do_over(s, CoverParts::Over::paper, of.models);
}
void paper_off(Setting& s, const LineOfCase& of) {
  undo_over(s, CoverParts::Over::paper, of.models);
}
void foil_on(Setting& s, const LineOfCase& of) {
  do_over(s, CoverParts::Over::foil, of.models);
}
void foil_off(Setting& s, const LineOfCase& of) {
  undo_over(s, CoverParts::Over::foil, of.models);
}
void shade(Setting& s, const LineOfCase& of) {
  s.shade = of.line.number().value_or(s.shade);
}
void wrap_on(Setting& s, const LineOfCase& of) {
  const std::string& usual = of.graft.method->usual_wrap;
  put_wrap_on(s, of.line.value.empty() ? usual : of.line.value, of.graft.organ, of.models);
}
/// By the time a wrap is slit or taken off the cut edges have healed over.
void wrap_open(Setting& s, const LineOfCase&) {
  s.wrap = "none";
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
