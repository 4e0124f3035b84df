#pragma once
// Reads the folders of models into one set, the published one first and the owner's on top of it.

#include <set>
#include <utility>

#include "json_node.hpp"
#include "model_keys.hpp"
#include "parameters/models.hpp"

namespace graftcast {

class ModelsReader {
 public:
  /// All *.json files of `folder`, in the order of their names. Errors: OpenError, DataError.
  void read_folder(const std::filesystem::path& folder);
  void read_document(const JsonDocument& document);
  /// The set, when all groups are there and all names of tables, wraps and covers are known; DataError
  /// otherwise.
  Models finished(const std::filesystem::path& folder);

 private:
  void read_section(const JsonNode& list, model_keys::Section section);
  void read_cold_tables(const JsonNode& list);
  const Entry* base_of(const JsonNode& node, model_keys::Section section, const std::string& name) const;
  void claim_name(const JsonNode& node, const std::string& section);
  void note_references(const JsonNode& node, model_keys::Section section, const Entry& entry);

  /// A word that must name something that may only be read later.
  struct Reference {
    Position position;
    std::string key, name;
  };

  Models models_;
  std::set<std::pair<std::string, std::string>> named_in_folder_;
  std::vector<Reference> references_;
};

}  // namespace graftcast
