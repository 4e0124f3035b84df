#pragma once
// What every entry of models/*.json has in common: a name, a title, and a table of its keys.

#include <map>
#include <string>
#include <string_view>

#include "parameters/parameter.hpp"

namespace graftcast {

struct KeyTable;

/// A named set of numbers and words: a species, a method, a cover, a group of constants. What it holds are
/// the members of the structs that derive from it; a table beside each names them for files and listings.
struct Entry {
  std::string name;   ///< As in the ledger and the files: "cherry".
  std::string title;  ///< For people: "Sweet and sour cherry".

  /// Its numbers by key, in the order of the alphabet; those that may be absent only where they are given.
  std::map<std::string_view, const Parameter*> numbers() const;
  /// Its words by key, as the files spell them.
  std::map<std::string_view, std::string> words() const;
  const KeyTable& table() const { return *table_; }

 protected:
  explicit Entry(const KeyTable& table);

 private:
  const KeyTable* table_;
};

/// An entry whose keys stand in `Self::table`; a fixed group of constants bears the name that this gives it.
template <typename Self>
struct KeyedEntry : Entry {
  KeyedEntry() : Entry(Self::table) {}
};

}  // namespace graftcast
