#include "version.hpp"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "graftcast/error.hpp"
#include "parameters/models.hpp"

namespace graftcast::cli {

namespace {

std::string models_words() {
  try {
    const auto folder = published_models_folder();
    const Models models = load_models(folder);
    return fmt::format("models: {} species, {} methods, format 1, in {}", models.species.size(),
                       models.methods.size(), folder.string());
  } catch (const Error& error) {
    return fmt::format("models: {}", error.what());
  }
}

}  // namespace

std::string program_name() {
  return fmt::format("graftcast/{}", GRAFTCAST_VERSION);
}

std::string program_date() {
  return GRAFTCAST_DATE;
}

std::string version_text() {
  return fmt::format("graftcast {} ({})\n{} build, {} {}, C++ {}\nfmt {}.{}.{}, nlohmann_json {}.{}.{}\n{}\n",
                     GRAFTCAST_VERSION, GRAFTCAST_COMMIT, GRAFTCAST_BUILD_TYPE, GRAFTCAST_COMPILER,
                     GRAFTCAST_COMPILER_VERSION, __cplusplus / 100 % 100, FMT_VERSION / 10000,
                     FMT_VERSION / 100 % 100, FMT_VERSION % 100, NLOHMANN_JSON_VERSION_MAJOR,
                     NLOHMANN_JSON_VERSION_MINOR, NLOHMANN_JSON_VERSION_PATCH, models_words());
}

}  // namespace graftcast::cli
