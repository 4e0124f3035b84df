// Tables on a terminal: aligned by columns of the screen, and honest where there is no room.

#include "text_table.hpp"

#include <sstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "report/text_layout.hpp"

namespace graftcast {
namespace {

using ::testing::Each;
using ::testing::HasSubstr;
using ::testing::Le;
using ::testing::Not;
using ::testing::ResultOf;

std::vector<std::string> lines_of(const TextTable& table, std::size_t width) {
  std::istringstream stream(table.text({.width = width}));
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

TextTable spots(const std::string& name) {
  TextTable table(
      {{"spot", Align::left}, {"sun", Align::right}, {"wind", Align::right}, {"remark", Align::left}});
  table.add({name, "80 %", "35 %", "in the morning"});
  table.add({"field", "100 %", "80 %", ""});
  return table;
}

TEST(TextTable, AlignsByTheColumnsThatCharactersTake) {
  for (const std::string name :
       {"abcd", "\u6885\u5e72", "u\u0308ber", "\U0001f333\U0001f333", "\u0e01\u0e33\u0e40"}) {
    const auto lines = lines_of(spots(name), 80);
    for (const std::string& line : {lines[1], lines[2]}) {
      const std::size_t after_sun = line.find('%') + 1;
      EXPECT_EQ(display_width(line.substr(0, after_sun)),
                display_width(lines[0].substr(0, lines[0].find("sun") + 3)))
          << line;
    }
  }
}

TEST(TextTable, NeverExceedsTheWidth) {
  for (const std::string& name : {std::string("abcd"), std::string(500, 'x'), std::string("\u6885\u5e72")})
    for (std::size_t width = least_width; width < 60; ++width)
      EXPECT_THAT(lines_of(spots(name), width), Each(ResultOf(&display_width, Le(width))));
}

TEST(TextTable, LeavesAFigureOutRatherThanCuttingIt) {
  TextTable table({{"day", Align::left}, {"first figure", Align::right}, {"second figure", Align::right}});
  table.add({"2025-06-09", "12345", "67891"});
  EXPECT_THAT(lines_of(table, 40)[1], HasSubstr("67891"));
  const auto narrow = lines_of(table, 30);
  EXPECT_THAT(narrow[1], HasSubstr("12345"));
  EXPECT_THAT(narrow[1], Not(HasSubstr("678")));
  EXPECT_THAT(narrow[1], Not(HasSubstr("\u2026")));
}

TEST(TextTable, CutsALongNameSoThatWhatIsSaidOfItIsSeen) {
  const auto lines = lines_of(spots(std::string(500, 'x')), 60);
  EXPECT_THAT(lines[1], HasSubstr("x\u2026 "));
  EXPECT_THAT(lines[1], HasSubstr("80 %"));
  EXPECT_THAT(lines[1], HasSubstr("in the morning"));
}

}  // namespace
}  // namespace graftcast
