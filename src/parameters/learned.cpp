#include "parameters/learned.hpp"

#include <array>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "json_node.hpp"
#include "text/json_document.hpp"

namespace graftcast {

namespace {

constexpr double largest_shift = 3;

struct NamedShift {
  const char* name;
  double Shifts::*value;
};
constexpr std::array named_shifts{NamedShift{"pace", &Shifts::pace}, NamedShift{"drying", &Shifts::drying},
                                  NamedShift{"failure", &Shifts::failure}};

double number_within(const JsonNode& node, double low, double high) {
  const double value = node.number();
  if (!(value >= low && value <= high))
    node.fail(fmt::format("{} is {}", node.label(), value), fmt::format("a number from {} to {}", low, high));
  return value;
}

LearnedShifts shifts_of(const JsonNode& node) {
  node.object().allow_keys(std::array<std::string, 4>{"pace", "drying", "failure", "outcomes"});
  LearnedShifts learned;
  for (const NamedShift& shift : named_shifts) {
    const JsonNode value = node.at(shift.name);
    value.object().allow_keys(std::array<std::string, 2>{"mean", "sd"});
    learned.mean.*shift.value = number_within(value.at("mean"), -largest_shift, largest_shift);
    learned.sd.*shift.value = number_within(value.at("sd"), 0, largest_shift);
  }
  learned.outcomes = static_cast<int>(number_within(node.at("outcomes"), 0, 1e9));
  return learned;
}

std::map<std::string, LearnedShifts> group_of(const JsonNode& node) {
  std::map<std::string, LearnedShifts> group;
  for (const auto& [name, value] : node.object().value().items()) group[name] = shifts_of(node.at(name));
  return group;
}

nlohmann::ordered_json group_json(const std::map<std::string, LearnedShifts>& learned_by_name) {
  nlohmann::ordered_json group = nlohmann::ordered_json::object();
  for (const auto& [name, learned] : learned_by_name) {
    for (const NamedShift& shift : named_shifts)
      group[name][shift.name] = {{"mean", learned.mean.*shift.value}, {"sd", learned.sd.*shift.value}};
    group[name]["outcomes"] = learned.outcomes;
  }
  return group;
}

}  // namespace

Shifts operator+(const Shifts& a, const Shifts& b) {
  return {a.pace + b.pace, a.drying + b.drying, a.failure + b.failure};
}

Shifts Learned::of(const std::string& species_name, const std::string& method_name) const {
  Shifts sum;
  if (const auto found = species.find(species_name); found != species.end()) sum = sum + found->second.mean;
  if (const auto found = methods.find(method_name); found != methods.end()) sum = sum + found->second.mean;
  return sum;
}

double moved_chance(double chance, double shift) {
  return 1 / (1 + (1 - chance) / chance * std::exp(-shift));
}

nlohmann::ordered_json learned_to_json(const Learned& learned) {
  return {{"format", 1},
          {"x-about",
           "Written by 'graftcast learn' from this site's own results. Delete it to go back to the published "
           "numbers."},
          {"fitted_at", learned.fitted_at},
          {"outcomes", learned.outcomes},
          {"species", group_json(learned.species)},
          {"methods", group_json(learned.methods)}};
}

Learned read_learned(const std::filesystem::path& file) {
  if (!std::filesystem::exists(file)) return {};
  const JsonDocument document = JsonDocument::from_file(file);
  const JsonNode root(document);
  root.object().allow_keys(
      std::array<std::string, 5>{"format", "fitted_at", "outcomes", "species", "methods"});
  if (root.at("format").number() != 1)
    root.at("format").fail("the format of learned.json is not 1", "run 'graftcast learn' again");
  Learned learned;
  learned.fitted_at = root.at("fitted_at").text();
  learned.outcomes = static_cast<int>(number_within(root.at("outcomes"), 0, 1e9));
  learned.species = group_of(root.at("species"));
  learned.methods = group_of(root.at("methods"));
  return learned;
}

}  // namespace graftcast
