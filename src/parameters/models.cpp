#include "parameters/models.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "models_reader.hpp"
#include "sections.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

template <typename Type>
const Type& entry_named(const std::map<std::string, Type>& entries, std::string_view name, const char* what) {
  const auto found = entries.find(std::string(name));
  if (found == entries.end())
    throw DataError({}, fmt::format("no {} '{}'", what, name), known_names_hint(name, keys_in(entries)));
  return found->second;
}

std::filesystem::path program_folder() {
  std::error_code problem;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", problem);
  return problem ? std::filesystem::path{} : program.parent_path();
}

bool holds_models(const std::filesystem::path& folder) {
  std::error_code problem;
  return std::filesystem::is_regular_file(folder / "species.json", problem);
}

}  // namespace

const Species& Models::species_named(std::string_view name) const {
  return entry_named(species, name, "species");
}

const Method& Models::method_named(std::string_view name) const {
  return entry_named(methods, name, "method");
}

const SignChances* Models::sign_of(std::string_view event) const {
  const auto found = std::ranges::find(signs, "sign-" + std::string(event), &SignChances::name);
  return found != signs.end() ? &*found : nullptr;
}

KnownNames Models::known_names() const {
  return {keys_in(species), keys_in(methods), keys_in(wraps), keys_in(covers)};
}

std::vector<ModelSection> sections_of(const Models& models) {
  std::vector<ModelSection> sections;
  for_each_map(models, [&](const char* name, const auto& entries) {
    sections.push_back({name, {}});
    for (const auto& item : entries) sections.back().entries.emplace(item.first, &item.second);
  });
  for (const auto& [name, groups] :
       {std::pair("hazards", hazards_of(models)), std::pair("shared", shared_of(models))}) {
    sections.push_back({name, {}});
    for (const Entry* group : groups) sections.back().entries.emplace(group->name, group);
  }
  return sections;
}

Models load_models(const std::filesystem::path& published, const std::optional<std::filesystem::path>& own) {
  ModelsReader reader;
  reader.read_folder(published);
  if (own && std::filesystem::exists(*own)) reader.read_folder(*own);
  return reader.finished(published);
}

std::filesystem::path published_models_folder() {
  if (const char* named = std::getenv("GRAFTCAST_MODELS"); named != nullptr && *named != '\0') {
    if (!holds_models(named))
      throw OpenError(named, "no species.json in the folder GRAFTCAST_MODELS names", "");
    return named;
  }
  const auto program = program_folder();
  for (const auto& folder : {program / "models", program.parent_path() / GRAFTCAST_DATA_FOLDER / "models",
                             std::filesystem::path(GRAFTCAST_SOURCE_MODELS)})
    if (holds_models(folder)) return folder;
  throw OpenError(program.string(), "no folder of models beside the program",
                  "install graftcast, or set GRAFTCAST_MODELS to the folder");
}

}  // namespace graftcast
