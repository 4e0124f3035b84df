#pragma once
// Reads the folders of models into one set, the published one first and the owner's on top of it.

#include <map>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "json_node.hpp"
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
  template <typename Map>
  void read_map(const JsonNode& list, const std::string& section, Map& entries);
  template <typename Map>
  bool start_from(const JsonNode& node, const std::string& section, const std::string& name, Map& entries);
  void read_groups(const JsonNode& list, const std::string& section, const std::vector<Entry*>& groups);
  void read_cold_tables(const JsonNode& list);
  JsonNode claimed(const JsonNode& node, const std::string& section);
  void claim_name(const JsonNode& node, const std::string& section);
  void note_references(const JsonNode& node, const Entry& entry);
  void require_names(const std::string& section, const std::vector<std::string>& names,
                     const std::filesystem::path& folder) const;

  /// A word that must name something that may only be read later.
  struct Reference {
    Position position;
    std::string key, section, name;
  };

  Models models_;
  /// Names by section: of the folder that is being read, and of all.
  std::set<std::pair<std::string, std::string>> named_in_folder_, named_;
  std::vector<Reference> references_;
};

}  // namespace graftcast
