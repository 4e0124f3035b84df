// Bad input of every kind: what is said, where, and that no file changes.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "ordinary_user.hpp"
#include "records/split_batch.hpp"
#include "records/wood.hpp"
#include "sample_records.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::StartsWith;
using namespace testing;
namespace fs = std::filesystem;

struct BadInput {
  std::string name;                    // Of the test.
  std::string file;                    // The file that is spoilt.
  std::string content;                 // What it holds.
  std::string place;                   // Expected `line:column`, or empty where there is none.
  std::vector<std::string> fragments;  // Expected in the message.
  std::string kind = "bad-data";
};

void PrintTo(const BadInput& bad, std::ostream* stream) {
  *stream << bad.file << ", " << bad.name;
}

// The sample's text with `old` replaced.
std::string spoilt(std::string_view sample, std::string_view old, std::string_view wrong) {
  std::string text(sample);
  const std::size_t at = text.find(old);
  if (at == std::string::npos) throw std::logic_error("not in the sample: " + std::string(old));
  return text.replace(at, old.size(), wrong);
}

BadInput site(std::string name, std::string_view old, std::string_view wrong, std::string place,
              std::vector<std::string> fragments) {
  return {std::move(name), "site.json", spoilt(sample_site, old, wrong), std::move(place),
          std::move(fragments)};
}

BadInput grafts(std::string name, std::string_view old, std::string_view wrong, std::string place,
                std::vector<std::string> fragments) {
  return {std::move(name), "grafts.csv", spoilt(sample_grafts, old, wrong), std::move(place),
          std::move(fragments)};
}

BadInput diary(std::string name, const std::string& line, std::string place,
               std::vector<std::string> fragments) {
  return {std::move(name), "diary.csv", std::string(sample_diary) + line + "\n", std::move(place),
          std::move(fragments)};
}

BadInput wood(std::string name, const std::string& line, std::string place,
              std::vector<std::string> fragments) {
  return {std::move(name), "wood.csv", "id,cut_on,stored\n" + line + "\n", std::move(place),
          std::move(fragments)};
}

std::string utf16(std::string_view text) {
  std::string wide = "\xFF\xFE";
  for (const char letter : text) {
    wide += letter;
    wide += '\0';
  }
  return wide;
}

// Several cells of one graft, each wrong in turn.
std::vector<BadInput> bad_cells() {
  const auto cell = [](std::string name, const std::string& column, const std::string& text,
                       std::vector<std::string> fragments) {
    return BadInput{std::move(name), "grafts.csv",
                    "id,grafted_on,species,method," + column + "\nA,2025-03-02,apple,cleft," + text + "\n",
                    "2:26", std::move(fragments)};
  };
  return {
      cell("ShadeAboveLimit", "shade", "0.96", {"shade \"0.96\" is out of range", "0 to 0.95"}),
      cell("ShadeInPercent", "shade", "50%", {"shade \"50%\" is not a number"}),
      cell("NanDiameter", "diameter_mm", "nan", {"diameter_mm \"nan\" is not a number", "mm"}),
      cell("OverflowingLength", "length_mm", "1e400", {"length_mm \"1e400\" is not a number"}),
      cell("NegativePot", "pot_litres", "-3", {"pot_litres \"-3\" is out of range", "litres"}),
      cell("ZeroPot", "pot_litres", "0", {"is out of range"}),
      cell("DecimalComma", "diameter_mm", "\"6,5\"", {"diameter_mm \"6,5\" is not a number"}),
      cell("InfinitePriority", "priority", "inf", {"priority \"inf\" is not a number"}),
      cell("ZeroCount", "count", "0", {"count \"0\" is out of range"}),
      cell("HalfAGraft", "count", "1.5", {"count \"1.5\" is not a whole number"}),
      cell("UnknownStockSpecies", "stock_species", "cherri", {"did you mean cherry"}),
      cell("UnknownState", "scion_state", "leavy", {"did you mean leafy"}),
      cell("UnknownTip", "tip", "cut", {"give one of: sealed, open"}),
      cell("CambiumAboveOne", "cambium_match", "1.2", {"cambium_match \"1.2\" is out of range"}),
      cell("UnknownCambiumWord", "cambium_match", "one", {"did you mean one-side"}),
      cell("UnknownWrap", "wrap", "films", {"did you mean film"}),
      cell("UnknownCover", "cover", "clear_bags", {"did you mean clear-bag"}),
      cell("ReplacesNothing", "replaces", "Z9", {"replaces \"Z9\", which is not in the ledger"}),
      cell("ReplacesItself", "replaces", "A", {"replaces \"A\"", "only an earlier one"}),
      cell("EscapeCode", "comment", "\x1B[31mred", {"comment holds a control character"}),
      cell("LineBreakInAName", "scion", "\"a\nb\"", {"scion holds a line break"}),
      cell("MillionCharacters", "comment", std::string(1'000'000, 'x'),
           {"comment holds 1000000 bytes", "at most 10000"}),
  };
}

std::vector<BadInput> bad_grafts() {
  std::vector<BadInput> cases = bad_cells();
  const std::vector<BadInput> more{
      grafts("ImpossibleDay", "2025-04-10", "2025-02-30", "4:7",
             {"grafted_on \"2025-02-30\" is not a date", "2025-03-14"}),
      grafts("DayOfAnotherOrder", "2025-04-10", "10/04/2025", "4:7", {"is not a date"}),
      grafts("YearOfASlip", "2025-04-10", "0225-04-10", "4:7", {"outside 1900 to 2100"}),
      grafts("HourThatDoesNotExist", "2025-03-02T10:30", "2025-03-30T01:30", "3:7",
             {"does not exist in Europe/Lisbon", "02:00"}),
      grafts("EmptyDate", "R3-16,2025-04-10", "R3-16,", "4:7", {"grafted_on is empty"}),
      grafts("DuplicateId", "R3-16", "R3-14", "4:1", {"the id \"R3-14\" is already used on line 2"}),
      grafts("EmptyId", "R3-16", "", "4:1", {"id is empty"}),
      grafts("IdLikeARange", "R3-16", "R3-1..6", "4:1", {"id \"R3-1..6\" cannot be used"}),
      grafts("IdWithABlank", "R3-16", "R3 16", "4:1", {"one word"}),
      grafts("UnknownSpecies", ",pear,", ",paer,", "4:28",
             {"species \"paer\" is not known", "did you mean pear"}),
      grafts("UnknownMethod", ",chip,", ",ship,", "4:33",
             {"method \"ship\" is not known", "did you mean chip"}),
      grafts("EmptyMethod", ",chip,", ",,", "4:33", {"method is empty"}),
      grafts("UnknownSpot", "T2,store", "T2,stove", "4:41",
             {"the site has no spot \"stove\"", "did you mean store"}),
      grafts("TruncatedLine", ",store,,1,C,\n", ",sto", "4:44",
             {"the row has 7 fields, the header 11", "cut short"}),
      grafts("TooManyFields", "1,B,\n", "1,B,,late\n", "3:68", {"the row has 12 fields, the header 11"}),
      grafts("UnclosedQuote", "R3-16", "\"R3-16", "4:1", {"a quoted field begins here and is never closed"}),
      grafts("MissingColumn", ",species,", ",specie,", "1:1", {"the column species is missing"}),
      grafts("ColumnTwice", ",row_label,", ",count,", "1:59", {"the column \"count\" is given twice"}),
      {"Semicolons",
       "grafts.csv",
       "id;grafted_on;species;method\n",
       "1:1",
       {"the column id is missing", "not semicolons"}},
      {"EmptyLedger", "grafts.csv", "", "1", {"the file is empty", "id,grafted_on,scion"}},
      {"Utf16Ledger", "grafts.csv", utf16(sample_grafts), "1:1", {"UTF-16", "save it as UTF-8"}},
      {"Latin1Ledger", "grafts.csv", spoilt(sample_grafts, "Late", "L\xE2te"), "4:19", {"is not UTF-8"}},
      {"NulByte",
       "grafts.csv",
       spoilt(sample_grafts, "Late", std::string_view("L\0te", 4)),
       "4:19",
       {"NUL byte"}},
      {"OldMacLineEnds",
       "grafts.csv",
       "id,grafted_on,species,method\rA,2025-03-02,apple,cleft\r",
       "1:29",
       {"a carriage return"}},
  };
  cases.insert(cases.end(), more.begin(), more.end());
  return cases;
}

std::vector<BadInput> bad_sites() {
  return {
      site("LatitudeBeyondThePole", "41.19", "95", "4:15", {"latitude 95 is out of range", "-90 to 90"}),
      site("LongitudeBeyondTheLine", "-7.54", "-181", "4:35", {"longitude -181 is out of range"}),
      site("ElevationOfSpace", "260", "60000", "4:57", {"elevation_m 60000 is out of range"}),
      site("LatitudeAsText", "41.19", "\"41.19\"", "4:15", {"latitude is string, not a number"}),
      site("LatitudeNan", "41.19", "NaN", "4:15", {"not valid JSON"}),
      site("LatitudeOverflow", "41.19", "1e400", "4:", {"not valid JSON", "1e400"}),
      site("MissingLatitude", "\"latitude\": 41.19, ", "", "1:1", {"the key \"latitude\" is missing"}),
      site("UnknownZone", "Europe/Lisbon", "Europe/Lisboa", "5:16",
           {"\"Europe/Lisboa\" is not a time zone", "Europe/Lisbon"}),
      site("NewerFormat", "\"format\": 1", "\"format\": 2", "2:13",
           {"format 2, which is newer", "install a newer"}),
      site("NoFormat", "\"format\": 1,", "", "1:1", {"the key \"format\" is missing"}),
      site("UnknownKey", "\"supplies\"", "\"suplies\"", "10:3",
           {"the key \"suplies\" is not known", "did you mean supplies", "x-"}),
      site("UnknownSpotKey", "\"movable\"", "\"moveable\"", "7:60", {"did you mean movable"}),
      site("ShareAboveOne", "\"sun\": 0.7", "\"sun\": 1.7", "7:28", {"sun 1.7 is out of range"}),
      site("NegativeSupply", "20}", "-20}", "10:42", {"paper -20 is out of range"}),
      site("HalfASupply", "12", "12.5", "10:29", {"is not a whole number"}),
      site("KeyTwice", "\"elevation_m\"", "\"latitude\"", "4:42", {"the key \"latitude\" is given twice"}),
      site("TruncatedJson", "\n}\n", "\n", "12:", {"not valid JSON"}),
      site("SourceOutside", "weather/station.csv", "../station.csv", "11:36",
           {"lies outside the site folder"}),
      site("SourceFromTheRoot", "weather/station.csv", "/etc/hosts", "11:36",
           {"lies outside the site folder"}),
      site("SourceOfNothing", "\"file\"", "\"x-file\"", "11:27", {"neither a file nor a service"}),
      site("ServiceWithoutContact", "\"file\": \"weather/station.csv\"", "\"service\": \"met-norway\"",
           "11:27", {"has no contact"}),
      site("UnknownStamp", "station.csv\"", "station.csv\", \"stamp\": \"middle\"", "11:68",
           {"give one of: start, end, instant"}),
      site("PlainAddress", "\"file\": \"weather/station.csv\"",
           "\"service\": \"url\", \"contact\": \"a@example.org\", \"base_url\": "
           "\"http://localhost.example.org/\"",
           "11:86", {"not one of https"}),
      {"NoJson", "site.json", "format: 1\n", "1:2", {"not valid JSON"}},
      {"EmptySite", "site.json", "", "1:1", {"not valid JSON"}},
      {"ListForSite", "site.json", "[1]", "1:1", {"the file is array, not an object"}},
      {"DeepNesting", "site.json", std::string(100'000, '['), "1:65", {"nested deeper than 64"}},
      {"Utf16Site", "site.json", utf16(sample_site), "1:1", {"UTF-16"}},
  };
}

std::vector<BadInput> bad_diaries_and_wood() {
  return {
      diary("UnknownEvent", "2025-05-01,R3-14,bagon,,", "4:18",
            {"event \"bagon\" is not known", "did you mean bag-on"}),
      diary("UnknownGraft", "2025-05-01,R3-4,green,,", "4:12",
            {"the graft \"R3-4\" is not in the ledger", "R3-14"}),
      diary("DiaryImpossibleDay", "2025-04-31,R3-14,green,,", "4:1", {"when \"2025-04-31\" is not a date"}),
      diary("ShadeOfThree", "2025-05-01,R3-14,shade,3,", "4:24",
            {"value \"3\" is out of range", "0 to 0.95"}),
      diary("ShadeOfNothing", "2025-05-01,R3-14,shade,,", "4:24", {"shade needs a value"}),
      diary("NegativeWater", "2025-05-01,R3-14,watered,-2,", "4:26",
            {"value \"-2\" is out of range", "litres"}),
      diary("WaterNan", "2025-05-01,R3-14,watered,nan,", "4:26", {"value \"nan\" is not a number"}),
      diary("MovedNowhere", "2025-05-01,R3-14,moved,barn,", "4:24",
            {"the site has no spot \"barn\"", "east-tables, store"}),
      diary("MoreThanThereAre", "2025-05-01,R3-15,dead,2,", "4:23", {"2 of R3-15, which has only 1"}),
      diary("NegativeCount", "2025-05-01,R3-14,dead,-2,", "4:23", {"value \"-2\" is out of range"}),
      diary("ValueOfNoUse", "2025-05-01,R3-14,bag-off,2,", "4:26", {"bag-off takes no value"}),
      diary("UnknownCover", "2025-05-01,R3-14,bag-on,sock,", "4:25",
            {"bag-on \"sock\" is not known", "clear-bag, paper-over-bag"}),
      diary("CoverOfNothing", "2025-05-01,R3-14,bag-on,none,", "4:25", {"bag-on \"none\" is not known"}),
      diary("UnknownWrap", "2025-05-01,R3-14,wrap-on,flim,", "4:26",
            {"wrap-on \"flim\" is not known", "did you mean film"}),
      diary("VoidOfNothing", "2025-05-01,R3-14,void,2025-01-01,", "4:23",
            {"no earlier line is of \"2025-01-01\""}),
      diary("CutDiaryLine", "2025-05-01,R3-1", "4:16", {"the row has 2 fields, the header 5"}),
      wood("FreezerWood", "W1,2025-01-05,freezer", "2:15", {"give one of: fridge, shed, water, none"}),
      wood("WoodWithoutDate", "W1,,shed", "2:4", {"cut_on is empty"}),
  };
}

// Reads all records of a site folder, as a command does before it answers.
void read_all(const fs::path& folder) {
  const Site site = read_site(folder);
  const Clock clock(site.time_zone);
  const Ledger ledger = read_ledger(folder, site, clock, sample_names());
  read_diary(folder, site, clock, sample_names(), ledger);
  read_wood(folder, clock, sample_names());
}

class BadInputTest : public ::testing::TestWithParam<BadInput> {};

TEST_P(BadInputTest, IsPointedAtAndChangesNoFile) {
  const BadInput& bad = GetParam();
  const SampleFolder folder;
  folder.write(bad.file, bad.content);
  const auto before = folder.snapshot();
  const std::string error = error_of([&] { read_all(folder.path()); });
  EXPECT_THAT(error, StartsWith(bad.kind + " " + (folder.path() / bad.file).string() + ":" + bad.place));
  for (const std::string& fragment : bad.fragments) EXPECT_THAT(error, HasSubstr(fragment));
  EXPECT_LT(error.size(), 1000U);
  EXPECT_EQ(folder.snapshot(), before);
}

class BadRecordsTest : public ::testing::TestWithParam<BadInput> {};

TEST_P(BadRecordsTest, LetNothingBeWrittenBesideThem) {
  const BadInput& bad = GetParam();
  const SampleFolder folder;
  folder.write(bad.file, bad.content);
  const auto before = folder.snapshot();
  const auto& site = parsed_site();
  const auto clock = sample_clock();
  const auto names = sample_names();
  if (bad.file == "wood.csv") {
    EXPECT_THROW(
        add_wood(folder.path(), clock, names, {{"id", "W9"}, {"cut_on", "2025-01-01"}, {"stored", "shed"}}),
        DataError);
  } else {
    EXPECT_THROW(append_diary(folder.path(), site, clock, names, {{"2025-05-01", "R3-15", Event::green}}),
                 DataError);
    EXPECT_THROW(split_batch(folder.path(), site, clock, names, "R3-14", 2, instant("2025-05-01T10:00Z")),
                 DataError);
  }
  EXPECT_EQ(folder.snapshot(), before);
}

std::string name_of(const ::testing::TestParamInfo<BadInput>& info) {
  return info.param.name;
}

INSTANTIATE_TEST_SUITE_P(Grafts, BadInputTest, ::testing::ValuesIn(bad_grafts()), name_of);
INSTANTIATE_TEST_SUITE_P(Site, BadInputTest, ::testing::ValuesIn(bad_sites()), name_of);
INSTANTIATE_TEST_SUITE_P(DiaryAndWood, BadInputTest, ::testing::ValuesIn(bad_diaries_and_wood()), name_of);
INSTANTIATE_TEST_SUITE_P(Grafts, BadRecordsTest, ::testing::ValuesIn(bad_grafts()), name_of);
INSTANTIATE_TEST_SUITE_P(DiaryAndWood, BadRecordsTest, ::testing::ValuesIn(bad_diaries_and_wood()), name_of);

TEST(BadFiles, FoldersInPlaceOfFilesCannotBeOpened) {
  for (const char* file : {"site.json", "grafts.csv", "diary.csv"}) {
    const SampleFolder folder;
    fs::remove(folder.path() / file);
    fs::create_directory(folder.path() / file);
    EXPECT_THAT(error_of([&] { read_all(folder.path()); }),
                StartsWith("cannot-open " + (folder.path() / file).string() + ": is a folder"));
  }
}

TEST(BadFiles, FilesWithoutPermissionCannotBeOpened) {
  for (const char* file : {"site.json", "grafts.csv", "diary.csv"}) {
    const SampleFolder folder;
    fs::permissions(folder.path(), fs::perms::all);
    fs::permissions(folder.path() / file, fs::perms::none);
    const std::string error = as_ordinary_user([&] { return error_of([&] { read_all(folder.path()); }); });
    EXPECT_THAT(error, StartsWith("cannot-open " + (folder.path() / file).string() +
                                  ": cannot be opened: Permission denied"));
  }
}

TEST(BadFiles, AFolderWithoutASiteSaysSo) {
  const TemporaryFolder folder;
  EXPECT_THAT(error_of([&] { read_all(folder.path()); }),
              StartsWith("cannot-open " + (folder.path() / "site.json").string()));
}

TEST(BadFiles, TheSampleItselfIsGood) {
  const SampleFolder folder;
  EXPECT_EQ(error_of([&] { read_all(folder.path()); }), "no error");
}

}  // namespace
}  // namespace graftcast
