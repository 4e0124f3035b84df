#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "report/terminal_report.hpp"
#include "report/text_layout.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;

const Models& models() {
  static const Models loaded = load_models(GRAFTCAST_SOURCE_DIR "/models");
  return loaded;
}

TEST(ModelsList, NamesEveryEntry) {
  const std::string text = models_list_text(models(), {});
  const KnownNames names = models().known_names();
  for (const auto* list : {&names.species, &names.methods, &names.covers, &names.wraps})
    for (const std::string& name : *list) EXPECT_THAT(text, HasSubstr("  " + name));
}

TEST(ModelEntry, ShowsEveryNumberWithUnitRangeGradeAndSource) {
  // In ASCII the texts of the files stand as they are; a UTF-8 terminal gets degree signs.
  const std::string text = *model_entry_text(models(), "avocado", {.width = 400, .utf8 = false});
  for (const auto& [key, number] : models().species.at("avocado").numbers()) {
    EXPECT_THAT(text, HasSubstr(std::string(key) + " = "));
    EXPECT_THAT(text, HasSubstr(number->unit));
    EXPECT_THAT(text, HasSubstr(to_ascii(number->source)));
  }
  EXPECT_THAT(text, HasSubstr("grade "));
}

TEST(ModelEntry, IsFoundInEverySectionThatHasTheName) {
  const std::string text = *model_entry_text(models(), "none", {});
  EXPECT_THAT(text, HasSubstr("cover none"));
  EXPECT_THAT(text, HasSubstr("wrap none"));
  EXPECT_FALSE(model_entry_text(models(), "no such thing", {}));
}

TEST(ModelEntry, KeepsWithinTheWidth) {
  for (const auto& [name, entry] : models().species) {
    std::istringstream text(*model_entry_text(models(), name, {}));
    for (std::string line; std::getline(text, line);) EXPECT_LE(display_width(line), 80U) << line;
  }
}

}  // namespace
}  // namespace graftcast
