// Rows of the ledger and lines of the diary.

#include "json_parts.hpp"
#include "report/json_report.hpp"

namespace graftcast {

namespace {

Json cambium_json(const GraftRow& row) {
  if (row.cambium_match_word) return *row.cambium_match_word;
  return number(row.cambium_match_share, 4);
}

Json cells_json(const GraftRow& row) {
  return {{"scion_state", text_or_null(row.scion_state)},
          {"diameter_mm", number(row.diameter_mm, 3)},
          {"length_mm", number(row.length_mm, 3)},
          {"buds", row.buds ? Json(*row.buds) : Json(nullptr)},
          {"tip", text_or_null(row.tip)},
          {"cambium_match", cambium_json(row)},
          {"spot", text_or_null(row.spot)},
          {"wrap", text_or_null(row.wrap)},
          {"cover", text_or_null(row.cover)},
          {"shade", number(row.shade, 4)},
          {"pot_litres", number(row.pot_litres, 3)},
          {"count", row.count},
          {"priority", number(row.priority, 4)},
          {"grafter", text_or_null(row.grafter)},
          {"comment", text_or_null(row.comment)},
          {"other", Json(row.other)}};
}

}  // namespace

Json graft_json(const GraftRow& row) {
  Json json{{"id", row.id},
            {"grafted_on", day_text(row.grafted_on)},
            {"grafted_at", time_json(row.grafted_at)},
            {"scion", text_or_null(row.scion)},
            {"species", row.species},
            {"method", row.method},
            {"stock", text_or_null(row.stock)},
            {"stock_species", text_or_null(row.stock_species)},
            {"position", text_or_null(row.position)},
            {"replaces", text_or_null(row.replaces)}};
  json.update(cells_json(row));
  return json;
}

Json note_json(const DiaryLine& line) {
  return {{"id", line.id},
          {"when", utc_text(line.when)},
          {"graft", line.graft},
          {"grafts", line.grafts},
          {"event", event_word(line.event)},
          {"value", text_or_null(line.value)},
          {"comment", text_or_null(line.comment)},
          {"by", text_or_null(line.by)},
          {"photo", text_or_null(line.photo)}};
}

}  // namespace graftcast
