#include "text/delimited_rows.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <zlib.h>

#include <algorithm>
#include <random>

#include "repetitions.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using testing::TemporaryFolder;

using Row = std::vector<std::string>;

std::vector<Row> rows_of(DelimitedRows& reader) {
  std::vector<Row> rows;
  while (reader.next()) {
    Row row;
    for (const Field& field : reader.fields()) row.emplace_back(field.text);
    rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<Row> rows_of(std::string_view text, char delimiter = ',') {
  DelimitedRows reader = DelimitedRows::from_memory(text, delimiter, "log.csv");
  return rows_of(reader);
}

template <typename Read>
std::string error_of_running(Read read) {
  try {
    read();
  } catch (const Error& error) {
    return std::string(error.kind()) + " " + error.what();
  }
  return "no error";
}

std::string error_of(std::string_view text) {
  return error_of_running([&] { rows_of(text); });
}

void write_gzip(const std::filesystem::path& path, std::string_view content) {
  gzFile stream = gzopen(path.c_str(), "wb");
  ASSERT_NE(stream, nullptr);
  ASSERT_EQ(gzwrite(stream, content.data(), static_cast<unsigned>(content.size())),
            static_cast<int>(content.size()));
  ASSERT_EQ(gzclose(stream), Z_OK);
}

TEST(DelimitedRows, SplitsPlainFields) {
  EXPECT_THAT(rows_of("a,b,c\n1,,3\n,\n"), ElementsAre(Row{"a", "b", "c"}, Row{"1", "", "3"}, Row{"", ""}));
}

TEST(DelimitedRows, AcceptsAnyLineEndAByteOrderMarkAndNoLastLineEnd) {
  const std::vector<Row> expected{{"a", "b"}, {"1", "2"}};
  EXPECT_EQ(rows_of("a,b\n1,2"), expected);
  EXPECT_EQ(rows_of("a,b\r\n1,2\r\n"), expected);
  EXPECT_EQ(rows_of("\xEF\xBB\xBF"
                    "a,b\n1,2\n"),
            expected);
}

TEST(DelimitedRows, PassesOverBlankRowsAndKeepsCountingLines) {
  DelimitedRows reader = DelimitedRows::from_memory("\n \na,b\n\r\n1,2\n\n", ',', "log.csv");
  ASSERT_TRUE(reader.next());
  EXPECT_EQ(reader.line(), 3U);
  ASSERT_TRUE(reader.next());
  EXPECT_EQ(reader.line(), 5U);
  EXPECT_FALSE(reader.next());
  EXPECT_FALSE(reader.next());
}

TEST(DelimitedRows, HasNoRowsInAnEmptyInput) {
  EXPECT_TRUE(rows_of("").empty());
}

TEST(DelimitedRows, ReadsQuotedFieldsAsRfc4180Says) {
  EXPECT_THAT(rows_of("\"a,b\",\"say \"\"no\"\"\",\"\",\"\"\"\"\n"),
              ElementsAre(Row{"a,b", "say \"no\"", "", "\""}));
  EXPECT_THAT(rows_of("1,\"two\r\nlines\",3\n4,5,6\n"),
              ElementsAre(Row{"1", "two\nlines", "3"}, Row{"4", "5", "6"}));
}

TEST(DelimitedRows, TakesAQuoteWithinAPlainFieldAsItStands) {
  EXPECT_THAT(rows_of("5\" pot,x\n\"a\",b\"\n"), ElementsAre(Row{"5\" pot", "x"}, Row{"a", "b\""}));
}

TEST(DelimitedRows, KnowsThePlaceOfEveryField) {
  DelimitedRows reader = DelimitedRows::from_memory("ab,\"c\nd\",ef\nx,yz\n", ',', "log.csv");
  ASSERT_TRUE(reader.next());
  EXPECT_EQ(to_string(reader.position(0)), "log.csv:1:1");
  EXPECT_EQ(to_string(reader.position(1)), "log.csv:1:4");
  EXPECT_EQ(to_string(reader.position(2)), "log.csv:2:4");
  EXPECT_EQ(to_string(reader.position(9)), "log.csv:2:6");
  EXPECT_EQ(reader.fields()[2].column, 4U);
  EXPECT_EQ(reader.raw(), "ab,\"c\nd\",ef");
  ASSERT_TRUE(reader.next());
  EXPECT_EQ(to_string(reader.position(1)), "log.csv:3:3");
}

TEST(DelimitedRows, ChoosesTheDelimiterFromTheFirstLineThatIsNotBlank) {
  const auto chosen = [](std::string_view text) {
    DelimitedRows reader = DelimitedRows::from_memory(text, 0, "log.csv");
    return std::string(1, reader.delimiter()) + std::to_string(rows_of(reader).size());
  };
  EXPECT_EQ(chosen("time;temp\n1;2,5\n"), ";2");
  EXPECT_EQ(chosen("\n\ntime\ttemp, outside\thumidity\n"), "\t1");
  EXPECT_EQ(chosen("\"a;b;c\",d\n"), ",1");
  EXPECT_EQ(chosen("single\n"), ",1");
  EXPECT_EQ(chosen(""), ",0");
}

TEST(DelimitedRows, PointsAtAQuoteThatIsNeverClosed) {
  EXPECT_THAT(error_of("a,b\n1,\"two\n3,4\n"), HasSubstr("bad-data log.csv:2:3: a quoted field begins here"));
}

TEST(DelimitedRows, PointsAtTextAfterAClosingQuote) {
  EXPECT_THAT(error_of("a,\"b\"c,d\n"), HasSubstr("log.csv:1:6: text follows the closing quotation mark"));
}

TEST(DelimitedRows, RefusesLinesThatEndWithACarriageReturnAlone) {
  EXPECT_THAT(error_of("a,b\r1,2\r"), HasSubstr("log.csv:1:4: a carriage return"));
}

TEST(DelimitedRows, RefusesUtf16AndNulBytes) {
  EXPECT_THAT(error_of(std::string_view("\xFE\xFF\0a\0,", 6)), HasSubstr("UTF-16"));
  EXPECT_THAT(error_of(std::string_view("a\0,\0b\0\n\0", 8)), HasSubstr("UTF-16"));
  EXPECT_THAT(error_of(std::string_view("a,b\n1,\0\n", 8)), HasSubstr("log.csv:2:3: a NUL byte"));
}

TEST(DelimitedRows, RefusesLinesLongerThanAMebibyteButNotAMillionCharacters) {
  EXPECT_EQ(rows_of("a,b\n1," + std::string(1'000'000, 'x') + "\n").size(), 2U);
  EXPECT_THAT(error_of("a,b\n1," + std::string(1'100'000, 'x') + "\n"),
              HasSubstr("log.csv:2:1: the line is longer"));
  EXPECT_THAT(error_of("a,b\n" + std::string(20'000'000, 'x')), HasSubstr("log.csv:2:1: the line is longer"));
}

TEST(DelimitedRows, GivesUpOnAnUnclosedQuoteWithoutReadingTheWholeFileIntoMemory) {
  std::string text = "a,b\n1,\"open\n";
  while (text.size() < 3'000'000) text += "2,3\n";
  EXPECT_THAT(error_of(text), HasSubstr("log.csv:2:3: a quoted field begins here"));
}

TEST(DelimitedRows, SaysWhichFileCannotBeRead) {
  const TemporaryFolder folder;
  EXPECT_THAT(error_of_running([&] { DelimitedRows reader(folder.path() / "none.csv"); }),
              HasSubstr("cannot-open"));
  EXPECT_THAT(error_of_running([&] { DelimitedRows reader(folder.path()); }), HasSubstr("is a folder"));
}

TEST(DelimitedRows, ReadsFilesUnderTheNameToShow) {
  const TemporaryFolder folder;
  DelimitedRows reader(folder.write("a.csv", "x,y\n"), ',', "weather/a.csv");
  EXPECT_EQ(reader.name(), "weather/a.csv");
  EXPECT_THAT(rows_of(reader), ElementsAre(Row{"x", "y"}));
}

TEST(DelimitedRows, InflatesGzip) {
  const TemporaryFolder folder;
  write_gzip(folder.path() / "a.csv.gz", "a,b\n1,2\n");
  DelimitedRows reader(folder.path() / "a.csv.gz");
  EXPECT_THAT(rows_of(reader), ElementsAre(Row{"a", "b"}, Row{"1", "2"}));
}

TEST(DelimitedRows, SaysWhenGzipIsCutShortOrDamaged) {
  const TemporaryFolder folder;
  std::string content;
  std::mt19937 random(7);
  for (int row = 0; row < 2000; ++row) content += std::to_string(random()) + ",1\n";
  write_gzip(folder.path() / "whole.gz", content);
  std::string bytes = folder.read("whole.gz");
  const auto read = [&](const std::string& name) {
    return error_of_running([&] {
      DelimitedRows reader(folder.path() / name);
      rows_of(reader);
    });
  };
  EXPECT_EQ(read("whole.gz"), "no error");
  folder.write("cut.gz", std::string_view(bytes).substr(0, bytes.size() / 2));
  EXPECT_THAT(read("cut.gz"), HasSubstr("gzip data is damaged or cut short"));
  bytes[bytes.size() / 2] = static_cast<char>(bytes[bytes.size() / 2] ^ 0x55);
  folder.write("damaged.gz", bytes);
  EXPECT_THAT(read("damaged.gz"), HasSubstr("gzip data is damaged or cut short"));
}

// The line reader underneath works in blocks of 16 MiB: rows across its seams, and a file without a last line
// end whose length leaves stale bytes behind it.
TEST(DelimitedRows, LosesAndInventsNothingInFilesOfManyBlocks) {
  std::string text;
  const std::size_t row_count = 600'000;
  const std::string filling = "," + std::string(80, 'x') + "\n";
  for (std::size_t row = 0; row < row_count; ++row) text += std::to_string(row) + filling;
  text.pop_back();
  ASSERT_GT(text.size(), 3U * (16U << 20U));
  DelimitedRows reader = DelimitedRows::from_memory(text, ',', "log.csv");
  std::size_t read = 0;
  bool in_order = true;
  for (; reader.next(); ++read) {
    in_order = in_order && reader.fields().size() == 2 && reader.fields()[0].text == std::to_string(read);
  }
  EXPECT_EQ(read, row_count);
  EXPECT_TRUE(in_order);
  EXPECT_EQ(reader.line(), row_count);
}

// A line end of two bytes and lines about as long as a read from a file.
TEST(DelimitedRows, CutsLinesAlikeWhereverABlockEnds) {
  constexpr std::size_t block = 64U << 10U;
  for (std::size_t length = block - 6; length <= block + 2; ++length) {
    const std::string first(length, 'x');
    const std::string text = "\xEF\xBB\xBF" + first + "\r\n\r\na,b\nc\r\n" + std::string(block, 'y');
    DelimitedRows rows = DelimitedRows::from_memory(text, ',', "log.csv");
    ASSERT_TRUE(rows.next());
    EXPECT_EQ(rows.raw(), first);
    ASSERT_TRUE(rows.next());
    EXPECT_EQ(rows.line(), 3U);
    EXPECT_EQ(rows.raw(), "a,b");
    ASSERT_TRUE(rows.next());
    EXPECT_EQ(rows.raw(), "c");
    ASSERT_TRUE(rows.next());
    EXPECT_EQ(rows.raw().size(), block);
    EXPECT_FALSE(rows.next());
  }
}

TEST(DelimitedRows, TakesALineOfAMebibyteAndRefusesALongerOne) {
  constexpr std::size_t longest = 1U << 20U;
  const std::string long_line(longest, 'x');
  EXPECT_EQ(error_of("a\n" + long_line + "\r\nb\n"), "no error");
  EXPECT_EQ(error_of("a\n" + long_line), "no error");
  EXPECT_THAT(error_of("a\n" + long_line + "x\nb\n"),
              HasSubstr("log.csv:2:1: the line is longer than a mebibyte"));
  EXPECT_THAT(error_of("a\nb\n" + std::string(20 * longest, 'x')),
              HasSubstr("log.csv:3:1: the line is longer than a mebibyte"));
}

TEST(QuotedField, QuotesOnlyWhatNeedsIt) {
  EXPECT_EQ(quoted_field(""), "");
  EXPECT_EQ(quoted_field("plain text"), "plain text");
  EXPECT_EQ(quoted_field("a,b"), "\"a,b\"");
  EXPECT_EQ(quoted_field("say \"no\""), "\"say \"\"no\"\"\"");
  EXPECT_EQ(quoted_field(" blank"), "\" blank\"");
  EXPECT_EQ(quoted_field("two\nlines"), "\"two\nlines\"");
}

TEST(QuotedField, ComesBackAsItWasForAnyText) {
  std::mt19937 random(20240301);
  const std::string letters = "ab,\"\n; \t";
  for (int round = 0; round < testing::repetitions(2000); ++round) {
    Row written;
    std::string line;
    const std::size_t width = 1 + random() % 5;
    for (std::size_t k = 0; k < width; ++k) {
      std::string text;
      for (std::size_t length = random() % 6; length > 0; --length)
        text += letters[random() % letters.size()];
      if (k > 0) line += ',';
      line += quoted_field(text);
      written.push_back(std::move(text));
    }
    if (std::all_of(written.begin(), written.end(), [](const auto& text) { return text.empty(); }) &&
        width == 1)
      continue;
    ASSERT_THAT(rows_of(line + "\n"), ElementsAre(written)) << line;
  }
}

}  // namespace
}  // namespace graftcast
