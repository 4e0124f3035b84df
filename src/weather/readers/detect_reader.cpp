#include "weather/detect_reader.hpp"

#include <algorithm>
#include <array>
#include <memory>
#include <optional>

#include <fmt/format.h>
#include <zlib.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "weather/archive_readers.hpp"
#include "weather/forecast_services.hpp"
#include "weather/table_reader.hpp"

namespace graftcast {

namespace {

/// True when `text` begins as `shape` says: 9 a digit, A a capital letter or digit, # a digit, blank or
/// minus, any other its own.
bool has_shape(std::string_view text, std::string_view shape) {
  if (text.size() < shape.size()) return false;
  const auto fits = [](char form, char letter) {
    const bool digit = letter >= '0' && letter <= '9';
    if (form == '9') return digit;
    if (form == 'A') return digit || (letter >= 'A' && letter <= 'Z');
    if (form == '#') return digit || letter == ' ' || letter == '-';
    return form == letter;
  };
  return std::equal(shape.begin(), shape.end(), text.begin(), fits);
}

std::string_view line_of(std::string_view text, int number) {
  for (; number > 0; --number) {
    const std::size_t end = text.find('\n');
    if (end == std::string_view::npos) return {};
    text.remove_prefix(end + 1);
  }
  return text.substr(0, text.find_first_of("\r\n"));
}

std::string_view without_mark(std::string_view text) {
  return text.starts_with("\xEF\xBB\xBF") ? text.substr(3) : text;
}

bool contains(std::string_view text, std::string_view part) {
  return text.find(part) != std::string_view::npos;
}

bool is_ghcn_daily(std::string_view line) {
  const bool by_station =
      contains(line, "STATION") && contains(line, "DATE") && contains(line, "_ATTRIBUTES");
  const bool by_year = has_shape(line, "AAAAAAAAAAA,99999999,AAAA,") || line.starts_with("ID,DATE,ELEMENT");
  return has_shape(line, "AAAAAAAAAAA999999AAAA#####") || by_station || by_year;
}

bool is_isd_lite(std::string_view line) {
  return has_shape(line, "9999 99 99 99 ") && !contains(line, ",") &&
         line.find_first_not_of("0123456789 -") == std::string_view::npos && line.size() >= 55;
}

bool is_ghcn_hourly(std::string_view line) {
  const std::size_t bars = static_cast<std::size_t>(std::count(line.begin(), line.end(), '|'));
  return bars > 5 && contains(line, "temperature") && contains(line, "uality_");
}

using Read = Readings (*)(DelimitedRows&, const SourceSettings&, const Location&, const Clock&);

struct ArchiveReader {
  std::string_view word;
  char separator;  ///< 0: decided from the first line.
  Read read;
};

/// A fixed width line is one field to whoever separates by a character that it does not hold.
constexpr std::array<ArchiveReader, 5> archive_readers = {{{"ghcn-daily", ',', read_ghcn_daily},
                                                           {"isd-lite", '\t', read_isd_lite},
                                                           {"ghcn-hourly", '|', read_ghcn_hourly},
                                                           {"epw", ',', read_epw},
                                                           {"tmy3", ',', read_tmy3}}};

[[noreturn]] void refuse_word(const SourceSettings& source) {
  const std::string near = nearest_hint(source.reader, reader_words());
  throw DataError(
      {"site.json", 0, 0},
      tr("{file}: there is no reader \"{reader}\"", "file"_a = source.file, "reader"_a = source.reader),
      near.empty() ? tr("known: {names}", "names"_a = fmt::join(reader_words(), ", ")) : near);
}

/// The service whose saved answer the file is, by the source's word for it or by its content.
std::optional<Service> service_of(const std::filesystem::path& path, const SourceSettings& source,
                                  const std::string& shown_name) {
  if (!source.columns.empty()) return std::nullopt;
  if (source.reader.empty()) return recognised_service(first_bytes_of(path, shown_name));
  const bool named = source.reader == "met-norway" || source.reader == "nws" || source.reader == "open-meteo";
  return named ? std::optional(parse_service(source.reader)) : std::nullopt;
}

struct CloseGzip {
  void operator()(gzFile file) const { gzclose(file); }
};

}  // namespace

const std::vector<std::string>& reader_words() {
  static const std::vector<std::string> words = {"table", "ghcn-daily", "isd-lite", "ghcn-hourly", "epw",
                                                 "tmy3",  "met-norway", "nws",      "open-meteo"};
  return words;
}

std::string detect_reader(std::string_view first_bytes) {
  const std::string_view text = without_mark(first_bytes);
  const std::string_view line = line_of(text, 0);
  if (line.starts_with("LOCATION,")) return "epw";
  if (is_ghcn_hourly(line)) return "ghcn-hourly";
  if (is_ghcn_daily(line)) return "ghcn-daily";
  if (is_isd_lite(line)) return "isd-lite";
  if (line_of(text, 1).starts_with("Date (MM/DD/YYYY),Time (HH:MM)")) return "tmy3";
  return "table";
}

std::string first_bytes_of(const std::filesystem::path& path, const std::string& shown_name,
                           std::size_t most) {
  std::error_code fault;
  const std::string name = shown_name.empty() ? path.string() : shown_name;
  const std::filesystem::file_status status = std::filesystem::status(path, fault);
  // A pipe without a writer would keep waiting, and a device may never end.
  if (std::filesystem::is_other(status))
    throw OpenError(name, tr("is not a plain file"), tr("save what it gives in a file first"));
  const std::unique_ptr<gzFile_s, CloseGzip> file(
      std::filesystem::is_regular_file(status) ? gzopen(path.c_str(), "rb") : nullptr);
  if (!file) {
    throw OpenError(name, tr("the file cannot be opened"), tr("a file that is there and may be read"));
  }
  std::string text(most, '\0');
  const int got = gzread(file.get(), text.data(), static_cast<unsigned>(most));
  text.resize(got > 0 ? static_cast<std::size_t>(got) : 0);  // A damaged file is for its reader to refuse.
  return text;
}

std::string reader_of(const std::filesystem::path& path, const SourceSettings& source,
                      const std::string& shown_name) {
  if (!source.reader.empty()) return source.reader;
  if (!source.columns.empty()) return "table";
  const std::string beginning = first_bytes_of(path, shown_name);
  if (const auto service = recognised_service(beginning)) return std::string(service_name(*service));
  return detect_reader(beginning);
}

Readings read_weather_file(const std::filesystem::path& path, const SourceSettings& source,
                           const Location& location, const Clock& site_clock, const std::string& shown_name) {
  const auto& words = reader_words();
  if (!source.reader.empty() && std::find(words.begin(), words.end(), source.reader) == words.end())
    refuse_word(source);
  const std::string word = reader_of(path, source, shown_name);
  if (const auto service = service_of(path, source, shown_name))
    return read_saved_answer(path, *service, source, location,
                             shown_name.empty() ? path.string() : shown_name);
  const auto* const reader = std::find_if(archive_readers.begin(), archive_readers.end(),
                                          [&](const ArchiveReader& each) { return each.word == word; });
  if (reader == archive_readers.end()) return read_table(path, source, location, site_clock, shown_name);
  DelimitedRows rows(path, reader->separator, shown_name);
  return reader->read(rows, source, location, site_clock);
}

}  // namespace graftcast
