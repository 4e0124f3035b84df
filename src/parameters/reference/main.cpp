// Writes what the tables of keys tell of models/*.json: model_reference MODELS-FOLDER.

#include <filesystem>
#include <fstream>

#include <nlohmann/json.hpp>

#include "parameters/models_reference.hpp"

int main(int count, char** words) {
  if (count != 2) return 64;
  const std::filesystem::path folder = words[1];
  std::ofstream(folder / "schema" / "model-files.json") << graftcast::model_files_schema().dump(1) << '\n';
  std::ofstream(folder / "keys.md") << graftcast::model_keys_page();
}
