#pragma once
// Values of an answer become channels (private to the layer).

#include <string>
#include <string_view>
#include <vector>

#include "note_book.hpp"
#include "weather/reading.hpp"
#include "weather/units.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// How values of one field are to be taken.
struct AnswerField {
  std::string name;  ///< As the service calls it.
  Quantity quantity = Quantity::air_temperature;
  Kind kind = Kind::instant;
  Unit unit;
  double factor = 1;  ///< Wind from 10 m to 2 m, pressure from sea level to the site.
  bool daily = false;
};

/// The unit that `text` spells. Errors: RangeError when it is unknown or does not measure `quantity`.
Unit answer_unit(std::string_view text, Quantity quantity, Kind kind);

/// What a pressure at sea level is at the site, by the standard atmosphere (FAO-56 eq. 7).
double factor_from_sea_level(const Location& location);
/// What a wind or gust at 10 m, where all services here give it, is at 2 m (FAO-56 eq. 47); 1 for other
/// quantities.
double usual_factor(Quantity quantity);

/// True where there is a number at all.
bool has_any(const std::vector<double>& values);

/// Adds `raw`, in the field's unit and one for each span of the block, as a channel: converts the values and
/// sets aside, with a note, what cannot be. Nothing is added where no value is left.
void add_channel(Block& block, const AnswerField& field, const std::vector<double>& raw, NoteBook& notes);

}  // namespace graftcast
