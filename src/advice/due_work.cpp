// What is due from a morning's list and the dates since grafting.

#include <algorithm>
#include <cmath>
#include <map>

#include "advice/work_calendar.hpp"
#include "card_of.hpp"
#include "cool_hours.hpp"

namespace graftcast {

namespace {

constexpr std::chrono::minutes shortest_work{15};

/// Rows of one graft in the answers that it stands in; `morning` and `dates` may be absent.
struct GraftAnswers {
  const GraftRecord& record;
  const GraftMorning* morning;
  const GraftSince* dates;
};

bool is_wrapped(const GraftRecord& record) {
  const bool put_on = record.row.wrap != "none" || last_standing(record.lines, {Event::wrap_on}) != nullptr;
  return put_on && last_standing(record.lines, {Event::wrap_slit, Event::wrap_off}) == nullptr;
}

/// Neither open nor taken: dead, or taken away.
bool is_gone(const GraftRecord& record, Instant as_of) {
  const Outcome outcome = outcome_of(record.row, record.lines, as_of);
  return outcome.open + outcome.taken == 0;
}

/// The last cool hour before `when`; `as_of` where that has gone by.
Instant told_at(Instant when, const Clock& clock, Instant as_of) {
  const LocalDay day = clock.day_of(when);
  Instant told = as_of;
  for (const LocalDay candidate : {day - std::chrono::days(1), day}) {
    for (const int hour : cool_hours_local) {
      const Instant cool =
          clock.resolve(std::chrono::local_seconds(candidate) + std::chrono::hours(hour)).instant;
      if (cool < when) told = std::max(told, cool);
    }
  }
  return told;
}

DueWork work_of(DueKind kind, const GraftRecord& record) {
  DueWork due;
  static_cast<GraftCard&>(due) = card_of(record.row);
  due.kind = kind;
  return due;
}

std::chrono::minutes length_of(const GraftMorning& graft) {
  const ActOutcome* act = graft.advised();
  if (act == nullptr) return shortest_work;
  const double minutes = act->minutes * graft.count;
  return std::max(shortest_work, std::chrono::minutes(std::lround(minutes)));
}

class DueOfGraft {
 public:
  DueOfGraft(const GraftAnswers& answers, const Clock& clock, Instant as_of, std::vector<DueWork>& works)
      : answers_(answers), clock_(clock), as_of_(as_of), today_(clock.day_of(as_of)), works_(works) {}

  void add() {
    if (answers_.morning != nullptr) add_acts(*answers_.morning);
    if (answers_.dates == nullptr || answers_.dates->verdict() == Verdict::regraft) return;
    if (is_gone(answers_.record, as_of_)) return;
    add_releases(*answers_.dates);
    add_check(*answers_.dates);
  }

 private:
  void add_acts(const GraftMorning& graft) {
    if (graft.advice.act.is_none() || graft.advice.act.kind == ActKind::look || !graft.act_by) return;
    DueWork act = work_of(DueKind::act, answers_.record);
    act.act = graft.advice.act;
    act.to = std::max(*graft.act_by, as_of_ + shortest_work);
    act.from = std::max(as_of_, *act.to - length_of(graft));
    act.alarm = told_at(*act.from, clock_, as_of_);
    if (!graft.reasons.empty()) act.reason = graft.reasons.front();
    act.p = graft.risk.p;
    if (const ActOutcome* outcome = graft.advised()) act.p_after = outcome->p_after;
    works_.push_back(act);
    if (graft.advice.temporary && graft.advice.undo_from) add_undo(graft, act);
  }

  void add_undo(const GraftMorning& graft, const DueWork& act) {
    DueWork undo = work_of(DueKind::undo, answers_.record);
    undo.act = graft.advice.act;
    undo.from = std::max(*graft.advice.undo_from, *act.to);
    undo.to = *undo.from + length_of(graft);
    undo.alarm = undo.from;
    works_.push_back(std::move(undo));
  }

  void add_releases(const GraftSince& graft) {
    const GraftRecord& record = answers_.record;
    if (graft.bagged) add_dated(DueKind::vent_bag, graft.vent_bag_from, true);
    if (is_wrapped(record)) add_dated(DueKind::slit_wrap, graft.slit_wrap_from, true);
    if (!moved()) add_dated(DueKind::buds_expected, graft.buds_expected, false);
  }

  bool moved() const {
    return std::ranges::any_of(answers_.record.lines, [](const DiaryLine& line) {
      return about(line.event).evidence == Evidence::growth;
    });
  }

  void add_dated(DueKind kind, const DateBand& band, bool stays_due) {
    if (!band.median || (*band.median < today_ && !stays_due)) return;
    DueWork due = work_of(kind, answers_.record);
    due.past_due = *band.median < today_;
    due.day = std::max(*band.median, today_);
    due.band = band;
    works_.push_back(std::move(due));
  }

  void add_check(const GraftSince& graft) {
    const bool look = answers_.morning != nullptr && answers_.morning->advice.act.kind == ActKind::look;
    const bool now = look || graft.verdict() == Verdict::check;
    if (!now && (moved() || !graft.buds_expected.p90)) return;
    DueWork due = work_of(DueKind::check, answers_.record);
    if (look) {
      due.act = answers_.morning->advice.act;
    } else if (now) {
      due.ground = graft.ground;
    }
    due.day = now ? today_ : std::max(today_, *graft.buds_expected.p90 + std::chrono::days(1));
    if (!now) due.band = graft.buds_expected;
    works_.push_back(std::move(due));
  }

  const GraftAnswers& answers_;
  const Clock& clock_;
  Instant as_of_;
  LocalDay today_;
  std::vector<DueWork>& works_;
};

template <typename Graft>
const std::string& id_of(const Graft& graft) {
  if constexpr (requires { graft.row.id; }) {
    return graft.row.id;
  } else {
    return graft.id;
  }
}

template <typename Graft>
using ById = std::map<std::string_view, const Graft*>;

template <typename Graft>
ById<Graft> by_id(const std::vector<Graft>& grafts) {
  ById<Graft> found;
  for (const Graft& graft : grafts) found.emplace(id_of(graft), &graft);
  return found;
}

template <typename Graft>
const Graft* at(const ById<Graft>& grafts, std::string_view id) {
  const auto found = grafts.find(id);
  return found == grafts.end() ? nullptr : found->second;
}

/// Ids of the morning's list, then those that only the dates know.
std::vector<std::string_view> ids_of(const MorningReport& report, const SinceReport& dates,
                                     const ById<GraftMorning>& listed) {
  std::vector<std::string_view> ids;
  for (const GraftMorning& graft : report.grafts) ids.push_back(graft.id);
  for (const GraftSince& graft : dates.grafts)
    if (!listed.contains(graft.id)) ids.push_back(graft.id);
  return ids;
}

}  // namespace

std::vector<DueWork> due_work(const MorningReport& report, const SinceReport& dates,
                              const std::vector<GraftRecord>& records, const Clock& clock, Instant as_of) {
  const ById<GraftMorning> listed = by_id(report.grafts);
  const ById<GraftSince> dated = by_id(dates.grafts);
  const ById<GraftRecord> recorded = by_id(records);
  std::vector<DueWork> works;
  for (const std::string_view id : ids_of(report, dates, listed)) {
    const GraftRecord* record = at(recorded, id);
    if (record == nullptr) continue;
    const GraftAnswers answers{*record, at(listed, id), at(dated, id)};
    DueOfGraft(answers, clock, as_of, works).add();
  }
  return works;
}

}  // namespace graftcast
