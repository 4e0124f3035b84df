// The reader of compiled catalogues, on files whole and damaged.

#include "text/catalogue.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "made_catalogue.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::mo_bytes;
using testing::number_bytes;

const testing::Sentences polish{{"", testing::polish_header},
                                {std::string("month\x04May"), "maj"},
                                {"graft", "zraz"},
                                {testing::forms({"{n} graft", "{n} grafts"}),
                                 testing::forms({"{n} zraz", "{n} zrazy", "{n} zraz\xc3\xb3w"})}};

class CatalogueBytes : public ::testing::TestWithParam<bool> {};

TEST_P(CatalogueBytes, GiveSentencesAndFormsInEitherOrder) {
  const Catalogue catalogue(mo_bytes(polish, GetParam()), "pl.mo");
  EXPECT_EQ(catalogue.sentence("graft"), "zraz");
  EXPECT_EQ(catalogue.sentence("month\x04May"), "maj");
  EXPECT_THAT(catalogue.sentence("May"), IsEmpty());
  EXPECT_EQ(catalogue.form("{n} graft", 1), "{n} zraz");
  EXPECT_EQ(catalogue.form("{n} graft", 3), "{n} zrazy");
  EXPECT_EQ(catalogue.form("{n} graft", 5), "{n} zraz\xc3\xb3w");
  EXPECT_EQ(catalogue.form("{n} graft", -3), "{n} zrazy");
  EXPECT_THAT(catalogue.form("{n} bag", 3), IsEmpty());
}

INSTANTIATE_TEST_SUITE_P(Of, CatalogueBytes, ::testing::Bool(),
                         [](const auto& given) { return given.param ? "BigEndian" : "LittleEndian"; });

TEST(Catalogue, OfAFileThatIsNotThereCannotBeOpened) {
  const testing::TemporaryFolder folder;
  EXPECT_THROW(Catalogue{folder.path() / "none.mo"}, OpenError);
}

TEST(Catalogue, NamesTheFileThatIsNone) {
  const testing::TemporaryFolder folder;
  try {
    const Catalogue catalogue(folder.write("es.mo", "msgid \"\""));
    FAIL() << "read it";
  } catch (const DataError& error) {
    EXPECT_THAT(error.what(), HasSubstr("es.mo: this is no compiled catalogue"));
  }
}

TEST(Catalogue, CutShortAnywhereIsRefused) {
  const std::string whole = mo_bytes(polish);
  // The last text's closing NUL is not read.
  for (std::size_t length = 0; length + 1 < whole.size(); ++length)
    EXPECT_THROW(Catalogue(whole.substr(0, length), "pl.mo"), DataError) << length;
  EXPECT_NO_THROW(Catalogue(whole.substr(0, whole.size() - 1), "pl.mo"));
}

/// `bytes` with the number at `at` replaced.
std::string with_number(std::string bytes, std::size_t at, std::uint32_t number) {
  return bytes.replace(at, 4, number_bytes(number, false));
}

TEST(Catalogue, WhoseTablesLeadOutOfTheFileIsRefused) {
  const std::string whole = mo_bytes(polish);
  constexpr std::size_t magic = 0, count = 8, originals = 12, translations = 16, first_length = 28,
                        first_place = 32;
  for (const std::size_t at : {magic, count, originals, translations, first_length, first_place})
    for (const std::uint32_t number : {0x7FFFFFFFU, 0xFFFFFFFFU, 0xFFFFFFF8U})
      EXPECT_THROW(Catalogue(with_number(whole, at, number), "pl.mo"), DataError) << at << ' ' << number;
}

TEST(Catalogue, ThatNamesOneTextManyTimesIsRefused) {
  // Each of these sentences would be a copy of the whole file.
  const std::uint32_t sentences = 20000;
  std::string bytes = mo_bytes({{"", ""}}).substr(0, 28);
  bytes = with_number(bytes, 8, sentences);
  bytes = with_number(with_number(bytes, 12, 28), 16, 28);
  for (std::uint32_t i = 0; i < sentences; ++i) bytes += number_bytes(160000, false) + number_bytes(0, false);
  EXPECT_THROW(Catalogue(bytes, "many.mo"), DataError);
}

TEST(Catalogue, WhosePluralRuleIsWrongIsRefusedByName) {
  try {
    const Catalogue catalogue(mo_bytes({{"", "Plural-Forms: nplurals=2; plural=(n\n"}}), "es.mo");
    FAIL() << "read it";
  } catch (const DataError& error) {
    EXPECT_THAT(error.what(), HasSubstr("es.mo: the plural rule"));
  }
}

}  // namespace
}  // namespace graftcast
