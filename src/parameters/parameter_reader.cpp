#include "parameter_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

namespace graftcast {

namespace {

using Spread = Parameter::Spread;

const auto part_keys =
    std::to_array<std::string>({"value", "unit", "low", "high", "spread", "sd", "source", "grade"});

constexpr auto spreads = std::to_array<Spread>({Spread::none, Spread::normal, Spread::lognormal});

Spread read_spread(const JsonNode& node) {
  for (const Spread spread : spreads)
    if (node.text() == spread_word(spread)) return spread;
  node.fail(fmt::format("spread is '{}'", node.text()), "use normal, lognormal or none");
}

char read_grade(const JsonNode& node) {
  const auto& text = node.text();
  if (text != "A" && text != "B" && text != "C")
    node.fail(fmt::format("grade is '{}'", text), "use A, B or C");
  return text.front();
}

std::string read_source(const JsonNode& node) {
  if (std::ranges::all_of(node.text(), [](char letter) { return letter == ' '; }))
    node.fail("source is empty", "give author and year, or 'judgement: why'");
  return node.text();
}

void check_unit(const JsonNode& node, const NumberRow& row) {
  if (node.text() != row.unit)
    node.fail(fmt::format("unit of {} is '{}'", row.place.key, node.text()),
              fmt::format("use '{}'", row.unit));
}

// The part named, where it was given; the whole number otherwise.
JsonNode place_of(const JsonNode& node, std::string_view part) {
  return node.has(part) ? node.at(part) : node;
}

void check_range(const JsonNode& node, const NumberRow& row, const Parameter& parameter) {
  if (parameter.low > parameter.high) {
    place_of(node, "low")
        .fail(fmt::format("{}: low {} is above high {}", row.place.key, parameter.low, parameter.high),
              "use a low at or below the high");
  }
  if (parameter.value < parameter.low || parameter.value > parameter.high) {
    place_of(node, "value")
        .fail(fmt::format("{} is {}, outside its range {} to {} {}", row.place.key, parameter.value,
                          parameter.low, parameter.high, row.unit),
              "use a value within it, or give a wider low and high");
  }
}

void check_limits(const JsonNode& node, const NumberRow& row, const Parameter& parameter) {
  const UnitLimits& limits = limits_of(row.unit);
  if (parameter.low < limits.least || parameter.high > limits.greatest) {
    place_of(node, parameter.low < limits.least ? "low" : "high")
        .fail(fmt::format("{} may run from {} to {} {}", row.place.key, parameter.low, parameter.high,
                          row.unit),
              fmt::format("use a range within {} to {} {}", limits.least, limits.greatest, row.unit));
  }
  const bool above_zero = row.above_zero || parameter.spread == Spread::lognormal;
  if (above_zero && parameter.low <= 0) {
    place_of(node, "low")
        .fail(fmt::format("{} may run down to {} {}", row.place.key, parameter.low, row.unit),
              "use a low above zero");
  }
}

void check_spread(const JsonNode& node, const NumberRow& row, const Parameter& parameter) {
  if ((parameter.spread == Spread::none) != (parameter.sd == 0) || parameter.sd < 0) {
    place_of(node, "sd")
        .fail(fmt::format("{} has spread {} with sd {}", row.place.key, spread_word(parameter.spread),
                          parameter.sd),
              "use an sd above zero with normal or lognormal, and none without");
  }
}

}  // namespace

std::string_view spread_word(Spread spread) {
  switch (spread) {
    case Spread::normal:
      return "normal";
    case Spread::lognormal:
      return "lognormal";
    case Spread::none:
      break;
  }
  return "none";
}

Parameter read_parameter(const JsonNode& node, const NumberRow& row, const Parameter* published) {
  node.allow_keys(part_keys);
  Parameter parameter = published != nullptr ? *published : Parameter{};
  const auto given = [&](std::string_view part) { return published == nullptr || node.has(part); };
  if (given("value")) parameter.value = node.at("value").number();
  if (given("unit")) check_unit(node.at("unit"), row);
  parameter.unit = row.unit;
  if (given("low")) parameter.low = node.at("low").number();
  if (given("high")) parameter.high = node.at("high").number();
  if (node.has("spread")) parameter.spread = read_spread(node.at("spread"));
  if (node.has("sd")) parameter.sd = node.at("sd").number();
  if (given("source")) {
    parameter.source = read_source(node.at("source"));
  } else if (node.has("value")) {
    parameter.source = "the owner's own value, in " + node.file();
  }
  if (given("grade")) {
    parameter.grade = read_grade(node.at("grade"));
  } else if (node.has("value")) {
    parameter.grade = 'C';
  }
  check_range(node, row, parameter);
  check_limits(node, row, parameter);
  check_spread(node, row, parameter);
  return parameter;
}

}  // namespace graftcast
