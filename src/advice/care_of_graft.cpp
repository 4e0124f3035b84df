#include "care_of_graft.hpp"

#include "hardening.hpp"

namespace graftcast {

namespace {

CareInput care_input(const Season& season, const GraftRow& row, const GraftCase& graft,
                     std::span<const DiaryLine> lines, const CareDates& dates,
                     std::span<const HardeningStep> hardening) {
  return {row,
          graft,
          lines,
          dates,
          hardening,
          season.clock,
          season.models,
          season.site.location.latitude_deg,
          season.clock.day_of(season.settings.as_of)};
}

/// Notes and the calendar alone.
std::vector<CareTask> care_by_date(const Season& season, const GraftRecord& record, const GraftCase& graft) {
  return aftercare(care_input(season, record.row, graft, record.lines, {}, {}));
}

UnionCourse course_to_now(GraftRun& run, UnionNow& now) {
  const Season& season = run.season();
  UnionCourse course;
  course.marks.push_back(run.begin());
  for (const DaySpan& day : season.days)
    if (day.begin > run.begin() && day.begin <= season.now()) course.marks.push_back(day.begin);
  now = run.to_now(course.marks, course.states);
  course.weights = now.weights;
  return course;
}

}  // namespace

std::vector<CareTask> care_tasks(const GraftRun& run, const GraftRow& row, std::span<const DiaryLine> lines,
                                 const UnionNow& now, const UnionCourse& course,
                                 std::span<const UnionDay> coming, std::size_t end) {
  const CareDates dates = care_dates(run, course, row.grafted_on, coming);
  const std::vector<HardeningStep> hardening = hardening_steps(run, now, lines, end);
  return aftercare(care_input(run.season(), row, run.graft(), lines, dates, hardening));
}

std::vector<CareTask> care_of_taken(const Season& season, const GraftRecord& record) {
  GraftCase graft =
      graft_case(record.row, record.lines, season.site, season.clock, season.models, season.settings.as_of);
  const AftercareConstants& care = season.models.aftercare;
  const std::chrono::duration<double, std::ratio<86400>> young{care.suckers_last_days + care.given_up_days};
  if (season.settings.as_of - graft.grafted > young) return care_by_date(season, record, graft);
  GraftRun run(season, std::move(graft));
  UnionNow now;
  const UnionCourse course = course_to_now(run, now);
  return care_tasks(run, record.row, record.lines, now, course, {}, season.horizon());
}

}  // namespace graftcast
