#include "readers/table_plan.hpp"

#include <algorithm>
#include <utility>

#include <fmt/format.h>

#include "readers/header_text.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// What the values of a column stand for. Radiation and rain are told by their unit: W m-2 is a mean and
/// MJ m-2 a sum, whatever the suffix.
Kind kind_of(const ParsedName& parsed, const Unit& unit) {
  if (unit.dimension == Dimension::exposure || unit.dimension == Dimension::depth) return Kind::sum;
  if (unit.dimension == Dimension::irradiance || unit.dimension == Dimension::depth_rate) return Kind::mean;
  if (parsed.named->quantity == Quantity::gust) return Kind::maximum;
  return parsed.kind.value_or(Kind::mean);
}

bool has_extremes(Quantity quantity) {
  return quantity == Quantity::air_temperature || quantity == Quantity::relative_humidity;
}

/// False for what nothing is made of, such as the minimum of the pressure.
bool usable(const ParsedName& parsed) {
  if (!parsed.kind || has_extremes(parsed.named->quantity)) return parsed.kind != Kind::sum;
  const Quantity quantity = parsed.named->quantity;
  if (quantity == Quantity::gust) return parsed.kind == Kind::maximum;
  if (quantity == Quantity::shortwave || quantity == Quantity::precipitation) {
    return parsed.kind == Kind::sum || parsed.kind == Kind::mean;
  }
  return parsed.kind == Kind::mean;
}

/// The unit of a column; where none is given, the own unit of what is measured.
Unit unit_of(const ParsedName& parsed, std::string_view unit_text) {
  const NamedQuantity& named = *parsed.named;
  if (unit_text.empty()) {
    const bool summed = parsed.kind == Kind::sum && named.other_dimension == Dimension::exposure;
    return parse_unit(own_unit_name(summed ? Dimension::exposure : named.dimension));
  }
  const Unit unit = parse_unit(unit_text);
  if (unit.dimension != named.dimension && unit.dimension != named.other_dimension) {
    throw RangeError(tr("\"{unit}\" is {dimension}, but {name} is {needed}", "unit"_a = unit_text,
                        "dimension"_a = dimension_name(unit.dimension), "name"_a = named.name,
                        "needed"_a = dimension_name(named.dimension)),
                     tr("give a unit such as {unit}", "unit"_a = own_unit_name(named.dimension)));
  }
  return unit;
}

/// A column of the current row, or the DataError that says why its unit will not do.
TableColumn column_of(const DelimitedRows& rows, std::size_t field, const ParsedName& parsed,
                      std::string_view unit_text) {
  TableColumn column;
  column.field = field;
  column.header = header_text(rows.fields()[field].text);
  column.position = rows.position(field);
  column.named = *parsed.named;
  column.unit_assumed = unit_text.empty();
  try {
    column.unit = unit_of(parsed, unit_text);
  } catch (const RangeError& fault) {
    throw DataError(
        rows.position(field),
        tr("column \"{header}\": {reason}", "header"_a = column.header, "reason"_a = fault.message()),
        fault.hint());
  }
  column.kind = kind_of(parsed, column.unit);
  return column;
}

bool same_thing(const TableColumn& a, const TableColumn& b) {
  // Pressure here and at sea level are two things; rain and its running total are one.
  const bool alike = a.named.turn == b.named.turn || a.named.quantity == Quantity::precipitation;
  return a.named.quantity == b.named.quantity && a.kind == b.kind && alike;
}

void add_column(TablePlan& plan, TableColumn column) {
  const auto found = std::find_if(plan.columns.begin(), plan.columns.end(),
                                  [&](const TableColumn& other) { return same_thing(other, column); });
  if (found != plan.columns.end()) {
    throw DataError(column.position,
                    tr("\"{first}\" and \"{second}\" hold the same thing", "first"_a = found->header,
                       "second"_a = column.header),
                    tr("name the one to read in the column map of site.json"));
  }
  plan.columns.push_back(std::move(column));
}

// ---- Self-describing headers ----

bool is_time_name(std::string_view name) {
  return name == "time" || name == "date";
}

bool is_self_describing_header(const DelimitedRows& rows) {
  bool time = false;
  bool quantity = false;
  for (const Field& field : rows.fields()) {
    const std::string header = header_text(field.text);
    const HeaderParts parts = split_header(header);
    time = time || is_time_name(parts.name);
    quantity = quantity || parse_quantity_name(parts.name).has_value();
  }
  return time && quantity;
}

void add_time_part(TablePlan& plan, const DelimitedRows& rows, std::size_t field, const HeaderParts& parts,
                   const SourceSettings& settings) {
  const bool utc = parts.unit == "UTC" || parts.unit == "GMT" || parts.unit == "Z";
  if (!parts.unit.empty() && !utc && settings.time_zone.empty()) {
    throw DataError(rows.position(field),
                    tr("\"{unit}\" is no time zone that a header can give", "unit"_a = parts.unit),
                    tr("[UTC], or no bracket and \"time_zone\" of the source in site.json"));
  }
  plan.stamp.utc = plan.stamp.utc || utc;
  auto& part = *plan.stamp.part(parts.name);
  if (part)
    throw DataError(rows.position(field), tr("a second column \"{name}\"", "name"_a = parts.name),
                    tr("one is right"));
  part = StampColumns::Part{field, header_text(rows.fields()[field].text), std::nullopt};
}

void note_unused(TablePlan& plan, const std::string& header, std::string_view name) {
  if (trimmed(header).empty()) return;
  const std::string near = nearest_hint(name, quantity_names(), 1);
  if (near.empty()) {
    plan.unused.push_back(header);
  } else {
    plan.suspects.push_back(fmt::format("\"{}\": {}", header, near));
  }
}

TablePlan plan_by_headers(const DelimitedRows& rows, const SourceSettings& settings) {
  TablePlan plan;
  for (std::size_t field = 0; field < rows.fields().size(); ++field) {
    const std::string header = header_text(rows.fields()[field].text);
    const HeaderParts parts = split_header(header);
    if (is_time_name(parts.name)) {
      add_time_part(plan, rows, field, parts, settings);
    } else if (const auto parsed = parse_quantity_name(parts.name); parsed && usable(*parsed)) {
      add_column(plan, column_of(rows, field, *parsed, parts.unit));
    } else if (parsed) {
      plan.unused.push_back(header);
    } else {
      note_unused(plan, header, parts.name);
    }
  }
  return plan;
}

// ---- Column map ----

std::optional<std::size_t> find_field(const DelimitedRows& rows, std::string_view header) {
  const auto& fields = rows.fields();
  const auto found = std::find_if(fields.begin(), fields.end(),
                                  [&](const Field& field) { return header_text(field.text) == header; });
  if (found == fields.end()) return std::nullopt;
  return static_cast<std::size_t>(found - fields.begin());
}

std::size_t mapped_headers_in(const DelimitedRows& rows, const SourceSettings& settings) {
  return static_cast<std::size_t>(
      std::count_if(settings.columns.begin(), settings.columns.end(),
                    [&](const auto& entry) { return find_field(rows, entry.second.column).has_value(); }));
}

StampColumns::Part mapped_part(const ColumnMapping& mapping, std::size_t field) {
  StampColumns::Part part{field, mapping.column, std::nullopt};
  if (!mapping.format.empty()) part.pattern.emplace(mapping.format);
  return part;
}

TablePlan plan_by_map(const DelimitedRows& rows, const SourceSettings& settings) {
  TablePlan plan;
  for (const auto& [key, mapping] : settings.columns) {
    const std::size_t field = find_field(rows, mapping.column).value();
    if (auto* const part = plan.stamp.part(key)) {
      *part = mapped_part(mapping, field);
      continue;
    }
    TableColumn column = column_of(rows, field, parse_quantity_name(key).value(), mapping.unit);
    column.missing = mapping.missing;
    add_column(plan, std::move(column));
  }
  return plan;
}

// ---- Finding the header row ----

/// The best row seen so far while the header row is looked for.
struct NearMiss {
  std::size_t matches = 0;
  Position position;
  std::vector<std::string> headers;
};

void remember(NearMiss& best, const DelimitedRows& rows, std::size_t matches) {
  if (matches <= best.matches) return;
  best = {matches, rows.position(0), {}};
  for (const Field& field : rows.fields()) best.headers.push_back(header_text(field.text));
}

[[noreturn]] void refuse_map(const std::string& name, const NearMiss& best, const SourceSettings& settings) {
  if (best.matches == 0) {
    throw DataError({name, 0, 0}, tr("no header row with any column of the map within the first 60 rows"),
                    tr("give the columns in site.json as the file writes them"));
  }
  for (const auto& [key, mapping] : settings.columns) {
    if (std::find(best.headers.begin(), best.headers.end(), mapping.column) != best.headers.end()) continue;
    const std::string near = nearest_hint(mapping.column, best.headers);
    throw DataError(
        best.position, tr("no column \"{column}\" for {key}", "column"_a = mapping.column, "key"_a = key),
        near.empty() ? tr("the file has {headers}", "headers"_a = fmt::join(best.headers, ", ")) : near);
  }
  throw DataError(best.position, tr("the header row cannot be told from the rows below"),
                  tr("name each column once"));
}

constexpr int rows_before_header = 60;

TablePlan find_by_map(DelimitedRows& rows, const SourceSettings& settings) {
  NearMiss best;
  for (int row = 0; row < rows_before_header && rows.next(); ++row) {
    const std::size_t matches = mapped_headers_in(rows, settings);
    if (matches == settings.columns.size()) return plan_by_map(rows, settings);
    remember(best, rows, matches);
  }
  refuse_map(rows.name(), best, settings);
}

TablePlan find_by_headers(DelimitedRows& rows, const SourceSettings& settings) {
  std::optional<Position> first;
  for (int row = 0; row < rows_before_header && rows.next(); ++row) {
    if (!first) first = rows.position(0);
    if (is_self_describing_header(rows)) return plan_by_headers(rows, settings);
  }
  if (!first)
    throw DataError({rows.name(), 1, 1}, tr("the file is empty"),
                    tr("a header row and rows of values are needed"));
  throw DataError(
      *first, tr("no header row with `time` or `date` and a known name such as `air_temperature [degC]`"),
      tr("write such headers, or see what 'graftcast weather add FILE --propose' makes of the file's own"));
}

void check_map(const SourceSettings& settings, const std::string& name) {
  StampColumns stamp;
  for (const auto& [key, mapping] : settings.columns) {
    if (auto* const part = stamp.part(key)) {
      *part = mapped_part(mapping, 0);
      continue;
    }
    const auto parsed = parse_quantity_name(key);
    if (parsed && usable(*parsed)) continue;
    auto known = quantity_names();
    known.insert(known.end(), {"time", "date", "year", "month", "day", "day_of_year", "hour", "minute"});
    const std::string near = nearest_hint(key, known);
    throw DataError({name, 0, 0},
                    tr("the column map names \"{key}\", which is nothing that can be read", "key"_a = key),
                    near.empty() ? tr("known: {names}", "names"_a = fmt::join(known, ", ")) : near);
  }
  if (!stamp.complete()) {
    throw DataError({name, 0, 0}, tr("the column map names no time"),
                    tr("map `time`, or `date`, or `year`, `month` and `day` with `hour`"));
  }
}

}  // namespace

TablePlan plan_table(DelimitedRows& rows, const SourceSettings& settings) {
  const bool mapped = !settings.columns.empty();
  if (mapped) check_map(settings, rows.name());
  TablePlan plan = mapped ? find_by_map(rows, settings) : find_by_headers(rows, settings);
  plan.width = rows.fields().size();
  return plan;
}

}  // namespace graftcast
