#include "text/json_document.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <random>

#include "temporary_folder.hpp"

namespace graftcast {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::TemporaryFolder;

std::string error_of(std::string_view text) {
  try {
    JsonDocument::from_text(text, "site.json");
  } catch (const Error& error) {
    return std::string(error.kind()) + " " + error.what();
  }
  return "no error";
}

TEST(JsonDocument, KnowsThePlaceOfEveryValue) {
  const auto document = JsonDocument::from_text(
      "{\n  \"name\": \"Terrace\",\n  \"spots\": {\"a/b\": {\"sun\": -0.5e1}, \"c~d\": [true,\n null ]}\n}\n",
      "site.json");
  const auto place = [&](const char* pointer) { return to_string(document.position(pointer)); };
  EXPECT_EQ(place(""), "site.json:1:1");
  EXPECT_EQ(place("/name"), "site.json:2:11");
  EXPECT_EQ(place("/spots"), "site.json:3:12");
  EXPECT_EQ(place("/spots/a~1b"), "site.json:3:20");
  EXPECT_EQ(place("/spots/a~1b/sun"), "site.json:3:28");
  EXPECT_EQ(place("/spots/c~0d/0"), "site.json:3:45");
  EXPECT_EQ(place("/spots/c~0d/1"), "site.json:4:2");
}

TEST(JsonDocument, KnowsThePlaceOfEveryKey) {
  const auto document = JsonDocument::from_text("{\"a\": [10,\n {\"b/c\" : 1}]}", "site.json");
  EXPECT_EQ(to_string(document.key_position("/a")), "site.json:1:2");
  EXPECT_EQ(to_string(document.key_position("/a/1/b~1c")), "site.json:2:3");
  EXPECT_EQ(to_string(document.key_position("/a/0")), "site.json:1:8");
}

TEST(JsonDocument, KeepsMessagesShort) {
  EXPECT_LT(error_of("[" + std::string(100'000, '9') + "]").size(), 400U);
  EXPECT_LT(error_of("[\"" + std::string(100'000, 'x')).size(), 400U);
}

TEST(JsonDocument, GivesThePlaceOfTheNearestParentForWhatIsNotThere) {
  const auto document = JsonDocument::from_text("{\"a\": [10, {\"b\": 1}]}", "site.json");
  EXPECT_EQ(to_string(document.position("/a/1/c/d")), "site.json:1:12");
  EXPECT_EQ(to_string(document.position("/zzz")), "site.json:1:1");
}

TEST(JsonDocument, FindsPlacesPastStringsThatHoldBracketsAndEscapes) {
  const auto document = JsonDocument::from_text(R"({"a\"]": "x\\", "b": "},\"{", "c": 3})", "site.json");
  EXPECT_EQ(document.position("/a\"]").column, 10U);
  EXPECT_EQ(document.position("/b").column, 22U);
  EXPECT_EQ(document.position("/c").column, 36U);
  EXPECT_EQ(document.root()["a\"]"], "x\\");
}

TEST(JsonDocument, HoldsWhatTheParserAloneWouldHold) {
  const char* text = R"({"a": [1, -2, 3.5, "é\n", true, null, {}, []], "b": {"c": 18446744073709551615}})";
  EXPECT_EQ(JsonDocument::from_text(text, "x").root(), nlohmann::json::parse(text));
  EXPECT_EQ(JsonDocument::from_text("7", "x").root(), 7);
}

TEST(JsonDocument, AcceptsAByteOrderMark) {
  EXPECT_EQ(JsonDocument::from_text("\xEF\xBB\xBF{\"a\": 1}", "x").position("/a").column, 7U);
}

/// The parser itself would pass over each.
TEST(JsonDocument, RefusesASecondByteOrderMark) {
  EXPECT_THROW(JsonDocument::from_text("\xEF\xBB\xBF\xEF\xBB\xBF{}", "a.json"), DataError);
}

TEST(JsonDocument, PointsAtSyntaxErrors) {
  EXPECT_THAT(error_of("{\"a\": 1,\n \"b\" 2}"),
              AllOf(HasSubstr("bad-data site.json:2:6: not valid JSON"), HasSubstr("expected ':'")));
  EXPECT_THAT(error_of("{\"a\": [1, 2}"), HasSubstr("site.json:1:12"));
  EXPECT_THAT(error_of(""), HasSubstr("site.json:1:1"));
  EXPECT_THAT(error_of("{\"a\": 1} x"), HasSubstr("site.json:1:10"));
  EXPECT_THAT(error_of("{\"a\": nan}"), HasSubstr("site.json:1:8"));
  EXPECT_THAT(error_of("{\"a\": 1e400}"), HasSubstr("site.json:1:"));
}

TEST(JsonDocument, RefusesAKeyGivenTwice) {
  EXPECT_THAT(error_of("{\"a\": 1,\n \"a\": 2}"), HasSubstr("site.json:2:2: the key \"a\" is given twice"));
  EXPECT_EQ(error_of("{\"a\": {\"b\": 1}, \"b\": {\"b\": 2}}"), "no error");
}

TEST(JsonDocument, RefusesNestingDeeperThan64) {
  EXPECT_EQ(error_of(std::string(64, '[') + std::string(64, ']')), "no error");
  EXPECT_THAT(error_of(std::string(65, '[') + std::string(65, ']')),
              HasSubstr("site.json:1:65: nested deeper than 64"));
  EXPECT_THAT(error_of(std::string(100'000, '[')), HasSubstr("nested deeper"));
}

TEST(JsonDocument, RefusesWhatIsNotPlainText) {
  EXPECT_THAT(error_of(std::string_view("{\0}\0", 4)), HasSubstr("UTF-16"));
  EXPECT_THAT(error_of("{\"a\": \"\xFF\"}"), HasSubstr("site.json:1:8: a byte here is not UTF-8"));
}

TEST(JsonDocument, ReadsFilesAndSaysWhenItCannot) {
  const TemporaryFolder folder;
  EXPECT_EQ(JsonDocument::from_file(folder.write("a.json", "[1]")).root()[0], 1);
  EXPECT_THROW(JsonDocument::from_file(folder.path() / "none.json"), OpenError);
}

// Random documents printed with random blanks: the byte at each place must begin the value it is said to
// hold.
void append_random(std::mt19937& random, std::string& text, int depth) {
  const auto blank = [&] { text += std::string(random() % 3, random() % 2 == 0 ? ' ' : '\n'); };
  const auto kind = random() % (depth > 3 ? 4U : 6U);
  const char* const scalars[] = {"null", "-1.25", "\"q\\\"[\"", "true"};
  if (kind < 4) {
    text += scalars[kind];
    return;
  }
  text += kind == 4 ? '[' : '{';
  const auto size = random() % 4;
  for (std::size_t k = 0; k < size; ++k) {
    if (k > 0) text += ',';
    blank();
    if (kind == 5) text += "\"k" + std::to_string(k) + "\":";
    blank();
    append_random(random, text, depth + 1);
    blank();
  }
  text += kind == 4 ? ']' : '}';
}

void expect_places(const std::string& text, const JsonDocument& document, const nlohmann::json& value,
                   const std::string& pointer) {
  const Position place = document.position(pointer);
  std::size_t offset = 0;
  for (std::size_t line = 1; line < place.line; ++line) offset = text.find('\n', offset) + 1;
  offset += place.column - 1;
  ASSERT_EQ(text[offset], value.dump()[0]) << pointer << " in " << text;
  if (!value.is_structured()) return;
  for (const auto& [key, child] : value.items()) expect_places(text, document, child, pointer + "/" + key);
}

TEST(JsonDocument, PlacesAreRightForRandomDocuments) {
  std::mt19937 random(11);
  for (int round = 0; round < 500; ++round) {
    std::string text;
    append_random(random, text, 0);
    const auto document = JsonDocument::from_text(text, "x");
    ASSERT_EQ(document.root(), nlohmann::json::parse(text));
    expect_places(text, document, document.root(), "");
  }
}

std::string many(const std::string& part, std::size_t count) {
  std::string text = "[";
  for (std::size_t k = 0; k < count; ++k) text += part + ',';
  return text + part + ']';
}

TEST(JsonDocument, RefusesMoreValuesThanFitInMemoryWhateverTheirLength) {
  for (const char* const part : {"[]", "{}", "\"\"", "1", "[[]]"})
    EXPECT_THAT(error_of(many(part, 5'000'000)), HasSubstr("more values than fit in memory")) << part;
  // What stands in a text is no value; and a hundred thousand values are few.
  EXPECT_EQ(error_of("[\"" + std::string(5'000'000, '[') + "\", \"\\\"[[\"]"), "no error");
  EXPECT_EQ(error_of(many("{\"sun\": 0.5}", 100'000)), "no error");
}

TEST(JsonDocument, KnowsPlacesInALongText) {
  const auto document = JsonDocument::from_text(many("\n{\"sun\": [1, 2]}", 50'000), "site.json");
  EXPECT_EQ(to_string(document.position("/40000/sun/1")), "site.json:40002:13");
  EXPECT_EQ(to_string(document.key_position("/50000/sun")), "site.json:50002:2");
  EXPECT_EQ(to_string(document.position("/40000/sun/7")), to_string(document.position("/40000/sun")));
}

}  // namespace
}  // namespace graftcast
