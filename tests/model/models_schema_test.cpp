// The schema that ships beside the files of models, held against the files and against what the loader takes.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "json_schema.hpp"
#include "parameters/models.hpp"
#include "parameters/models_reference.hpp"
#include "temporary_folder.hpp"
#include "text/json_document.hpp"
#include "text/text.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::SchemaCheck;
using testing::TemporaryFolder;

const std::filesystem::path published = GRAFTCAST_SOURCE_DIR "/models";

const json& schema() {
  static const json root = JsonDocument::from_file(published / "schema" / "model-files.json").root();
  return root;
}

json file(const std::string& name) {
  return JsonDocument::from_file(published / name).root();
}

TEST(ModelFilesSchema, FitsEveryPublishedFile) {
  const SchemaCheck check(schema());
  for (const auto* name : {"species.json", "methods.json", "covers.json", "hazards.json", "union.json"})
    EXPECT_THAT(check.complaints(file(name)), IsEmpty()) << name;
}

TEST(ModelFilesSchema, FitsWhatIsWrittenOut) {
  EXPECT_THAT(SchemaCheck(schema()).complaints(models_to_json(load_models(published))), IsEmpty());
}

struct Fault {
  const char* pointer;
  json value;
  const char* complaint;
};

TEST(ModelFilesSchema, ComplainsOfWrongKeysUnitsGradesAndNumbers) {
  const std::string days = "/species/0/numbers/bridge_days";
  const auto complaints_of = [](const std::string& pointer, const json& value) {
    json changed = file("species.json");
    changed[json::json_pointer(pointer)] = value;
    return SchemaCheck(schema()).complaints(changed);
  };
  EXPECT_THAT(complaints_of(days + "/unit", "h"), Contains(HasSubstr("/unit: const \"d\"")));
  EXPECT_THAT(complaints_of(days + "/grade", "D"), Contains(HasSubstr("/grade: enum")));
  EXPECT_THAT(complaints_of(days + "/value", "12"), Contains(HasSubstr("/value: type")));
  EXPECT_THAT(complaints_of(days + "/high", 4000), Contains(HasSubstr("/high: maximum")));
  EXPECT_THAT(complaints_of(days + "/sd", -1), Contains(HasSubstr("/sd: minimum")));
  EXPECT_THAT(complaints_of(days + "/source", " "), Contains(HasSubstr("/source: pattern")));
  EXPECT_THAT(complaints_of(days + "/typo", 1), Contains(HasSubstr("/typo: not allowed")));
  EXPECT_THAT(complaints_of("/species/0/numbers/bridge_day", json::object()),
              Contains(HasSubstr("not allowed")));
  EXPECT_THAT(complaints_of("/species/0/words/growth", "shrub"), Contains(HasSubstr("/growth: enum")));
  EXPECT_THAT(complaints_of("/species/0/name", "Apple tree"), Contains(HasSubstr("/name: pattern")));
  EXPECT_THAT(complaints_of("/format", 2), Contains(HasSubstr("/format: const")));
  EXPECT_THAT(complaints_of("/cold_tables/0/rows", json::array()), Contains(HasSubstr("minItems")));
  EXPECT_THAT(complaints_of("/x-note", 1), IsEmpty());
}

// `ninja model_reference_files` writes both anew.
TEST(ModelFilesSchema, IsWhatTheTablesOfKeysTell) {
  EXPECT_EQ(read_text_file(published / "schema" / "model-files.json"), model_files_schema().dump(1) + '\n');
}

TEST(ModelKeysPage, IsWhatTheTablesOfKeysTell) {
  EXPECT_EQ(read_text_file(published / "keys.md"), model_keys_page());
}

TEST(ModelKeysPage, SaysUnitLimitsAndMeaningOfAKey) {
  const std::string page = model_keys_page();
  EXPECT_THAT(page, HasSubstr("## species\n"));
  EXPECT_THAT(page, HasSubstr("| `bridge_days` | d | above 0 to 400 | "));
  EXPECT_THAT(page, HasSubstr("| `growth` | word | deciduous, evergreen | "));
  EXPECT_THAT(page, HasSubstr("`callus_optimum_c` lies at least 6 above `callus_lower_c`."));
}

TEST(ModelFilesSchema, NamesNoKeyThatTheLoaderRefuses) {
  const auto models = models_to_json(load_models(published));
  for (const std::string section : {"species", "methods", "covers", "wraps", "scion_states"}) {
    json own = {{"format", 1}, {section, json::array()}};
    const auto& properties = schema()["definitions"][section]["properties"];
    auto entry = models[section][0];
    for (const auto& [key, rule] : properties["numbers"]["properties"].items())
      for (const auto& other : models[section])
        if (!entry["numbers"].contains(key) && other["numbers"].contains(key))
          entry["numbers"][key] = other["numbers"][key];
    EXPECT_EQ(entry["numbers"].size(), properties["numbers"]["properties"].size()) << section;
    EXPECT_EQ(entry["words"].size(), properties["words"]["properties"].size()) << section;
    own[section].push_back(entry);
    const TemporaryFolder folder;
    folder.write("own.json", own.dump());
    EXPECT_NO_THROW(load_models(published, folder.path())) << section;
  }
}

}  // namespace
}  // namespace graftcast
