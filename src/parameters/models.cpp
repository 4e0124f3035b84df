#include "parameters/models.hpp"

#include <cstdlib>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "models_reader.hpp"
#include "section_of.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace {

const Entry& entry_named(const std::map<std::string, Entry>& entries, std::string_view name,
                         const char* what) {
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

bool Entry::has(std::string_view key) const {
  return numbers.contains(std::string(key));
}

const Parameter& Entry::number(std::string_view key) const {
  const auto found = numbers.find(std::string(key));
  if (found == numbers.end()) {
    throw DataError({}, fmt::format("entry '{}' has no number '{}'", name, key),
                    known_names_hint(key, keys_in(numbers)));
  }
  return found->second;
}

double Entry::value(std::string_view key) const {
  return number(key).value;
}

std::string Entry::word(std::string_view key) const {
  const auto found = words.find(std::string(key));
  return found != words.end() ? found->second : std::string{};
}

const Entry& Models::species_named(std::string_view name) const {
  return entry_named(species, name, "species");
}

const Entry& Models::method_named(std::string_view name) const {
  return entry_named(methods, name, "method");
}

KnownNames Models::known_names() const {
  return {keys_in(species), keys_in(methods), keys_in(wraps), keys_in(covers)};
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
