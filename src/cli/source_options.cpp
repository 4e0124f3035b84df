#include "source_options.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"
#include "weather/detect_reader.hpp"

namespace graftcast::cli {

namespace {

const std::vector<std::string> stamp_words{"start", "end", "instant"};

Stamp stamp_of(const std::string& text) {
  const std::string word = word_of("--stamp", text, stamp_words);
  return word == "start" ? Stamp::start : word == "end" ? Stamp::end : Stamp::instant;
}

/// `air_temperature=Temp [degF]` or `time=When`: the part in brackets is the unit, for the time its pattern.
void add_column(SourceSettings& source, const std::string& text) {
  const std::size_t equals = text.find('=');
  if (equals == std::string::npos || equals == 0 || equals + 1 == text.size())
    throw UsageError(tr("--column does not take {text}", "text"_a = shown(text)),
                     tr("write NAME=HEADER or NAME=HEADER::UNIT, such as air_temperature=Temp::degF"));
  const std::string name = text.substr(0, equals);
  ColumnMapping mapping{.column = text.substr(equals + 1), .unit = {}, .format = {}, .missing = {}};
  if (const std::size_t colons = mapping.column.find("::"); colons != std::string::npos) {
    (name == "time" || name == "date" ? mapping.format : mapping.unit) = mapping.column.substr(colons + 2);
    mapping.column.resize(colons);
  }
  source.columns[name] = mapping;
}

/// `air_temperature=-99.9`, a code of a column that is mapped before it.
void add_missing(SourceSettings& source, const std::string& text) {
  const std::size_t equals = text.find('=');
  const auto column = source.columns.find(text.substr(0, equals));
  if (equals == std::string::npos || equals + 1 == text.size() || column == source.columns.end())
    throw UsageError(tr("--missing does not take {text}", "text"_a = shown(text)),
                     tr("write NAME=CODE behind the --column of that NAME, such as air_temperature=-99.9"));
  column->second.missing.push_back(text.substr(equals + 1));
}

}  // namespace

std::vector<OptionSpec> source_options(const std::shared_ptr<SourceSettings>& source,
                                       const std::string& group) {
  return {
      {"--stamp", "", "STAMP", tr("start, end or instant (default: start)"),
       tr("What a row's time stands for: start or end of the interval that the row is about, or an instant."),
       group, [source](const std::string& text) { source->stamp = stamp_of(text); }},
      {"--time-zone", "", "ZONE", tr("zone of its times (default: the site's)"),
       tr("An IANA name, UTC, or +01:00."), group,
       [source](const std::string& text) { source->time_zone = text; }},
      {"--wind-height", "", "M", tr("height of the wind's instrument in metres (default: 2)"), "", group,
       [source](const std::string& text) {
         source->wind_height_m = decimal_number("--wind-height", text, 0.5, 200);
       }},
      {"--reader", "", "WORD", tr("layout of the files (default: told by their content)"),
       tr("One of {names}.", "names"_a = fmt::join(reader_words(), ", ")), group,
       [source](const std::string& text) { source->reader = word_of("--reader", text, reader_words()); }},
      {"--column", "", "NAME=HEADER", tr("what a column holds; may be repeated"),
       tr("For headers that are not CF names: air_temperature=Temp::degF, with the unit after two colons; "
          "for "
          "time and "
          "date the pattern stands there: time=When::%d/%m/%Y %H:%M."),
       group, [source](const std::string& text) { add_column(*source, text); }},
      {"--missing", "", "NAME=CODE", tr("what a column writes for no value; may be repeated"),
       tr("Beside the empty cell and words such as NA: air_temperature=-99.9, behind the --column of that "
          "name."),
       group, [source](const std::string& text) { add_missing(*source, text); }}};
}

}  // namespace graftcast::cli
