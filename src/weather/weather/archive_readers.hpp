#pragma once
// The layouts of public weather archives. Each reader streams `rows`, whose content decides nothing further:
// see detect_reader.hpp. All of them take winds to 2 m (FAO-56 eq. 47; the instrument stands at 10 m unless
// `wind_height_m` says otherwise) and pressures at sea level to the site, and set aside, count and show what
// is beyond physical limits. Errors: DataError with file, line and column.

#include "graftcast/calendar_time.hpp"
#include "text/delimited_rows.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// GHCN-Daily (NOAA, readme of version 3): the fixed width `.dly`, the by-station table (`TMAX`,
/// `TMAX_ATTRIBUTES`, ...) and the table of one value a row (`ID,YYYYMMDD,TMAX,189,,,S,0700`). Values in
/// tenths; -9999 is none; only values whose quality flag is blank count, the others are noted.
///
/// A day is the local day of the date. Where the hour of observation is given, a maximum and the rain are of
/// the 24 hours that end there, so that those read in the morning are of the day before; it is noted where it
/// is not given. Amounts over several days are set aside and noted. A table without the attributes' columns
/// has no known units and is refused; so is a second station.
Readings read_ghcn_daily(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                         const Clock& clock);

/// ISD-Lite (NOAA, integrated surface data): hours in UTC, tenths, -9999 is none, -1 a trace of rain. Values
/// hold at the hour, rain ends there; six-hourly rain counts where none of its hours has its own.
Readings read_isd_lite(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                       const Clock& clock);

/// GHCN-hourly (NOAA), `|` separated with a header: reports of any minute, in UTC. Values hold at their time;
/// rain is of the hour that a routine report ends (FM-15), else of the six hours before a synoptic one.
/// Quality codes 0, 1, 4, 5, 9 and blank count.
Readings read_ghcn_hourly(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                          const Clock& clock);

/// EPW (EnergyPlus weather): local standard time of its header, hour 1 ends at 1:00. Radiation is of the hour
/// that ends at the stamp, all else holds at the stamp. Rain is not read: the format's column is
/// undependable. A typical year, whose months come from different years, is dated as one year (the latest
/// that is no leap year) and noted as such; put it last in order of trust.
Readings read_epw(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                  const Clock& clock);

/// TMY3 (NREL, 2008): as EPW; -9900 is none; rain counts where it is of one hour.
Readings read_tmy3(DelimitedRows& rows, const SourceSettings& source, const Location& location,
                   const Clock& clock);

}  // namespace graftcast
