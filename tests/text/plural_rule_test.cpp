// Rules of plurals as gettext's manual lists them ("Additional functions for plural forms").

#include "text/plural_rule.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "graftcast/error.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;

std::vector<unsigned long> forms_of(const PluralRule& rule, std::initializer_list<unsigned long> counts) {
  std::vector<unsigned long> forms;
  for (const unsigned long count : counts) forms.push_back(rule.form_of(count));
  return forms;
}

TEST(PluralRule, OfEnglishSetsOneAgainstAllOthers) {
  EXPECT_THAT(forms_of(PluralRule(), {0, 1, 2, 11, 101}), ElementsAre(1, 0, 1, 1, 1));
  EXPECT_THAT(forms_of(PluralRule("nplurals=2; plural=n != 1;"), {0, 1, 2}), ElementsAre(1, 0, 1));
}

TEST(PluralRule, OfPolishLooksAtTheLastTwoDigits) {
  const PluralRule rule(
      "nplurals=3; plural=n==1 ? 0 : n%10>=2 && n%10<=4 && (n%100<10 || n%100>=20) ? 1 : 2;");
  EXPECT_THAT(forms_of(rule, {0, 1, 2, 4, 5, 11, 12, 14, 21, 22, 24, 25, 112, 122}),
              ElementsAre(2, 0, 1, 1, 2, 2, 2, 2, 2, 1, 1, 2, 2, 1));
}

TEST(PluralRule, OfArabicHasSixForms) {
  const PluralRule rule(
      "nplurals=6; plural=n==0 ? 0 : n==1 ? 1 : n==2 ? 2 : n%100>=3 && n%100<=10 ? 3 : n%100>=11 ? 4 : 5;");
  EXPECT_THAT(forms_of(rule, {0, 1, 2, 3, 10, 11, 99, 100, 102, 103, 111}),
              ElementsAre(0, 1, 2, 3, 3, 4, 4, 5, 5, 3, 4));
}

TEST(PluralRule, OfJapaneseHasOneForm) {
  EXPECT_THAT(forms_of(PluralRule("nplurals=1; plural=0;"), {0, 1, 2, 100}), ElementsAre(0, 0, 0, 0));
}

TEST(PluralRule, BindsItsSignsAsCDoes) {
  EXPECT_EQ(PluralRule("nplurals=9; plural=1+2*3-n%4;").form_of(6), 5U);
  EXPECT_EQ(PluralRule("nplurals=9; plural=!n || n/2 == 3 && n < 7;").form_of(0), 1U);
  EXPECT_EQ(PluralRule("nplurals=9; plural=!n || n/2 == 3 && n < 7;").form_of(6), 1U);
  EXPECT_EQ(PluralRule("nplurals=9; plural=!n || n/2 == 3 && n < 7;").form_of(7), 0U);
  EXPECT_EQ(PluralRule("nplurals=9; plural=n>5 ? n>6 ? 3 : 2 : 1;").form_of(6), 2U);
}

TEST(PluralRule, GivesTheFirstFormWhereItDividesByZeroOrLeavesTheForms) {
  EXPECT_EQ(PluralRule("nplurals=2; plural=n/(n-n);").form_of(7), 0U);
  EXPECT_EQ(PluralRule("nplurals=2; plural=n%0;").form_of(7), 0U);
  EXPECT_EQ(PluralRule("nplurals=2; plural=n;").form_of(7), 0U);
  EXPECT_EQ(PluralRule("nplurals=2; plural=n;").form_of(1), 1U);
}

std::string repeated(const std::string& text, int times) {
  std::string all;
  for (int k = 0; k < times; ++k) all += text;
  return all;
}

TEST(PluralRule, ThatCannotBeReadIsRefused) {
  for (const std::string& wrong :
       {std::string("nplurals=2; plural="), std::string("plural=n =="), std::string("plural=(n"),
        std::string("plural=n ? 1"), std::string("plural=x"), std::string("plural=n n")})
    EXPECT_THROW(PluralRule{wrong}, DataError) << wrong;
}

TEST(PluralRule, ThatWouldTakeTheStackIsRefused) {
  EXPECT_THROW(PluralRule{"plural=" + repeated("!", 70) + "n"}, DataError);
  EXPECT_THROW(PluralRule{"plural=" + repeated("(", 70) + "n" + repeated(")", 70)}, DataError);
  EXPECT_THROW(PluralRule{"plural=n" + repeated("+1", 100000)}, DataError);
  EXPECT_EQ(PluralRule{"plural=" + repeated("!", 20) + "n"}.form_of(1), 1U);
}

}  // namespace
}  // namespace graftcast
