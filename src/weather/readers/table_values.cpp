#include "readers/table_values.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::optional<double> number_with_comma(std::string_view text) {
  std::array<char, 32> copy{};
  const std::size_t comma = text.find(',');
  if (text.size() > copy.size() || comma == std::string_view::npos ||
      text.find('.') != std::string_view::npos) {
    return std::nullopt;
  }
  std::copy(text.begin(), text.end(), copy.begin());
  copy.at(comma) = '.';
  return parse_number({copy.data(), text.size()});
}

/// A counter may have run for years; what it rises by has its own limits.
Limits limits_of(const TableColumn& column, bool daily) {
  constexpr Limits counter_mm{0, 100'000};
  return column.named.turn == NamedQuantity::Turn::running_total
             ? counter_mm
             : physical_limits(column.named.quantity, column.kind, daily);
}

std::string beyond_text(const TableColumn& column, const Limits& limits) {
  return tr(
      "column \"{header}\": set aside, since it cannot be below {least:g} or above {greatest:g} "
      "{unit}",
      "header"_a = column.header, "least"_a = limits.least, "greatest"_a = limits.greatest,
      "unit"_a = own_unit_name(column.unit.dimension));
}

}  // namespace

bool is_missing_word(std::string_view text) {
  constexpr std::array<std::string_view, 13> words = {"",     "NA",   "N/A", "n/a", "NaN", "nan", "null",
                                                      "NULL", "None", "M",   "-",   "--",  "---"};
  return std::find(words.begin(), words.end(), text) != words.end();
}

bool is_zero_word(Quantity quantity, std::string_view text) {
  if (quantity == Quantity::precipitation) return text == "T" || text == "Trace" || text == "trace";
  if (quantity == Quantity::wind_speed || quantity == Quantity::gust) return text == "Calm" || text == "calm";
  return false;
}

std::optional<double> parse_decimal(std::string_view text, bool decimal_comma) {
  const auto value = parse_number(text);
  return value || !decimal_comma ? value : number_with_comma(text);
}

ColumnValues::ColumnValues(TableColumn column, bool daily, bool decimal_comma, std::size_t rows)
    : column_(std::move(column)),
      daily_(daily),
      decimal_comma_(decimal_comma),
      limits_(limits_of(column_, daily)),
      channel_{column_.named.quantity, column_.kind, {}},
      beyond_text_(beyond_text(column_, limits_)) {
  channel_.value.reserve(rows);
  if (column_.named.turn == NamedQuantity::Turn::from_vapour_pressure) {
    beyond_text_ = tr("column \"{header}\": set aside, since no air has such a vapour pressure",
                      "header"_a = column_.header);
  }
  for (const std::string& code : column_.missing) {
    if (const auto value = parse_number(code)) missing_numbers_.push_back(*value);
  }
}

double ColumnValues::number(const DelimitedRows& rows) const {
  const std::string_view text = trimmed(rows.fields()[column_.field].text);
  if (auto value = parse_number(text)) {
    const bool is_code =
        std::find(missing_numbers_.begin(), missing_numbers_.end(), *value) != missing_numbers_.end();
    return is_code ? none : *value;
  }
  if (is_missing_word(text)) return none;
  if (std::find(column_.missing.begin(), column_.missing.end(), text) != column_.missing.end()) return none;
  if (is_zero_word(column_.named.quantity, text)) return (0 - column_.unit.offset) / column_.unit.scale;
  if (decimal_comma_) {
    if (const auto value = number_with_comma(text)) return *value;
  }
  throw DataError(rows.position(column_.field),
                  tr("\"{text}\" in column \"{header}\" is not a number", "text"_a = text.substr(0, 60),
                     "header"_a = column_.header),
                  tr("a decimal number, an empty cell, or a code named under \"missing\" in the column map"));
}

double ColumnValues::own_value(double number) const {
  const double value = column_.unit.to_own(number);
  if (column_.named.turn != NamedQuantity::Turn::from_vapour_pressure) return value;
  return value > 0 ? raw::dew_point_c(value) : -1000.0;  // No vapour at all is beyond every limit.
}

void ColumnValues::note_beyond(const DelimitedRows& rows, double value, NoteBook& notes) {
  const auto nearest = without_overshoot(channel_.quantity, channel_.kind, value);
  const bool wanted =
      nearest ? notes.count("overshoot",
                            tr("column \"{header}\": slightly beyond {nearest:g}, taken as {nearest:g}",
                               "header"_a = column_.header, "nearest"_a = *nearest))
              : notes.count("beyond-limits", beyond_text_);
  if (wanted) {
    notes.example(fmt::format("{}: {}", to_string(rows.position(column_.field)),
                              trimmed(rows.fields()[column_.field].text).substr(0, 40)));
  }
  any_beyond_ = any_beyond_ || !nearest;
  if (nearest) channel_.value.back() = *nearest;
}

void ColumnValues::take(const DelimitedRows& rows, NoteBook& notes) {
  const double value = own_value(number(rows));
  channel_.value.push_back(value);
  if (!std::isnan(value) && !limits_.hold(value)) note_beyond(rows, value, notes);
}

void ColumnValues::refuse_wrong_unit() const {
  if (column_.named.turn == NamedQuantity::Turn::from_vapour_pressure ||
      column_.named.turn == NamedQuantity::Turn::running_total)
    return;
  const auto likely = likely_unit(channel_, column_.unit, daily_);
  if (!likely) return;
  throw DataError(
      column_.position,
      tr("column \"{header}\" runs from {least:.4g} to {greatest:.4g}, which is hardly {unit}",
         "header"_a = column_.header, "least"_a = likely->least, "greatest"_a = likely->greatest,
         "unit"_a = column_.unit.name),
      tr("likely {unit}: give that unit, or mend the column", "unit"_a = translated(likely->name)));
}

Channel ColumnValues::finish(const SourceSettings& source, const Location& location, NoteBook& notes) {
  refuse_wrong_unit();
  double factor = 1;
  if (channel_.quantity == Quantity::wind_speed || channel_.quantity == Quantity::gust) {
    const double height_m = source.wind_height_m.value_or(2);
    if (height_m != 2) factor = wind_at_2m_m_s(1, height_m);  // Eq. 47 gives 1.0002 at 2 m.
  } else if (column_.named.turn == NamedQuantity::Turn::from_sea_level) {
    factor = air_pressure_kpa(location.elevation_m) / air_pressure_kpa(0);
  }
  bool any = false;
  for (double& value : channel_.value) {
    if (any_beyond_ && !limits_.hold(value)) value = none;
    value *= factor;
    if (factor > 1 && value > limits_.greatest) {
      notes.count("beyond-limits", beyond_text_);
      value = none;
    }
    any = any || !std::isnan(value);
  }
  if (!any) {
    notes.count("all-missing",
                tr("column \"{header}\" has no value that can be used", "header"_a = column_.header),
                channel_.value.size());
  }
  if (column_.unit_assumed) {
    notes.count("unit-assumed", tr("column \"{header}\" names no unit and was taken as {unit}",
                                   "header"_a = column_.header, "unit"_a = column_.unit.name));
  }
  return std::move(channel_);
}

}  // namespace graftcast
