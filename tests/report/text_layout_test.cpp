#include "report/text_layout.hpp"

#include <random>

#include <gtest/gtest.h>

#include "text/text.hpp"

namespace graftcast {
namespace {

TEST(DisplayWidth, OfWideCharactersIsTwoAndOfCombiningOnesNone) {
  EXPECT_EQ(display_width("abc"), 3U);
  EXPECT_EQ(display_width("\u00fc"), 1U);
  EXPECT_EQ(display_width("u\u0308"), 1U);
  EXPECT_EQ(display_width("\u6885\u5e72"), 4U);
  EXPECT_EQ(display_width("\u2581\u2588"), 2U);
  EXPECT_EQ(display_width(""), 0U);
}

TEST(Printable, KeepsLettersAndReplacesWhatSteersATerminal) {
  EXPECT_EQ(printable("Sauv\u00e9 \u6885"), "Sauv\u00e9 \u6885");
  EXPECT_EQ(printable("a\x1b[31mb"), "a?[31mb");
  EXPECT_EQ(printable("a\nb\tc\x7f"), "a?b?c?");
  EXPECT_EQ(printable("a\u009b31m"), "a?31m");  // The C1 form of the same escape.
  EXPECT_EQ(printable("a\u202eb"), "a?b");      // Right-to-left override.
  EXPECT_EQ(printable("a\xff"
                      "b"),
            "a?b");  // Not UTF-8.
}

TEST(ToAscii, KeepsEveryColumn) {
  EXPECT_EQ(to_ascii("43\u201377"), "43-77");
  EXPECT_EQ(to_ascii("Sauv\u00e9"), "Sauv?");
  EXPECT_EQ(to_ascii("\u6885"), "??");
  for (const std::string text : {"u\u0308ber", "\u6885\u5e72 \u00d7 3", "\u2581\u2588"})
    EXPECT_EQ(display_width(to_ascii(text)), display_width(text)) << text;
}

TEST(Padding, CountsColumnsAndNotBytes) {
  EXPECT_EQ(padded_right("\u00fc", 3), "\u00fc  ");
  EXPECT_EQ(padded_left("\u6885", 3), " \u6885");
  EXPECT_EQ(padded_left("abcd", 3), "abcd");
}

TEST(Clipped, EndsInTheMarkOnlyWhereSomethingIsCut) {
  EXPECT_EQ(clipped("abc", 3, "~"), "abc");
  EXPECT_EQ(clipped("abcd", 3, "~"), "ab~");
  EXPECT_EQ(clipped("\u6885\u5e72\u6885", 4, "~"), "\u6885~");  // A wide character is not halved.
}

TEST(Wrapped, BreaksBetweenWordsAndLongWordsWhereItMust) {
  EXPECT_EQ(wrapped("one two three", 7), (std::vector<std::string>{"one two", "three"}));
  EXPECT_EQ(wrapped("abcdefgh", 3), (std::vector<std::string>{"abc", "def", "gh"}));
  EXPECT_EQ(wrapped("", 3), (std::vector<std::string>{""}));
  EXPECT_EQ(wrapped("  a  b ", 9), (std::vector<std::string>{"a b"}));
}

TEST(Wrapped, KeepsAFigureWithItsUnitAndADateTogether) {
  EXPECT_EQ(wrapped("is then 20 %.", 10), (std::vector<std::string>{"is then", "20 %."}));
  EXPECT_EQ(wrapped("air 39.8 \u00b0C", 8), (std::vector<std::string>{"air", "39.8 \u00b0C"}));
  EXPECT_EQ(wrapped("by Sat 14 Jun, early", 9), (std::vector<std::string>{"by Sat 14", "Jun,", "early"}));
  EXPECT_EQ(wrapped("by Sat 14 Jun, early", 11), (std::vector<std::string>{"by", "Sat 14 Jun,", "early"}));
  EXPECT_EQ(wrapped("12 grafts", 5), (std::vector<std::string>{"12", "graft", "s"}));
}

TEST(Wrapped, NeverExceedsTheWidthAndLosesNoWord) {
  std::mt19937 random(7);
  const std::vector<std::string> syllables{"a", "bc", "\u00fc", "\u6885", "x\u0301", "long-word", " ", " "};
  for (int round = 0; round < 300; ++round) {
    std::string text;
    for (int i = 0; i < 40; ++i) text += syllables[random() % syllables.size()];
    const std::size_t width = 2 + random() % 20;
    std::string joined;
    for (const std::string& line : wrapped(text, width)) {
      EXPECT_LE(display_width(line), width);
      EXPECT_TRUE(is_utf8(line));
      joined += line;
    }
    std::erase(text, ' ');
    std::erase(joined, ' ');
    EXPECT_EQ(joined, text);
  }
}

}  // namespace
}  // namespace graftcast
