#pragma once
// Which keys an entry of models/*.json has, in which unit, and within which limits.

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace graftcast::model_keys {

/// Sections a file of models may hold, each a list of entries (`cold_tables`: of tables).
enum class Section : std::uint8_t { species, methods, covers, wraps, scion_states, hazards, shared };
inline constexpr auto sections = std::to_array<std::string_view>(
    {"species", "methods", "covers", "wraps", "scion_states", "hazards", "shared", "cold_tables"});

/// What a key asks of its number beyond the limits of its unit.
enum class Ask : std::uint8_t {
  any,       ///< Required; zero and below where the unit allows.
  positive,  ///< Required, above zero: the model divides by it or takes its logarithm.
  optional,  ///< May be absent.
};

struct NumberKey {
  std::string_view key;
  std::string_view unit;
  Ask ask = Ask::any;
};

/// A word; `choices` separated by blanks, empty where any text will do.
struct WordKey {
  std::string_view key;
  std::string_view choices;
};

/// What an entry must hold.
struct EntryKeys {
  std::span<const NumberKey> numbers;
  std::span<const WordKey> words;
};

/// Keys of entry `name` of `section`. The groups of `hazards` and `shared` are fixed: an unknown name has
/// neither numbers nor words. In the other sections every name has the same keys.
EntryKeys keys_of(Section section, std::string_view name);

/// A fixed group of `hazards` or `shared`.
struct Group {
  std::string_view name;
  EntryKeys keys;
};

/// The fixed groups of `hazards` or `shared`; none for the other sections.
std::span<const Group> groups_of(Section section);

/// Names of the fixed groups of `hazards` or `shared`; empty for the other sections.
std::vector<std::string> fixed_names(Section section);

/// Smallest and greatest sensible number in a unit: guards against a slip of the decimal point or of the
/// unit.
struct Limits {
  double least, greatest;
};
Limits limits_of(std::string_view unit);

}  // namespace graftcast::model_keys
