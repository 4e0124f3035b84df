#pragma once
// Public archives' layouts in memory; all values are invented.

#include <string>
#include <string_view>

#include "weather/archive_readers.hpp"
#include "weather_cases.hpp"

namespace graftcast::testing {

using ReadArchive = Readings (*)(DelimitedRows&, const SourceSettings&, const Location&, const Clock&);

inline Readings archive(ReadArchive read, std::string_view text, char separator = ',',
                        const SourceSettings& source = {}, const Clock& clock = lisbon()) {
  DelimitedRows rows = DelimitedRows::from_memory(text, separator, "archive");
  return read(rows, source, terrace, clock);
}

/// What the reader complains of; empty when it does not.
inline std::string archive_complaint(ReadArchive read, std::string_view text, char separator = ',') {
  try {
    archive(read, text, separator);
  } catch (const DataError& error) {
    return error.what();
  }
  return {};
}

/// One line of a .dly file: values of five characters and three flags from the first of the month on.
inline std::string dly_line(std::string_view month_and_element, const std::vector<std::string>& days) {
  std::string line = "XXE00000001" + std::string(month_and_element);
  for (std::size_t day = 0; day < 31; ++day) line += day < days.size() ? days[day] : "-9999   ";
  return line + "\n";
}

inline const std::string epw_header =
    "LOCATION,Example Town,NO,XXX,TMY-TEST,999999,41.20,-7.50,-8.0,260.0\n"
    "DESIGN CONDITIONS,0\nTYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\n"
    "HOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,invented, with, commas\nCOMMENTS 2,\n";
inline const std::string one_an_hour = "DATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n";

/// A row of an EPW: `stamp` is year,month,day,hour,minute.
inline std::string epw_row(const std::string& stamp, const std::string& temperature,
                           const std::string& dew_point = "10.6", const std::string& global = "0",
                           const std::string& pressure = "98350") {
  return stamp + ",?9?9*9," + temperature + "," + dew_point + ",65," + pressure + ",0,1415,322," + global +
         ",0,0,0,0,0,0,120,2.1,3,2,16.0,77777,9,999999999,180,0.0800,0,88,0.160,0.0,1.0\n";
}

inline const std::string isd =
    "2021 07 01 00   214   161 10132   270    31     2     0 -9999\n"
    "2021 07 01 01   206   161 -9999     0     0 -9999 -9999 -9999\n"
    "2021 07 01 02   200   158 10130     0    11    12    -1 -9999\n";

inline const std::string ghcnh_header =
    "STATION|Station_name|DATE|LATITUDE|LONGITUDE|ELEVATION|temperature|temperature_Measurement_Code|"
    "temperature_Quality_Code|temperature_Report_Type|dew_point_temperature|dew_point_temperature_Quality_"
    "Code|"
    "wind_speed|wind_speed_Quality_Code|sea_level_pressure|precipitation|precipitation_Quality_Code|"
    "precipitation_Report_Type|remarks\n";

inline const std::string tmy3_head =
    "999999,\"EXAMPLE FIELD\",XX,-8.0,41.200,-7.500,260\n"
    "Date (MM/DD/YYYY),Time (HH:MM),GHI (W/m^2),GHI source,TotCld (tenths),Dry-bulb (C),Dew-point (C),"
    "Pressure (mbar),Wspd (m/s),Lprecip depth (mm),Lprecip quantity (hr)\n";

}  // namespace graftcast::testing
