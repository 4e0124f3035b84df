#pragma once
// What every service's reader does last (private to the layer).

#include "note_book.hpp"
#include "weather/forecast_services.hpp"

namespace graftcast {

/// Names the readings of `answer` and its members and gives them the credit, and the time it was received
/// where they tell no time of making. Errors: DataError when there is no value, when it is of
/// years without weather or was made a day after it came, or when the answer spans more
/// time than a forecast (60 days) or an archive (150 years) can: its hours would have to be held in memory.
void finish_answer(ServiceAnswer& answer, Service service, const AnswerOrigin& origin, NoteBook& notes);

}  // namespace graftcast
