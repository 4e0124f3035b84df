#pragma once
// What models/*.json may hold, told from the tables of keys: the schema for editors and the page for people.

#include <string>

#include <nlohmann/json_fwd.hpp>

namespace graftcast {

/// JSON Schema (draft 7) of every file of models: models/schema/model-files.json.
nlohmann::ordered_json model_files_schema();

/// Every key with its unit, limits and meaning, in Markdown: models/keys.md.
std::string model_keys_page();

}  // namespace graftcast
