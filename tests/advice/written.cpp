#include "advice/written.hpp"

#include <iomanip>
#include <sstream>

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
  void put(DayFlag flag) { text_ << day_flag_name(flag) << ' '; }
  void put(Stage stage) { text_ << stage_name(stage) << ' '; }
  void put(Urgency urgency) { text_ << urgency_name(urgency) << ' '; }
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
  void put(const ActionOutcome& a) {
    (*this)(a.action, a.text, a.p_after, a.saved, a.needs, a.minutes, a.excluded);
  }
  void put(const ComingDay& d) { (*this)(d.day, d.flags, d.tissue_max_c, d.air_max_c, d.net_loss); }
  void put(const SinceDay& d) {
    (*this)(d.day, d.ahead, d.degree_days, d.cumulative, d.healing, d.healing_low, d.healing_high, d.water,
            d.water_low, d.water_high, d.tissue_max_c, d.air_max_c, d.flags);
  }

  std::ostringstream text_;
};

void write(const GraftMorning& g, Writer& out) {
  out(g.id, g.scion, g.rootstock, g.species, g.method, g.spot, g.count, g.grafted_on, g.age_days, g.stage,
      g.healing, g.degree_days, g.water_now, g.water_low_7d, g.tissue_max_c_7d, g.air_max_c_7d,
      g.vpd_max_kpa_7d, g.heat_days, g.drying_days, g.cold_days, g.coming, g.risk, g.horizon_days,
      g.risk_until_drinking, g.cause, g.urgency, g.act_by, g.actions, g.advice.action, g.advice.text,
      g.advice.temporary, g.advice.undo_from, g.priority, g.alive, g.reasons, g.assumed, g.contradicted);
}

void write(const GraftSince& g, Writer& out) {
  out(g.id, g.scion, g.species, g.method, g.spot, g.count, g.grafted_on, g.age_days, g.degree_days,
      g.rule.base_c, g.rule.upper_c, g.method_word, g.cutoff_word, g.healing, g.stage, g.bagged, g.bridged_on,
      g.drinking_from, g.vent_bag_from, g.slit_wrap_from, g.buds_expected, g.alive, g.still_to_take,
      g.overdue, g.verdict, g.verdict_text, g.days);
  for (const CareTask& t : g.aftercare) out(t.id, t.task, t.text, t.due, t.why, t.done);
  if (g.worth) out(g.worth->value_wait, g.worth->value_look, g.worth->value_regraft, g.worth->new_take);
}

template <class Report>
std::string written_report(const Report& report) {
  Writer out;
  for (const auto& graft : report.grafts) write(graft, out);
  out(report.warnings, report.cautions);
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
