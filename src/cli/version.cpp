#include "version.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"
#include "parameters/models.hpp"
#include "text/tr.hpp"

namespace graftcast::cli {

namespace {

std::string models_words() {
  try {
    const auto folder = published_models_folder();
    const Models models = load_models(folder);
    return tr("models: {species} species, {methods} methods, format 1, in {folder}",
              "species"_a = models.species.size(), "methods"_a = models.methods.size(),
              "folder"_a = folder.string());
  } catch (const Error& error) {
    return tr("models: {reason}", "reason"_a = error.what());
  }
}

std::string build_words() {
  return tr("{type} build, {compiler} {version}, C++ {standard}", "type"_a = GRAFTCAST_BUILD_TYPE,
            "compiler"_a = GRAFTCAST_COMPILER, "version"_a = GRAFTCAST_COMPILER_VERSION,
            "standard"_a = __cplusplus / 100 % 100);
}

}  // namespace

std::string program_name() {
  return fmt::format("graftcast/{}", GRAFTCAST_VERSION);
}

std::string program_date() {
  return GRAFTCAST_DATE;
}

std::string version_text() {
  return fmt::format("graftcast {} ({})\n{}\nfmt {}.{}.{}, nlohmann_json {}.{}.{}\n{}\n", GRAFTCAST_VERSION,
                     GRAFTCAST_COMMIT, build_words(), FMT_VERSION / 10000, FMT_VERSION / 100 % 100,
                     FMT_VERSION % 100, NLOHMANN_JSON_VERSION_MAJOR, NLOHMANN_JSON_VERSION_MINOR,
                     NLOHMANN_JSON_VERSION_PATCH, models_words());
}

}  // namespace graftcast::cli
