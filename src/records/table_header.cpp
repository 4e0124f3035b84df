#include "table_header.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

bool holds(std::span<const std::string> names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

TableHeader::TableHeader(DelimitedRows& rows, std::span<const std::string> known,
                         std::span<const std::string> required) {
  if (!rows.next()) {
    throw DataError({rows.name(), 1, 0}, tr("the file is empty"),
                    tr("begin it with the header row {known}", "known"_a = fmt::join(known, ",")));
  }
  for (const Field& field : rows.fields()) columns_.emplace_back(trimmed(field.text));
  check_names(rows, known);
  check_required(rows, required);
}

std::optional<std::size_t> TableHeader::index_of(std::string_view column) const {
  const auto found = std::find(columns_.begin(), columns_.end(), column);
  if (found == columns_.end()) return std::nullopt;
  return static_cast<std::size_t>(found - columns_.begin());
}

void TableHeader::check_width(const DelimitedRows& rows) const {
  const std::size_t width = rows.fields().size();
  if (width == columns_.size()) return;
  const bool is_short = width < columns_.size();
  throw DataError(
      rows.position(is_short ? width : columns_.size()),
      tr("the row has {width} fields, the header {count}", "width"_a = width, "count"_a = columns_.size()),
      is_short ? tr("the row may be cut short; write a comma for every empty cell")
               : tr("put a cell that holds a comma in quotation marks"));
}

void TableHeader::check_names(const DelimitedRows& rows, std::span<const std::string> known) {
  std::vector<std::string> absent;
  std::copy_if(known.begin(), known.end(), std::back_inserter(absent),
               [&](const std::string& name) { return !holds(columns_, name); });
  for (std::size_t k = 0; k < columns_.size(); ++k) {
    const std::string& name = columns_[k];
    if (!name.empty() && holds(std::span(columns_).first(k), name)) {
      throw DataError(rows.position(k), tr("the column {name} is given twice", "name"_a = shown(name)),
                      tr("keep one of them"));
    }
    known_.push_back(holds(known, name));
    const std::string near = known_.back() ? std::string() : nearest_hint(name, absent, 1);
    if (!near.empty()) {
      warnings_.push_back(tr("{position}: the column {name} has no meaning here; {near}",
                             "position"_a = to_string(rows.position(k)), "name"_a = shown(name),
                             "near"_a = near));
    }
  }
}

void TableHeader::check_required(const DelimitedRows& rows, std::span<const std::string> required) const {
  for (const std::string& name : required) {
    if (holds(columns_, name)) continue;
    const bool has_semicolons = columns_.size() == 1 && columns_[0].find(';') != std::string::npos;
    throw DataError(rows.position(0), tr("the column {name} is missing", "name"_a = name),
                    has_semicolons
                        ? tr("separate the columns with commas, not semicolons")
                        : tr("the header needs {required}", "required"_a = fmt::join(required, ", ")));
  }
}

}  // namespace graftcast
