// What is due as JSON.

#include "json_parts.hpp"
#include "report/calendar_report.hpp"
#include "report/json_report.hpp"

namespace graftcast {

namespace {

Json range_json(const DateBand& band) {
  if (!band.median) return nullptr;
  return {{"median", day_json(band.median)}, {"p10", day_json(band.p10)}, {"p90", day_json(band.p90)}};
}

Json event_json(const CalendarEvent& event) {
  return {{"uid", event.uid},
          {"kind", event.kind},
          {"graft", event.graft},
          {"title", event.title},
          {"description", event.description},
          {"spot", text_or_null(event.spot)},
          {"day", day_json(event.day)},
          {"range", range_json(event.band)},
          {"from", time_json(event.from)},
          {"to", time_json(event.to)},
          {"alarm", time_json(event.alarm)},
          {"withdrawn", event.withdrawn}};
}

}  // namespace

Json calendar_json(const std::vector<CalendarEvent>& events, const std::string& file,
                   const ReportBasis& basis) {
  Json list = Json::array();
  for (const CalendarEvent& event : events) list.push_back(event_json(event));
  Json json = basis_json(basis);
  json["file"] = text_or_null(file);
  json["events"] = std::move(list);
  return json;
}

}  // namespace graftcast
