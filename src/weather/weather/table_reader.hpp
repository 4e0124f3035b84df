#pragma once
// Weather logs as tables: comma, semicolon or tab separated, hourly, finer, coarser or daily.

#include <filesystem>
#include <string>
#include <string_view>

#include "graftcast/calendar_time.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// Reads a table, by the column map of `source` or, where it has none, by its own headers: CF standard names
/// with a unit in brackets or parentheses, `air_temperature [degC]`, in daily files with `_min`, `_max`,
/// `_mean` or `_sum` after the name, beside a column `time` or `date`. Lines of prose before the headers are
/// passed over; headers may be latin-1; numbers may have a decimal comma where a comma does not separate.
///
/// Missing values: the empty cell, NA, N/A, NaN, null, None, M, -, --, --- and the codes of the column map.
/// `T` and `Trace` are no rain, `Calm` is no wind. Times: see SourceSettings (`time_zone`, `stamp`). A
/// stamp's own offset or `Z` outweighs the zone. Times that are not ISO 8601 and have no format in the map
/// are read by the layout that fits all rows, which is noted; day and month that cannot be told apart are
/// refused. What the clock skips is set aside, what it shows twice is told apart by order; both are noted.
/// Winds are turned into winds at 2 m (FAO-56 eq. 47), vapour pressure into a dew point, pressure at sea
/// level into that at the site.
///
/// Values that cannot be are set aside, counted and shown in the notes, never clipped, but for a humidity of
/// 100 to 105 % and an irradiance of -20 to 0 W/m2, taken as 100 and 0 and counted. A last row that is cut
/// off, and lines below the table (too few fields, or no digit where the time stands), are set aside and
/// noted.
///
/// Errors: OpenError; DataError with file, line and column: a field that is no number or no time, a row with
/// too few or too many fields, an unknown unit or name, a column whose values betray another unit, no rows.
/// `shown_name` is what messages call the file (default: the path).
Readings read_table(const std::filesystem::path& path, const SourceSettings& source, const Location& location,
                    const Clock& site_clock, const std::string& shown_name = {});

/// The same from text in memory.
Readings read_table_text(std::string_view text, const std::string& shown_name, const SourceSettings& source,
                         const Location& location, const Clock& site_clock);

}  // namespace graftcast
