#pragma once
// Humidity as dew point and back (private to the layer). All take and give NaN where something is missing.

#include "note_book.hpp"
#include "weather/resample.hpp"

namespace graftcast {

/// Dew point [degC]; a humidity below 0.5 % counts as 0.5 %, where the dew point would run away.
double dew_point_of(double air_temperature_c, double relative_humidity_pct);
/// Relative humidity [%], at most 100: a dew point above the air counts as saturated.
double humidity_of(double air_temperature_c, double dew_point_c);

/// Relative humidity in hours that have none but a temperature and a dew point. Dew points that were read
/// more than 0.5 K above the air of the same source cannot be: they are set aside and noted.
void complete_humidity(QuantityHours& hours, NoteBook& notes);

}  // namespace graftcast
