#include "weather/column_proposal.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/air.hpp"
#include "graftcast/error.hpp"
#include "plausibility.hpp"
#include "readers/foreign_table.hpp"
#include "readers/time_pattern.hpp"
#include "text/tr.hpp"
#include "weather/detect_reader.hpp"
#include "weather/quality_checks.hpp"
#include "weather/table_reader.hpp"

namespace graftcast {

namespace {

using Role = HeaderGuess::Role;

constexpr std::string_view counter_name = "precipitation_amount_running_total";

bool has_note(const std::vector<QualityNote>& notes, std::string_view kind) {
  return std::any_of(notes.begin(), notes.end(), [&](const QualityNote& note) { return note.kind == kind; });
}

/// `-08:00`.
std::string offset_text(std::chrono::seconds offset) {
  const long minutes = std::abs(offset.count()) / 60;
  return fmt::format("{}{:02}:{:02}", offset.count() < 0 ? '-' : '+', minutes / 60, minutes % 60);
}

/// Works a proposal out, column by column.
class Proposing {
 public:
  Proposing(const SourceSettings& given, const Location& location, const Clock& clock, ForeignTable table)
      : location_(location), clock_(clock), table_(std::move(table)) {
    proposal_.reader = "table";
    proposal_.source = given;
  }

  ColumnProposal work_out(const std::filesystem::path& path);

 private:
  bool is_given(std::string_view key) const;
  std::optional<std::string> other_rain(const HeaderGuess& guess, std::string_view name) const;
  bool header_is_given(const std::string& header) const;
  void keep_given();
  void take_time();
  void take_zone(const HeaderGuess& guess, const std::string& header);
  void take_quantities();
  void take_quantity(const ForeignColumn& column);
  bool take_unit(const ForeignColumn& column, const ParsedName& parsed, Kind kind, bool counter, Unit& unit,
                 std::string& reason);
  void weigh_pressure(const ForeignColumn& column, const Unit& unit, std::string& name,
                      std::string& reason) const;
  void leave_out(const std::string& header, std::string_view why);
  Readings read(const std::filesystem::path& path) const;
  void settle_clock(const std::filesystem::path& path, Readings& readings);
  void settle_stamp(const std::filesystem::path& path, Readings& readings);
  bool is_late(const Readings& readings) const;

  const Location& location_;
  const Clock& clock_;
  ForeignTable table_;
  bool daily_ = false;
  ColumnProposal proposal_;
};

bool Proposing::is_given(std::string_view key) const {
  return proposal_.source.columns.contains(std::string(key));
}

bool Proposing::header_is_given(const std::string& header) const {
  return std::any_of(proposal_.source.columns.begin(), proposal_.source.columns.end(),
                     [&](const auto& entry) { return entry.second.column == header; });
}

void Proposing::leave_out(const std::string& header, std::string_view why) {
  if (!header.empty()) proposal_.left_out.push_back(fmt::format("\"{}\": {}", header, why));
}

void Proposing::keep_given() {
  for (const auto& [name, mapping] : proposal_.source.columns)
    proposal_.columns.push_back(
        {name, mapping.column, mapping.unit.empty() ? mapping.format : mapping.unit, tr("as given")});
}

void Proposing::take_zone(const HeaderGuess& guess, const std::string& header) {
  if (!proposal_.source.time_zone.empty()) return;
  if (guess.is_utc) {
    proposal_.source.time_zone = "UTC";
  } else if (guess.is_standard) {
    proposal_.source.time_zone = offset_text(clock_.standard_offset_at(Instant{}));
  } else {
    return;
  }
  proposal_.settings.push_back(tr("time zone {time_zone}: the header \"{header}\" says so",
                                  "time_zone"_a = proposal_.source.time_zone, "header"_a = header));
}

void Proposing::take_time() {
  for (const char* const key : {"time", "date", "year"}) {
    if (!is_given(key)) continue;
    const auto& format = proposal_.source.columns.at(key).format;
    daily_ = std::string_view(key) == "date" && !is_given("time") &&
             (format.empty() || !TimePattern(format).has_time_of_day());
    return;
  }
  const TimeGuess guess = guess_time(table_);
  daily_ = guess.day_only;
  for (const TimeGuess::Part& part : guess.parts) {
    const ForeignColumn& column = table_.columns[part.column];
    proposal_.source.columns[part.key] = {column.header, {}, part.format, {}};
    proposal_.columns.push_back({part.key, column.header, part.format,
                                 part.format.empty() ? tr("its texts need no layout named")
                                                     : tr("the one layout that fits every row")});
    take_zone(column.guess, column.header);
  }
}

/// What speaks against the unit that a header states, or that it would have without one.
std::string unit_finding(const std::string& header, bool stated, const Unit& unit, const LikelyUnit& likely) {
  if (stated)
    return tr("\"{header}\" says {unit}, yet runs from {least:.4g} to {greatest:.4g}: likely {likely}",
              "header"_a = header, "unit"_a = unit.name, "least"_a = likely.least,
              "greatest"_a = likely.greatest, "likely"_a = likely.name);
  return tr(
      "\"{header}\" would by default be {unit}, yet runs from {least:.4g} to {greatest:.4g}: likely {likely}",
      "header"_a = header, "unit"_a = unit.name, "least"_a = likely.least, "greatest"_a = likely.greatest,
      "likely"_a = likely.name);
}

/// The unit: the header's, or the usual one where it names none. False where none can be.
bool Proposing::take_unit(const ForeignColumn& column, const ParsedName& parsed, Kind kind, bool counter,
                          Unit& unit, std::string& reason) {
  const Dimension own = kind == Kind::sum && parsed.named->other_dimension ? *parsed.named->other_dimension
                                                                           : parsed.named->dimension;
  const bool stated = !column.guess.unit.empty();
  unit = parse_unit(stated ? column.guess.unit : own_unit_name(own));
  reason = stated ? tr("{reason}, its unit too", "reason"_a = reason)
                  : tr("{reason}; it names no unit", "reason"_a = reason);
  const auto values = guess_values(column, table_.decimal_comma, parsed.named->quantity, kind, unit, daily_);
  Channel channel{parsed.named->quantity, kind, {}};
  for (const double number : values.numbers) channel.value.push_back(unit.to_own(number));
  const auto likely = likely_unit(channel, unit, daily_);
  if (!likely || counter) {
    if (!stated) {
      reason = tr("{reason}, and its values can be {unit}", "reason"_a = reason, "unit"_a = unit.name);
      if (unit.dimension != Dimension::proportion)
        proposal_.doubts.push_back(tr("\"{header}\" names no unit: is it {unit}?", "header"_a = column.header,
                                      "unit"_a = unit.name));
    }
    return true;
  }
  const std::string finding = unit_finding(column.header, stated, unit, *likely);
  const auto known = known_unit(likely->name);
  if (!known) {  // Tenths: the file has to be mended.
    leave_out(column.header, tr("{finding}, which no map can name", "finding"_a = finding));
    return false;
  }
  unit = *known;
  proposal_.doubts.push_back(
      tr("{finding}, which stands in the command; look before you run it", "finding"_a = finding));
  reason = tr("{reason}, but its values are likely {unit}", "reason"_a = reason, "unit"_a = likely->name);
  return true;
}

/// Stations show the pressure at sea level more often than they say so.
void Proposing::weigh_pressure(const ForeignColumn& column, const Unit& unit, std::string& name,
                               std::string& reason) const {
  constexpr double telling_kpa = 1.5;
  if (name != "air_pressure") return;
  const auto values =
      guess_values(column, table_.decimal_comma, Quantity::pressure, Kind::mean, unit, daily_);
  double sum = 0;
  for (const double number : values.numbers) sum += unit.to_own(number);
  const double mean_kpa = sum / static_cast<double>(values.numbers.size());
  const double here_kpa = air_pressure_kpa(location_.elevation_m);
  const double sea_kpa = air_pressure_kpa(0);
  if (sea_kpa - here_kpa < telling_kpa || std::abs(mean_kpa - sea_kpa) > std::abs(mean_kpa - here_kpa))
    return;
  name = "air_pressure_at_mean_sea_level";
  reason = tr("{reason}; about {mean:.1f} kPa, which is that at sea level and not at {elevation:.0f} m",
              "reason"_a = reason, "mean"_a = mean_kpa, "elevation"_a = location_.elevation_m);
}

Kind kind_by_guess(const HeaderGuess& guess) {
  if (guess.suffix == "_max" || guess.name == "wind_speed_of_gust") return Kind::maximum;
  if (guess.suffix == "_min") return Kind::minimum;
  if (guess.unit.empty()) return guess.name == "precipitation_amount" ? Kind::sum : Kind::mean;
  const Dimension dimension = parse_unit(guess.unit).dimension;
  return dimension == Dimension::depth || dimension == Dimension::exposure ? Kind::sum : Kind::mean;
}

bool is_rain(const HeaderGuess& guess, bool daily) {
  return guess.name == "precipitation_amount" && !daily && !guess.is_rate;
}

/// A counter of rain: its header says total and it grows, or rests between rains where it is set back often;
/// or it never falls, which rain itself does.
bool is_counter(const HeaderGuess& guess, const ColumnValuesGuess& values, bool daily) {
  if (!is_rain(guess, daily)) return false;
  return guess.is_total ? values.grows || values.rests : values.grows && values.never_falls;
}

/// Why a column of this sort is not read at all, or nothing.
std::string reason_against(const HeaderGuess& guess, const ColumnValuesGuess& values, bool daily) {
  const bool extremes = guess.suffix == "_min" || guess.suffix == "_max";
  const bool of_range = guess.name == "air_temperature" || guess.name == "relative_humidity";
  if (extremes && guess.name != "wind_speed_of_gust" && !(daily && of_range))
    return tr("an extreme; the mean or the value at the time is what counts");
  const bool suspect = guess.is_total || values.grows;
  if (is_rain(guess, daily) && suspect && !is_counter(guess, values, daily))
    return tr("perhaps a running total; what fell in each interval is needed, or a total that plainly grows");
  return {};
}

/// Whether another column tells the rain; two cannot.
std::optional<std::string> Proposing::other_rain(const HeaderGuess& guess, std::string_view name) const {
  if (guess.name != "precipitation_amount") return std::nullopt;
  for (const std::string_view other : {std::string_view("precipitation_amount"), counter_name})
    if (other != name && is_given(other))
      return tr("\"{header}\" tells the rain already",
                "header"_a = proposal_.source.columns.at(std::string(other)).column);
  return std::nullopt;
}

void Proposing::take_quantity(const ForeignColumn& column) {
  const HeaderGuess& guess = column.guess;
  std::string name = guess.name;
  std::string reason = guess.why;
  const Kind kind = kind_by_guess(guess);
  const ParsedName parsed = parse_quantity_name(name).value();
  Unit unit = parse_unit(own_unit_name(parsed.named->dimension));
  const auto first_look =
      guess_values(column, table_.decimal_comma, parsed.named->quantity, kind, unit, daily_);
  if (!first_look.readable) return leave_out(column.header, tr("its cells are no numbers"));
  if (const auto why = reason_against(guess, first_look, daily_); !why.empty())
    return leave_out(column.header, why);
  const bool counter = is_counter(guess, first_look, daily_);
  if (!take_unit(column, parsed, kind, counter, unit, reason)) return;
  weigh_pressure(column, unit, name, reason);
  if (daily_ && (guess.suffix == "_min" || guess.suffix == "_max") && name != "wind_speed_of_gust")
    name += guess.suffix;
  if (counter) {
    name = std::string(counter_name);
    reason = tr("{reason}; a running total, of which the rises are taken", "reason"_a = reason);
    if (!guess.is_total)
      proposal_.doubts.push_back(
          tr("\"{header}\" never falls: is it a running total?", "header"_a = column.header));
  }
  if (const auto other = other_rain(guess, name)) return leave_out(column.header, *other);
  if (is_given(name))
    return leave_out(column.header,
                     tr("\"{header}\" is {name} already",
                        "header"_a = proposal_.source.columns.at(name).column, "name"_a = name));
  const auto missing =
      guess_values(column, table_.decimal_comma, parsed.named->quantity, kind, unit, daily_).missing;
  if (!missing.empty())
    reason = tr("{reason}; no value is written {missing}", "reason"_a = reason,
                "missing"_a = fmt::join(missing, ", "));
  proposal_.source.columns[name] = {column.header, std::string(unit.name), {}, missing};
  proposal_.columns.push_back({name, column.header, std::string(unit.name), reason});
}

/// Columns of the mean first, then running totals, then those that are a rate: an amount is better.
int rank_of(const HeaderGuess& guess) {
  return (guess.is_rate ? 4 : 0) + (guess.is_total ? 2 : 0) +
         (guess.suffix.empty() || guess.suffix == "_mean" ? 0 : 1);
}

void Proposing::take_quantities() {
  std::vector<const ForeignColumn*> wanted;
  for (const ForeignColumn& column : table_.columns) {
    if (header_is_given(column.header)) continue;
    if (column.guess.role == Role::quantity) {
      wanted.push_back(&column);
    } else if (column.guess.role != Role::time) {
      leave_out(column.header,
                column.guess.role == Role::left_out ? column.guess.why : tr("nothing is made of it"));
    } else {
      leave_out(column.header, tr("another time"));
    }
  }
  std::stable_sort(wanted.begin(), wanted.end(), [](const ForeignColumn* a, const ForeignColumn* b) {
    return rank_of(a->guess) < rank_of(b->guess);
  });
  for (const ForeignColumn* const column : wanted) take_quantity(*column);
}

Readings Proposing::read(const std::filesystem::path& path) const {
  return read_table(path, proposal_.source, location_, clock_);
}

/// Rows in an hour that the clock skips tell of a logger that does not go along with it.
void Proposing::settle_clock(const std::filesystem::path& path, Readings& readings) {
  if (has_note(readings.notes, "doubled-hour") && !has_note(readings.notes, "absent-hour"))
    proposal_.settings.push_back(
        tr("time zone as the site's: the rows follow the change to and from summer time"));
  if (!has_note(readings.notes, "absent-hour") || !proposal_.source.time_zone.empty()) return;
  proposal_.source.time_zone =
      offset_text(clock_.standard_offset_at(readings.blocks.at(0).spans.at(0).begin));
  proposal_.settings.push_back(
      tr("time zone {time_zone}: the file has rows in an hour that the clock of {zone} skips, so its logger "
         "keeps one "
         "time all year",
         "time_zone"_a = proposal_.source.time_zone, "zone"_a = clock_.name()));
  readings = read(path);
}

bool Proposing::is_late(const Readings& readings) const {
  return has_note(check_quality(resample(readings, location_), {}, location_, clock_), "radiation-late");
}

/// The sun tells which end of the hour a stamp is of.
void Proposing::settle_stamp(const std::filesystem::path& path, Readings& readings) {
  if (daily_ || proposal_.source.stamp) return;
  const bool sunny = is_given("surface_downwelling_shortwave_flux_in_air");
  if (sunny && is_late(readings)) {
    proposal_.source.stamp = Stamp::end;
    Readings ending = read(path);
    if (!is_late(ending)) {
      proposal_.settings.emplace_back(tr("stamp end: only so does the radiation keep step with the sun"));
      readings = std::move(ending);
      return;
    }
    proposal_.source.stamp.reset();
  }
  proposal_.doubts.emplace_back(
      tr("a row's time is taken for the start of its interval, or where rows are over an hour apart for a "
         "moment; add "
         "--stamp end where it is the end"));
}

ColumnProposal Proposing::work_out(const std::filesystem::path& path) {
  keep_given();
  take_time();
  take_quantities();
  Readings readings = read(path);
  settle_clock(path, readings);
  settle_stamp(path, readings);
  const bool windy = is_given("wind_speed") || is_given("wind_speed_of_gust");
  if (windy && !proposal_.source.wind_height_m)
    proposal_.doubts.emplace_back(
        tr("the wind is taken as measured at 2 m; add --wind-height M where it stands higher"));
  proposal_.summary = summary_of(readings);
  return std::move(proposal_);
}

/// A table that names itself needs no map; nothing where it does not.
std::optional<ColumnProposal> as_it_is(const std::filesystem::path& path, const SourceSettings& given,
                                       const Location& location, const Clock& clock) {
  if (!given.columns.empty()) return std::nullopt;
  try {
    return ColumnProposal{
        "table", given, {}, {}, {}, {}, summary_of(read_table(path, given, location, clock))};
  } catch (const DataError&) {
    return std::nullopt;
  }
}

}  // namespace

ColumnProposal propose_columns(const std::filesystem::path& path, const SourceSettings& given,
                               const Location& location, const Clock& site_clock) {
  const std::string reader = reader_of(path, given);
  if (reader != "table") {
    ColumnProposal nothing;
    nothing.reader = reader;
    nothing.source = given;
    nothing.summary = summary_of(read_weather_file(path, given, location, site_clock));
    return nothing;
  }
  if (const auto named = as_it_is(path, given, location, site_clock)) return *named;
  return Proposing(given, location, site_clock, read_foreign_table(path)).work_out(path);
}

}  // namespace graftcast
