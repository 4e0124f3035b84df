#include "table_header.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "text/text.hpp"

namespace graftcast {

namespace {

bool holds(std::span<const std::string> names, std::string_view name) {
  return std::find(names.begin(), names.end(), name) != names.end();
}

}  // namespace

TableHeader::TableHeader(DelimitedRows& rows, std::span<const std::string> known,
                         std::span<const std::string> required) {
  if (!rows.next()) {
    throw DataError({rows.name(), 1, 0}, "the file is empty",
                    fmt::format("begin it with the header row {}", fmt::join(known, ",")));
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
  throw DataError(rows.position(is_short ? width : columns_.size()),
                  fmt::format("the row has {} fields, the header {}", width, columns_.size()),
                  is_short ? "the row may be cut short; write a comma for every empty cell"
                           : "put a cell that holds a comma in quotation marks");
}

void TableHeader::check_names(const DelimitedRows& rows, std::span<const std::string> known) {
  std::vector<std::string> absent;
  std::copy_if(known.begin(), known.end(), std::back_inserter(absent),
               [&](const std::string& name) { return !holds(columns_, name); });
  for (std::size_t k = 0; k < columns_.size(); ++k) {
    const std::string& name = columns_[k];
    if (!name.empty() && holds(std::span(columns_).first(k), name)) {
      throw DataError(rows.position(k), fmt::format("the column {} is given twice", shown(name)),
                      "keep one of them");
    }
    known_.push_back(holds(known, name));
    const std::string near = known_.back() ? std::string() : nearest_hint(name, absent, 1);
    if (!near.empty()) {
      warnings_.push_back(fmt::format("{}: the column {} has no meaning here; {}",
                                      to_string(rows.position(k)), shown(name), near));
    }
  }
}

void TableHeader::check_required(const DelimitedRows& rows, std::span<const std::string> required) const {
  for (const std::string& name : required) {
    if (holds(columns_, name)) continue;
    const bool has_semicolons = columns_.size() == 1 && columns_[0].find(';') != std::string::npos;
    throw DataError(rows.position(0), fmt::format("the column {} is missing", name),
                    has_semicolons ? "separate the columns with commas, not semicolons"
                                   : fmt::format("the header needs {}", fmt::join(required, ", ")));
  }
}

}  // namespace graftcast
