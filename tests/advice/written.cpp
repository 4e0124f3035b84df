#include "advice/written.hpp"

#include <iomanip>
#include <sstream>
#include <type_traits>

namespace graftcast::testing {

namespace {

/// Writes values one after another; numbers in hexadecimal, so that no bit is lost.
class Writer {
 public:
  template <class... Values>
  Writer& operator()(const Values&... values) {
    (put(values), ...);
    text_ << '\n';
    return *this;
  }
  std::string text() const { return text_.str(); }

 private:
  void put(double value) { text_ << std::hexfloat << value << ' '; }
  void put(int value) { text_ << value << ' '; }
  void put(bool value) { text_ << (value ? "yes " : "no "); }
  void put(const std::string& value) { text_ << std::quoted(value) << ' '; }
  void put(LocalDay day) { put(day_text(day)); }
  void put(Instant when) { put(utc_text(when)); }
  void put(const Risk& risk) { (*this)(risk.p, risk.low, risk.high, risk.error); }
  void put(const DateBand& band) { (*this)(band.p10, band.median, band.p90); }
  template <class Value>
  void put(const std::optional<Value>& value) {
    if (value) {
      put(*value);
    } else {
      text_ << "- ";
    }
  }
  template <class Value>
  void put(const std::vector<Value>& values) {
    for (const Value& value : values) put(value);
    text_ << "; ";
  }
  void put(const std::map<std::string, int>& counts) {
    for (const auto& [name, count] : counts) text_ << name << ' ' << count << ' ';
  }
  template <class Fact>
  requires std::is_empty_v<Fact>
  void put(const Fact&) {}
  template <class Enum>
  requires std::is_enum_v<Enum>
  void put(Enum value) { put(static_cast<int>(value)); }
  template <class... Facts>
  void put(const std::variant<Facts...>& facts) {
    put(static_cast<int>(facts.index()));
    std::visit([&](const auto& fact) { put(fact); }, facts);
  }
  void put(const LikelyLost& r) { put(r.alive); }
  void put(const HeatAhead& r) { (*this)(r.tissue_c, r.air_c, r.day, r.cover); }
  void put(const DryingAhead& r) { (*this)(r.water_now, r.water_low, r.lost_water, r.day); }
  void put(const ColdAhead& r) { (*this)(r.tissue_c, r.day); }
  void put(const GustsAhead& r) { (*this)(r.gust_m_s, r.day); }
  void put(const PotIsDry& r) { put(r.water); }
  void put(const CellsAssumed& r) { put(r.columns); }
  void put(const GraftWindow& w) { (*this)(w.open, w.closes, w.opens); }
  void put(const NotedDead& g) { put(g.season); }
  void put(const Shrivelled& g) { (*this)(g.shrivelled, g.open, g.season); }
  void put(const LookIsOverdue& g) { put(g.way); }
  void put(const LookPays& g) { (*this)(g.shows_lost, g.way); }
  void put(const NotedTaken& g) { (*this)(g.taken, g.of); }
  void put(const ScratchedGreen& g) { put(g.day); }
  void put(const WeatherUnknown& n) { (*this)(n.from, n.to, n.filled_by); }
  void put(const MonthsBorrowed& n) {
    for (const std::chrono::month month : n.months) put(static_cast<int>(unsigned{month}));
  }
  void put(const Act& a) { (*this)(act_name(a), a.shade_share, a.is_bagged); }
  void put(const ActOutcome& a) { (*this)(a.act, a.p_after, a.saved, a.needs, a.minutes, a.excluded); }
  void put(const GraftCard& g) {
    (*this)(g.id, g.scion, g.species, g.method, g.stock, g.spot, g.count, g.priority, g.grafted_on);
  }
  void put(const ComingDay& d) { (*this)(d.day, d.flags, d.tissue_max_c, d.air_max_c, d.net_loss); }
  void put(const SinceDay& d) {
    (*this)(d.day, d.ahead, d.degree_days, d.cumulative, d.healing, d.healing_low, d.healing_high, d.water,
            d.water_low, d.water_high, d.tissue_max_c, d.air_max_c, d.flags);
  }

  std::ostringstream text_;
};

void write(const GraftMorning& g, Writer& out) {
  out(static_cast<const GraftCard&>(g), g.age_days, g.stage, g.healing, g.degree_days, g.water_now,
      g.water_low_7d, g.tissue_max_c_7d, g.air_max_c_7d, g.vpd_max_kpa_7d, g.heat_days, g.drying_days,
      g.cold_days, g.coming, g.risk, g.horizon_days, g.risk_until_drinking, g.cause, g.urgency, g.act_by,
      g.acts, g.advice.act, g.advice.temporary, g.advice.undo_from, g.alive, g.reasons, g.assumed,
      g.contradicted);
}

void write(const GraftSince& g, Writer& out) {
  out(static_cast<const GraftCard&>(g), g.age_days, g.degree_days, g.rule.base_c, g.rule.upper_c,
      g.rule.method, g.rule.cutoff, g.healing, g.stage, g.bagged, g.bridged_on, g.drinking_from,
      g.vent_bag_from, g.slit_wrap_from, g.buds_expected, g.alive, g.still_to_take, g.overdue, g.ground,
      g.days);
  for (const CareTask& t : g.aftercare)
    out(t.id, t.work, t.due, t.done, t.at_bud, t.wakes_bud, t.every_days, t.put_off_days, t.put_off_for,
        t.gusts);
  if (g.worth) out(g.worth->value_wait, g.worth->value_look, g.worth->value_regraft, g.worth->new_take);
}

template <class Report>
std::string written_report(const Report& report) {
  Writer out;
  for (const auto& graft : report.grafts) write(graft, out);
  out(report.notices);
  return out.text();
}

}  // namespace

std::string written(const MorningReport& report) {
  return written_report(report);
}
std::string written(const SinceReport& report) {
  return written_report(report);
}

}  // namespace graftcast::testing
