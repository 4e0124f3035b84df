#pragma once
// A column map for a table with headers of its own, worked out from its headers and values.

#include <filesystem>
#include <string>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/weather_file.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// One column of the proposal and why it is read so.
struct ProposedColumn {
  std::string name;    ///< Key of the column map, such as `air_temperature`.
  std::string header;  ///< As the file has it.
  std::string how;     ///< Unit or time format, in words; may be empty.
  std::string reason;
};

/// How a file is best taken in.
struct ColumnProposal {
  std::string reader;     ///< Word of its layout; other than `table` nothing needs to be mapped.
  SourceSettings source;  ///< What was given, and what it lacked. Its `file` is not touched.
  std::vector<ProposedColumn> columns;
  std::vector<std::string> left_out;  ///< `header: why`.
  std::vector<std::string> settings;  ///< Why the zone and the stamp are as proposed.
  std::vector<std::string> doubts;    ///< What the owner should look at before taking it.
  WeatherFileSummary summary;         ///< What the file gives when it is read so.
};

/// Proposes how to read `path`. What `given` has is kept and not asked again. Units come from the headers;
/// where one is not named, or the values betray another, that is a doubt of the proposal, with the likely
/// one. Codes for missing values are told from the values. Where radiation is measured, it tells which end of
/// the hour the stamps are of. Errors: those of reading; DataError where no column can be told, and where day
/// and month cannot, with the option that settles it.
ColumnProposal propose_columns(const std::filesystem::path& path, const SourceSettings& given,
                               const Location& location, const Clock& site_clock);

}  // namespace graftcast
