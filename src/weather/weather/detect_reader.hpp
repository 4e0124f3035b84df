#pragma once
// Which layout a weather file has, told by its content.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/calendar_time.hpp"
#include "weather/reading.hpp"
#include "weather/weather_settings.hpp"

namespace graftcast {

/// The words that `reader` of a source takes: `table`, `ghcn-daily`, `isd-lite`, `ghcn-hourly`, `epw`,
/// `tmy3`, and for saved answers of services `met-norway`, `nws`, `open-meteo`.
const std::vector<std::string>& reader_words();

/// The word for a file that begins with `first_bytes` (a few lines, not compressed): `table` where it is none
/// of the archives' layouts.
std::string detect_reader(std::string_view first_bytes);

/// The first bytes of a file, inflated where it is gzip. Error: OpenError.
std::string first_bytes_of(const std::filesystem::path& path, const std::string& shown_name,
                           std::size_t most = 8192);

/// The word of the reader that `read_weather_file` takes: `source.reader`, or by the content. Error:
/// OpenError.
std::string reader_of(const std::filesystem::path& path, const SourceSettings& source,
                      const std::string& shown_name = {});

/// Reads a file by `source.reader`, or by its content where that is empty; a source with a column map is
/// a table. Errors: those of the reader; DataError, in site.json, for an unknown word.
Readings read_weather_file(const std::filesystem::path& path, const SourceSettings& source,
                           const Location& location, const Clock& site_clock,
                           const std::string& shown_name = {});

}  // namespace graftcast
