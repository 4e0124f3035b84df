// The events of diary.csv.

#include <algorithm>
#include <array>

#include "records/diary.hpp"

namespace graftcast {

namespace {

constexpr bool done = false, seen = true;
constexpr bool of_graft = false, of_stock = true;

constexpr std::array events{
    DiaryEvent{"bag-on", EventValue::none, done, of_graft},
    DiaryEvent{"bag-off", EventValue::none, done, of_graft},
    DiaryEvent{"bag-vented", EventValue::none, done, of_graft},
    DiaryEvent{"paper-on", EventValue::none, done, of_graft},
    DiaryEvent{"paper-off", EventValue::none, done, of_graft},
    DiaryEvent{"shade", EventValue::share, done, of_graft},
    DiaryEvent{"wrap-slit", EventValue::none, done, of_graft},
    DiaryEvent{"wrap-off", EventValue::none, done, of_graft},
    DiaryEvent{"tip-sealed", EventValue::none, done, of_graft},
    DiaryEvent{"watered", EventValue::litres, done, of_stock},
    DiaryEvent{"moved", EventValue::spot, done, of_graft},
    DiaryEvent{"headed-back", EventValue::none, done, of_stock},
    DiaryEvent{"suckers-rubbed", EventValue::none, done, of_stock},
    DiaryEvent{"staked", EventValue::none, done, of_graft},
    DiaryEvent{"thinned", EventValue::none, done, of_graft},
    DiaryEvent{"green", EventValue::count, seen, of_graft},
    DiaryEvent{"callus", EventValue::count, seen, of_graft},
    DiaryEvent{"slips", EventValue::count, seen, of_stock},
    DiaryEvent{"bleeding", EventValue::count, seen, of_stock},
    DiaryEvent{"flushing", EventValue::count, seen, of_stock},
    DiaryEvent{"buds-moving", EventValue::count, seen, of_graft},
    DiaryEvent{"leafed-out", EventValue::count, seen, of_graft},
    DiaryEvent{"wilted", EventValue::count, seen, of_graft},
    DiaryEvent{"shrivelled", EventValue::count, seen, of_graft},
    DiaryEvent{"blackened", EventValue::count, seen, of_graft},
    DiaryEvent{"mould", EventValue::count, seen, of_graft},
    DiaryEvent{"dead", EventValue::count, seen, of_graft},
    DiaryEvent{"taken", EventValue::count, seen, of_graft},
    DiaryEvent{"void", EventValue::stamp, done, of_stock},
    DiaryEvent{"split", EventValue::child, done, of_graft},
};

}  // namespace

std::span<const DiaryEvent> diary_events() {
  return events;
}

const DiaryEvent* find_diary_event(std::string_view name) {
  const auto* found =
      std::find_if(events.begin(), events.end(), [&](const DiaryEvent& event) { return event.name == name; });
  return found == events.end() ? nullptr : found;
}

}  // namespace graftcast
