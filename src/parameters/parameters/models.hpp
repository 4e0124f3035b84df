#pragma once
// models/*.json: every constant with a physical or biological meaning, with unit, range, source and grade.

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "parameters/known_names.hpp"
#include "parameters/learned.hpp"

namespace graftcast {

/// One number of the model with where it comes from.
struct Parameter {
  double value = 0;
  std::string unit;
  double low = 0, high = 0;  ///< Plausible range, low <= value <= high.
  /// Spread over ensemble members: `normal` (sd absolute; low and high truncate), `lognormal` (sd of the
  /// logarithm), or none.
  enum class Spread { none, normal, lognormal } spread = Spread::none;
  double sd = 0;
  std::string source;
  char grade = 'C';  ///< A published, B published but transferred, C judgement.
};

/// A named set of numbers and words: a species, a method, a cover, a wrap, a scion state, or the shared
/// constants. Lookup is by key; a key that is absent is a programming or data error.
class Entry {
 public:
  std::string name;
  std::string title;  ///< For people: "Sweet and sour cherry".
  std::map<std::string, Parameter> numbers;
  std::map<std::string, std::string> words;

  bool has(std::string_view key) const;
  double value(std::string_view key) const;  ///< DataError naming entry and key when absent.
  const Parameter& number(std::string_view key) const;
  std::string word(std::string_view key) const;  ///< Empty when absent.
};

/// A row of a cold table: temperatures that kill 10 % and 90 % of wood and buds from one stage on.
struct ColdRow {
  std::string stage;          ///< For people: "green tip".
  double bud_stage_from = 0;  ///< Bud clock B from which the row holds; 1 is bud push.
  Parameter t10_c, t90_c;     ///< 10 % and 90 % killed, degC; t90 is the colder.
};

struct Models {
  std::map<std::string, Entry> species, methods, covers, wraps, scion_states, hazards;
  std::map<std::string, Entry> shared;  ///< Constants of the union model by group.
  /// By the name in a species' word `cold_table`; rows begin at B = 0 and rise.
  std::map<std::string, std::vector<ColdRow>> cold_tables;
  Learned learned;  ///< Of the site's own results; empty for the published numbers alone.

  /// Error of both: DataError with the nearest names.
  const Entry& species_named(std::string_view name) const;
  const Entry& method_named(std::string_view name) const;
  KnownNames known_names() const;
};

/// Reads models/*.json of `published` and, when given and there, the owner's own files in `own` (same
/// layout). An owner's entry of a known name replaces single keys; a new one gives all keys, or takes them
/// from the entry that its `"like"` names. A value replaced without a source counts as the owner's, grade C;
/// the rest of the number stays. Afterwards every entry has every key of its section, every number lies in
/// its range and unit, and every name of a cold table, wrap or cover is known. Errors: OpenError, DataError
/// (place, nearest key).
Models load_models(const std::filesystem::path& published,
                   const std::optional<std::filesystem::path>& own = std::nullopt);

/// All of `models` in the layout of models/*.json, so that load_models reads it back to the same.
nlohmann::json models_to_json(const Models& models);

/// Folder of the installed or source models: $GRAFTCAST_MODELS, else beside the program, else the source
/// tree.
std::filesystem::path published_models_folder();

}  // namespace graftcast
