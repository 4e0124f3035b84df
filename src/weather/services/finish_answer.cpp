#include "services/finish_answer.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/tr.hpp"
#include "valid_years.hpp"

namespace graftcast {

namespace {

void check_times(const Readings& readings, Service service, const AnswerOrigin& origin) {
  const auto longest = std::chrono::days(service == Service::open_meteo_archive ? 150 * 366 : 60);
  std::optional<Span> all;
  for (const Block& block : readings.blocks) {
    for (const Span& span : block.spans) {
      if (!all) all = span;
      all = Span{std::min(all->begin, span.begin), std::max(all->end, span.end)};
    }
  }
  if (!all) throw DataError({origin.name, 0, 0}, tr("the answer holds no values"));
  if (all->begin < first_valid_instant || all->end > past_valid_instants)
    throw DataError({origin.name, 0, 0},
                    tr("the answer runs from {begin} to {end}, which no service knows of",
                       "begin"_a = utc_text(all->begin), "end"_a = utc_text(all->end)));
  if (all->end - all->begin > longest)
    throw DataError({origin.name, 0, 0},
                    tr("the answer runs from {begin} to {end}, longer than any of this service",
                       "begin"_a = utc_text(all->begin), "end"_a = utc_text(all->end)));
}

void finish_readings(Readings& readings, Service service, const AnswerOrigin& origin) {
  readings.source = origin.name;
  readings.is_forecast = service != Service::open_meteo_archive;
  readings.credit = translated(service_credit(service));
  if (!readings.made_at) readings.made_at = origin.received_at;
  // One from the future would count as the newest for as long.
  if (origin.received_at && *readings.made_at > *origin.received_at + std::chrono::days(1))
    throw DataError({origin.name, 0, 0},
                    tr("the answer was made at {made}, after it came at {received}",
                       "made"_a = utc_text(*readings.made_at), "received"_a = utc_text(*origin.received_at)));
  if (!readings.is_forecast) readings.made_at = std::nullopt;
}

}  // namespace

void finish_answer(ServiceAnswer& answer, Service service, const AnswerOrigin& origin, NoteBook& notes) {
  check_times(answer.readings, service, origin);
  finish_readings(answer.readings, service, origin);
  answer.readings.notes = notes.take();
  for (Readings& member : answer.members) {
    member.made_at = answer.readings.made_at;
    finish_readings(member, service, origin);
  }
}

}  // namespace graftcast
