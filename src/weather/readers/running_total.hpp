#pragma once
// Rain from a counter that only ever grows until it is set back (private to the layer).

#include "note_book.hpp"
#include "readers/time_line.hpp"
#include "weather/reading.hpp"

namespace graftcast {

/// What a counter rose by in each interval of `line`, in place of its readings, which are in the order of the
/// line. The first reading, and one behind a gap or a missing one, tell nothing of their own interval alone:
/// missing. A fall to less than half is a counter set back: what it shows since fell since. Any other fall is
/// a fault: missing. All of it is noted; `header` names the column.
void turn_into_rises(Channel& counter, const TimeLine& line, const std::string& header, NoteBook& notes);

}  // namespace graftcast
