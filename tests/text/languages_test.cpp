// Which language is spoken: by name, and by the environment as gettext's manual orders its variables.

#include "text/languages.hpp"

#include <cstdlib>
#include <optional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "made_catalogue.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// A folder with Spanish, Spanish of Mexico and a damaged Polish; the environment is put back at the end.
class LanguagesIn : public ::testing::Test {
 protected:
  LanguagesIn() {
    for (const char* name : {"es", "es_MX"}) make(name, testing::mo_bytes({{"", ""}, {"who", name}}));
    make("pl", "damaged");
    std::filesystem::create_directories(folder_.path() / "fr" / "LC_MESSAGES");
    for (const char* name : variables) {
      const char* value = std::getenv(name);
      before_.emplace_back(value != nullptr ? std::optional<std::string>(value) : std::nullopt);
      ::unsetenv(name);
    }
  }
  ~LanguagesIn() override {
    for (std::size_t k = 0; k < before_.size(); ++k) {
      ::unsetenv(variables[k]);
      if (before_[k]) ::setenv(variables[k], before_[k]->c_str(), 1);
    }
  }

  void make(const std::string& name, const std::string& bytes) const {
    folder_.write(name + "/LC_MESSAGES/graftcast.mo", bytes);
  }

  /// The name that the chosen catalogue holds; `en` for English.
  static std::string who(const std::unique_ptr<const Catalogue>& catalogue) {
    return catalogue ? std::string(catalogue->sentence("who")) : "en";
  }
  std::string named(const std::string& name) const { return who(languages_.named(name)); }
  std::string of_environment(const std::vector<std::pair<const char*, const char*>>& set) const {
    for (const char* name : variables) ::unsetenv(name);
    for (const auto& [name, value] : set) ::setenv(name, value, 1);
    return who(languages_.of_environment());
  }

  static constexpr std::array variables{"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG", "GRAFTCAST_LANGUAGES"};
  const testing::TemporaryFolder folder_;
  const Languages languages_{folder_.path()};
  std::vector<std::optional<std::string>> before_;
};

TEST_F(LanguagesIn, AFolderAreThoseWithACatalogue) {
  EXPECT_THAT(languages_.names(), ElementsAre("en", "es", "es_MX", "pl"));
}

TEST_F(LanguagesIn, AFolderAreFoundByNameWithOrWithoutACountry) {
  EXPECT_EQ(named("es"), "es");
  EXPECT_EQ(named("es_MX"), "es_MX");
  EXPECT_EQ(named("es_AR.UTF-8"), "es");
  EXPECT_EQ(named("es@euro"), "es");
  EXPECT_EQ(named("en"), "en");
  EXPECT_EQ(named("en_GB.UTF-8"), "en");
}

TEST_F(LanguagesIn, AFolderWithoutTheOneNamedAreListed) {
  for (const std::string wrong : {"xx", "", "fr", "../es", "es/../es", ".", "es MX"}) {
    try {
      static_cast<void>(languages_.named(wrong));
      ADD_FAILURE() << wrong;
    } catch (const UsageError& error) {
      EXPECT_THAT(error.what(),
                  HasSubstr("there is no language \"" + wrong + "\"; give one of: en, es, es_MX, pl"));
    }
  }
}

TEST_F(LanguagesIn, AFolderThatAreDamagedAreAnError) {
  EXPECT_THROW(static_cast<void>(languages_.named("pl")), DataError);
}

TEST_F(LanguagesIn, TheEnvironmentAreTakenInItsOrder) {
  EXPECT_EQ(of_environment({}), "en");
  EXPECT_EQ(of_environment({{"LANG", "es_ES.UTF-8"}}), "es");
  EXPECT_EQ(of_environment({{"LANG", "en_US.UTF-8"}, {"LC_MESSAGES", "es_MX.UTF-8"}}), "es_MX");
  EXPECT_EQ(of_environment({{"LC_MESSAGES", "es_MX.UTF-8"}, {"LC_ALL", "en_US.UTF-8"}}), "en");
  EXPECT_EQ(of_environment({{"LANG", "en_US.UTF-8"}, {"LANGUAGE", "xx:es:en"}}), "es");
  EXPECT_EQ(of_environment({{"LANG", "es"}, {"LANGUAGE", "xx:en:es"}}), "en");
  EXPECT_EQ(of_environment({{"LANG", "es"}, {"LANGUAGE", ""}}), "es");
}

TEST_F(LanguagesIn, TheEnvironmentThatThereAreNotAreEnglish) {
  EXPECT_EQ(of_environment({{"LANG", "xx_XX.UTF-8"}}), "en");
  EXPECT_EQ(of_environment({{"LANG", "../es"}}), "en");
}

TEST_F(LanguagesIn, TheEnvironmentCountForNothingInThePlainLocale) {
  for (const char* plain : {"C", "POSIX", "C.UTF-8"})
    EXPECT_EQ(of_environment({{"LC_ALL", plain}, {"LANG", "es"}, {"LANGUAGE", "es"}}), "en") << plain;
}

TEST_F(LanguagesIn, TheFolderOfTheVariableAreThePublishedOnes) {
  ::setenv("GRAFTCAST_LANGUAGES", folder_.path().c_str(), 1);
  EXPECT_THAT(Languages::published().names(), ElementsAre("en", "es", "es_MX", "pl"));
}

}  // namespace
}  // namespace graftcast
