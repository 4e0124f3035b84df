#include "text/text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <vector>

#include "graftcast/error.hpp"
#include "ordinary_user.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using testing::TemporaryFolder;

std::string message_of_reading(const std::filesystem::path& path, std::size_t limit_bytes = 1000) {
  try {
    read_text_file(path, limit_bytes);
  } catch (const Error& error) {
    return std::string(error.kind()) + " " + error.what();
  }
  return "no error";
}

TEST(ReadTextFile, GivesTheContentWithoutItsByteOrderMark) {
  const TemporaryFolder folder;
  EXPECT_EQ(read_text_file(folder.write("a.csv",
                                        "\xEF\xBB\xBF"
                                        "id,\xC3\xA9\r\n")),
            "id,\xC3\xA9\r\n");
  EXPECT_EQ(read_text_file(folder.write("empty.csv", "")), "");
}

TEST(ReadTextFile, ReadsFilesLongerThanOneBlock) {
  const TemporaryFolder folder;
  const std::string content(300'000, 'x');
  EXPECT_EQ(read_text_file(folder.write("long.txt", content)), content);
}

TEST(ReadTextFile, SaysWhenThereIsNoFileOrAFolder) {
  const TemporaryFolder folder;
  EXPECT_THAT(message_of_reading(folder.path() / "none.csv"), HasSubstr("cannot-open"));
  EXPECT_THAT(message_of_reading(folder.path() / "none.csv"), HasSubstr("No such file"));
  EXPECT_THAT(message_of_reading(folder.path()), HasSubstr("is a folder"));
}

TEST(ReadTextFile, SaysWhenPermissionIsMissing) {
  const TemporaryFolder folder;
  const auto file = folder.write("secret.csv", "id\n");
  std::filesystem::permissions(folder.path(), std::filesystem::perms::all);
  std::filesystem::permissions(file, std::filesystem::perms::none);
  EXPECT_THAT(testing::as_ordinary_user([&] { return message_of_reading(file); }),
              HasSubstr("Permission denied"));
}

TEST(ReadTextFile, PointsAtWhatIsNotPlainText) {
  const TemporaryFolder folder;
  const auto message = [&](std::string_view content) {
    return message_of_reading(folder.write("bad.csv", content));
  };
  EXPECT_THAT(message(std::string_view("\xFF\xFEi\0d\0", 6)), HasSubstr("UTF-16"));
  EXPECT_THAT(message(std::string_view("i\0d\0\n\0", 6)), HasSubstr("UTF-16"));
  EXPECT_THAT(message(std::string_view("ab\ncd\0e", 7)), HasSubstr("bad.csv:2:3: a NUL byte"));
  EXPECT_THAT(message("ab\nc\xE9 d"), HasSubstr("bad.csv:2:2: a byte here is not UTF-8"));
  EXPECT_THAT(message(std::string(2000, 'x')), HasSubstr("longer than 1000 bytes"));
}

TEST(IsUtf8, FollowsTheUnicodeStandardsTableOfWellFormedSequences) {
  // Unicode 15, table 3-7: both sides of every bound of the second byte.
  for (const char* good : {"", "a", "\xC2\x80", "\xDF\xBF", "\xE0\xA0\x80", "\xED\x9F\xBF", "\xEE\x80\x80",
                           "\xF0\x90\x80\x80", "\xF4\x8F\xBF\xBF"}) {
    EXPECT_TRUE(is_utf8(good)) << ::testing::PrintToString(good);
  }
  for (const char* bad : {"\x80", "\xC1\xBF", "\xC2", "\xC2\x7F", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xE1\x80",
                          "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80", "\xFF"}) {
    EXPECT_FALSE(is_utf8(bad)) << ::testing::PrintToString(bad);
  }
}

TEST(ParseNumber, ReadsWholeFiniteDecimals) {
  EXPECT_EQ(parse_number("1.5"), 1.5);
  EXPECT_EQ(parse_number("-3e2"), -300.0);
  EXPECT_EQ(parse_number("+7"), 7.0);
  EXPECT_EQ(parse_number("0"), 0.0);
  EXPECT_EQ(parse_number(".25"), 0.25);
}

TEST(ParseNumber, RefusesEverythingElse) {
  for (const char* text :
       {"",      " ",      "1,5",   "1.5 ", " 1", "nan", "NaN", "inf", "-inf", "infinity", "0x10",
        "1e400", "-1e400", "1.2.3", "12C",  "+",  "-",   "+-1", "++1", "--1",  "e5",       "."}) {
    EXPECT_EQ(parse_number(text), std::nullopt) << text;
  }
}

TEST(Trimmed, TakesBlanksFromBothEndsOnly) {
  EXPECT_EQ(trimmed(" \t a b \r\n"), "a b");
  EXPECT_EQ(trimmed("   "), "");
  EXPECT_EQ(trimmed(""), "");
}

TEST(Shown, QuotesShortensAndTakesTheSenseOutOfControlCharacters) {
  EXPECT_EQ(shown("cleft"), "\"cleft\"");
  EXPECT_EQ(shown("\x1B[31mred\n"), "\"?[31mred?\"");
  EXPECT_EQ(shown(std::string(1'000'000, 'x')), "\"" + std::string(40, 'x') + "...\"");
  EXPECT_EQ(shown(std::string(39, 'x') + "\xC3\xA9"), "\"" + std::string(39, 'x') + "...\"");
}

const std::vector<std::string> methods{"cleft", "whip-and-tongue", "splice", "side-veneer", "t-bud", "chip"};

TEST(NearestHint, OffersTheNearestNameFirst) {
  EXPECT_EQ(nearest_hint("clefft", methods), "did you mean cleft");
  EXPECT_EQ(nearest_hint("chp", methods), "did you mean chip");
  EXPECT_EQ(nearest_hint("slpice", methods), "did you mean splice");
}

TEST(NearestHint, OverlooksCaseAndHowWordsAreJoined) {
  EXPECT_EQ(nearest_hint("Whip_and tongue", methods), "did you mean whip-and-tongue");
  EXPECT_EQ(nearest_hint("T BUD", methods), "did you mean t-bud");
}

TEST(NearestHint, TakesAPartOfANameAsNear) {
  EXPECT_EQ(nearest_hint("whip", methods), "did you mean whip-and-tongue or chip");
  EXPECT_EQ(nearest_hint("tongue", methods), "did you mean whip-and-tongue");
}

TEST(NearestHint, ListsSeveralWithOrAndNoMoreThanAsked) {
  const std::vector<std::string> names{"bag", "bat", "bar", "ban"};
  EXPECT_EQ(nearest_hint("bax", names), "did you mean bag, ban or bar");
  EXPECT_EQ(nearest_hint("bax", names, 2), "did you mean bag or ban");
  EXPECT_EQ(nearest_hint("bax", names, 0), "");
  EXPECT_EQ(nearest_hint("bax", std::vector<std::string>{"bag", "bag"}), "did you mean bag");
}

TEST(NearestHint, IsEmptyWhenNothingIsNear) {
  EXPECT_EQ(nearest_hint("bench-machine", methods), "");
  EXPECT_EQ(nearest_hint("", methods), "");
  EXPECT_EQ(nearest_hint(std::string(100'000, 'x'), methods), "");
}

}  // namespace
}  // namespace graftcast
