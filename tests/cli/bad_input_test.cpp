// Bad input of every kind through the whole program: exit code, message, and that no file changes.

#include <functional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "small_site.hpp"

namespace graftcast {
namespace {

using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::Said;
using testing::SmallSite;
using ::testing::StartsWith;

using Spoil = std::function<void(const SmallSite&)>;

struct BadInput {
  std::string name;
  Spoil spoil;
  int exit_code;
  std::vector<std::string> fragments;  ///< All of them stand in the message.
  std::vector<std::string> arguments = {"morning"};
  std::string input = {};
};

void PrintTo(const BadInput& bad, std::ostream* stream) {
  *stream << bad.name;
}

Spoil replaced(std::string file, std::string from, std::string to) {
  return [=](const SmallSite& site) { site.replace(file, from, to); };
}

Spoil written(std::string file, std::string content) {
  return [=](const SmallSite& site) { site.write(file, content); };
}

Spoil folder_instead(std::string file) {
  return [=](const SmallSite& site) {
    std::filesystem::remove(site.path() / file);
    std::filesystem::create_directory(site.path() / file);
  };
}

Spoil dangling_link(std::string file) {
  return [=](const SmallSite& site) {
    std::filesystem::remove(site.path() / file);
    std::filesystem::create_symlink("nowhere", site.path() / file);
  };
}

const Spoil nothing = [](const SmallSite&) {};

std::string in_utf16(const std::string& text) {
  std::string wide = "\xff\xfe";
  for (const char letter : text) wide += {letter, '\0'};
  return wide;
}

/// A log whose one row is `row`, under the usual headers.
std::string log_with(const std::string& row) {
  return "time,air_temperature [degC],relative_humidity [%]\n2025-06-09T00:00,12,80\n" + row +
         "\n2025-06-09T02:00,12,80\n";
}

const std::string million(1000000, 'x');

const std::vector<BadInput>& site_cases() {
  static const std::vector<BadInput> cases{
      {"no_site",
       [](const SmallSite& site) { std::filesystem::remove(site.path() / "site.json"); },
       66,
       {"site.json", "there is no site here", "graftcast new"}},
      {"latitude_95", replaced("site.json", "40.9", "95"), 65, {"site.json:2:", "latitude", "95", "90"}},
      {"longitude_as_text", replaced("site.json", "0.4", "\"0.4\""), 65, {"site.json:2:", "longitude"}},
      {"number_too_great", replaced("site.json", "40.9", "1e400"), 65, {"site.json:2:"}},
      {"not_a_number", replaced("site.json", "40.9", "NaN"), 65, {"site.json:2:"}},
      {"unknown_zone",
       replaced("site.json", "Europe/Madrid", "Europe/Madird"),
       65,
       {"site.json:2:", "Europe/Madrid"}},
      {"unknown_key",
       replaced("site.json", "elevation_m", "elevaton_m"),
       65,
       {"site.json:2:", "did you mean elevation_m"}},
      {"key_twice",
       replaced("site.json", "\"name\"", "\"format\": 1, \"name\""),
       65,
       {"site.json:1:", "twice"}},
      {"sun_above_one", replaced("site.json", "\"sun\": 0.9", "\"sun\": 1.9"), 65, {"site.json:3:", "1.9"}},
      {"newer_format",
       replaced("site.json", "\"format\": 1", "\"format\": 2"),
       65,
       {"site.json:1:", "format"}},
      {"site_cut_off",
       [](const SmallSite& site) { site.write("site.json", site.read("site.json").substr(0, 100)); },
       65,
       {"site.json:", "not valid JSON"}},
      {"site_empty", written("site.json", ""), 65, {"site.json"}},
      {"site_a_folder", folder_instead("site.json"), 66, {"site.json"}},
      {"site_in_utf16",
       [](const SmallSite& site) { site.write("site.json", in_utf16(site.read("site.json"))); },
       65,
       {"site.json", "UTF-16"}},
      {"source_outside",
       replaced("site.json", "weather/station.csv", "../station.csv"),
       65,
       {"site.json:6:", "outside"}},
      {"deep_nesting", written("site.json", std::string(100, '[')), 65, {"site.json:1:"}}};
  return cases;
}

const std::vector<BadInput>& record_cases() {
  static const std::vector<BadInput> cases{
      {"no_such_day",
       replaced("grafts.csv", "2025-06-08", "2025-02-30"),
       65,
       {"grafts.csv:3:4", "2025-02-30"}},
      {"unknown_species",
       replaced("grafts.csv", "apple", "aple"),
       65,
       {"grafts.csv:2:", "did you mean apple"}},
      {"unknown_method",
       replaced("grafts.csv", "cleft", "cletf"),
       65,
       {"grafts.csv:2:", "did you mean cleft"}},
      {"unknown_spot", replaced("grafts.csv", "shed", "shad"), 65, {"grafts.csv:5:", "did you mean shed"}},
      {"unknown_wrap",
       replaced("grafts.csv", "film-bud-out", "film-but-out"),
       65,
       {"grafts.csv:3:", "film-bud-out"}},
      {"id_twice", replaced("grafts.csv", "\nB1,", "\nA1,"), 65, {"grafts.csv:3:1", "A1"}},
      {"count_of_none", replaced("grafts.csv", ",10,", ",0,"), 65, {"grafts.csv:2:", "0"}},
      {"count_of_half", replaced("grafts.csv", ",10,", ",1.5,"), 65, {"grafts.csv:2:", "1.5"}},
      {"row_cut_off",
       [](const SmallSite& site) { site.write("grafts.csv", site.read("grafts.csv") + "E1,2025-06\n"); },
       65,
       {"grafts.csv:6:"}},
      {"quote_not_closed", replaced("grafts.csv", "\"tight, good\"", "\"tight, good"), 65, {"grafts.csv:3:"}},
      {"column_twice", replaced("grafts.csv", "grown by", "spot"), 65, {"grafts.csv:1:", "spot"}},
      {"column_lacks", replaced("grafts.csv", "species", "sort"), 65, {"grafts.csv:1", "species"}},
      {"grafts_empty", written("grafts.csv", ""), 65, {"grafts.csv"}},
      {"grafts_a_folder", folder_instead("grafts.csv"), 66, {"grafts.csv"}},
      {"grafts_dangling", dangling_link("grafts.csv"), 66, {"grafts.csv"}},
      {"grafts_in_utf16",
       [](const SmallSite& site) { site.write("grafts.csv", in_utf16(site.read("grafts.csv"))); },
       65,
       {"grafts.csv", "UTF-16"}},
      {"nul_byte",
       [](const SmallSite& site) {
         site.write("grafts.csv", site.read("grafts.csv") + std::string(1, '\0'));
       },
       65,
       {"grafts.csv"}},
      {"long_field", replaced("grafts.csv", "Millrace", million), 65, {"grafts.csv:2:"}},
      {"unknown_supply",
       replaced("site.json", "\"paper\"", "\"papre\""),
       65,
       {"site.json:", "did you mean paper"}},
      {"unknown_event", replaced("diary.csv", "green", "gren"), 65, {"diary.csv:3:", "did you mean green"}},
      {"unknown_graft", replaced("diary.csv", "A1,watered", "A7,watered"), 65, {"diary.csv:2:", "A7"}},
      {"more_than_there_are", replaced("diary.csv", "green,10", "green,11"), 65, {"diary.csv:3:", "11"}},
      {"shade_above_one", replaced("diary.csv", "A1,watered,", "A1,shade,1.5"), 65, {"diary.csv:2:", "1.5"}},
      {"note_before_graft",
       replaced("diary.csv", "2025-06-10T09:00", "2025-05-10T09:00"),
       65,
       {"diary.csv:3:"}},
      {"diary_a_folder", folder_instead("diary.csv"), 66, {"diary.csv"}},
      {"wood_of_no_store",
       written("wood.csv", "id,cut_on,stored\nS1,2025-01-01,cellar\n"),
       65,
       {"wood.csv:2:", "cellar"}}};
  return cases;
}

const std::vector<BadInput>& weather_cases() {
  static const std::vector<BadInput> cases{
      {"log_lacks",
       [](const SmallSite& site) { std::filesystem::remove(site.path() / "weather/station.csv"); },
       66,
       {"weather/station.csv"}},
      {"log_empty", written("weather/station.csv", ""), 65, {"weather/station.csv"}},
      {"log_a_folder", folder_instead("weather/station.csv"), 66, {"weather/station.csv"}},
      {"log_of_headers_only",
       written("weather/station.csv", "time,air_temperature [degC]\n"),
       65,
       {"weather/station.csv"}},
      {"unit_wrong",
       replaced("weather/station.csv", "[degC]", "[degX]"),
       65,
       {"weather/station.csv:1:", "degX"}},
      {"unit_of_light",
       replaced("weather/station.csv", "[W m-2]", "[lux]"),
       65,
       {"weather/station.csv:1:", "lux"}},
      {"unit_of_other_kind",
       replaced("weather/station.csv", "[degC]", "[mm]"),
       65,
       {"weather/station.csv:1:"}},
      {"no_number",
       written("weather/station.csv", log_with("2025-06-09T01:00,warm,80")),
       65,
       {"weather/station.csv:3:18", "warm"}},
      {"great_number",
       written("weather/station.csv", log_with("2025-06-09T01:00,1e400,80")),
       65,
       {"weather/station.csv:3:18", "1e400"}},
      {"no_time",
       written("weather/station.csv", log_with("2025-02-30T01:00,12,80")),
       65,
       {"weather/station.csv:3:1", "2025-02-30"}},
      {"field_too_many",
       written("weather/station.csv", log_with("2025-06-09T01:00,12,80,1")),
       65,
       {"weather/station.csv:3"}},
      {"log_in_utf16",
       [](const SmallSite& site) { site.write("weather/station.csv", in_utf16(testing::hourly_log(1, 2))); },
       65,
       {"weather/station.csv", "UTF-16"}},
      {"million_letters",
       written("weather/station.csv", log_with("2025-06-09T01:00," + million + ",80")),
       65,
       {"weather/station.csv:3"}},
      {"no_weather_at_all",
       replaced("site.json", "\"weather\"", "\"x-weather\""),
       65,
       {"no weather is known", "weather add"}}};
  return cases;
}

const std::vector<BadInput>& usage_cases() {
  static const std::vector<BadInput> cases{
      {"unknown_command", nothing, 2, {"did you mean morning"}, {"mornign"}},
      {"unknown_option", nothing, 2, {"did you mean --horizon"}, {"morning", "--horizn", "3"}},
      {"horizon_too_far", nothing, 2, {"--horizon", "1 to 14"}, {"morning", "--horizon", "15"}},
      {"members_none", nothing, 2, {"--members"}, {"morning", "--members", "0"}},
      {"members_no_number", nothing, 2, {"--members", "many"}, {"morning", "--members", "many"}},
      {"no_such_time", nothing, 2, {"--at", "2025-06-31"}, {"morning", "--at", "2025-06-31"}},
      {"unknown_units", nothing, 2, {"did you mean metric"}, {"morning", "--units", "metrik"}},
      {"colour_of_none", nothing, 2, {"--color"}, {"morning", "--color", "blue"}},
      {"value_lacks", nothing, 2, {"--seed"}, {"morning", "--seed"}},
      {"unknown_rule", nothing, 2, {"did you mean double-sine or sine"}, {"since", "--method", "sin"}},
      {"graft_of_no_species", nothing, 65, {"species"}, {"graft", "--method", "chip"}},
      {"graft_of_unknown_method",
       nothing,
       65,
       {"did you mean chip"},
       {"graft", "--species", "fig", "--method", "chp"}},
      {"graft_in_unknown_spot",
       nothing,
       65,
       {"did you mean bench"},
       {"graft", "--species", "fig", "--method", "chip", "--spot", "bensh"}},
      {"graft_of_taken_id",
       nothing,
       65,
       {"A1"},
       {"graft", "--species", "fig", "--method", "chip", "--id", "A1"}},
      {"split_of_all", nothing, 2, {"A1"}, {"split", "A1", "10"}},
      {"split_of_nobody", nothing, 2, {"A2"}, {"split", "A2", "1"}},
      {"note_of_nothing", nothing, 2, {"no note"}, {"note"}, "# only a remark\n"},
      {"note_not_utf8", nothing, 65, {"UTF-8"}, {"note"}, "A1 green \xff\n"},
      {"note_of_unknown_graft", nothing, 65, {"Z1"}, {"note", "Z1", "green"}},
      {"weather_not_there", nothing, 66, {"nowhere.csv"}, {"weather", "add", "nowhere.csv"}},
      {"column_not_written_so", nothing, 2, {"--column"}, {"weather", "add", "nowhere.csv", "--column", "T"}},
      {"made_at_of_a_log",
       nothing,
       2,
       {"--as forecast"},
       {"weather", "add", "x.csv", "--made-at", "2025-06-09"}}};
  return cases;
}

class BadInputOf : public ::testing::TestWithParam<BadInput> {};

TEST_P(BadInputOf, IsRefusedWithAPlaceAndChangesNothing) {
  const BadInput& bad = GetParam();
  const SmallSite site;
  bad.spoil(site);
  const std::string before = site.fingerprint();
  const Said said = site.run(bad.arguments, {.input = bad.input});
  EXPECT_EQ(said.exit_code, bad.exit_code) << said.err;
  EXPECT_THAT(said.out, IsEmpty());
  EXPECT_THAT(said.err, StartsWith("graftcast: "));
  for (const std::string& fragment : bad.fragments) EXPECT_THAT(said.err, HasSubstr(fragment));
  EXPECT_LT(said.err.size(), 1000U);  // However long the field is.
  EXPECT_TRUE(site.fingerprint() == before) << "a file of the site has changed";
}

std::string name_of(const ::testing::TestParamInfo<BadInput>& info) {
  return info.param.name;
}

INSTANTIATE_TEST_SUITE_P(Site, BadInputOf, ::testing::ValuesIn(site_cases()), name_of);
INSTANTIATE_TEST_SUITE_P(Records, BadInputOf, ::testing::ValuesIn(record_cases()), name_of);
INSTANTIATE_TEST_SUITE_P(Weather, BadInputOf, ::testing::ValuesIn(weather_cases()), name_of);
INSTANTIATE_TEST_SUITE_P(Usage, BadInputOf, ::testing::ValuesIn(usage_cases()), name_of);

/// What only looks wrong, or is a single wrong value of a log: the answer comes all the same.
struct Forgiven {
  std::string name;
  Spoil spoil;
  std::string warning;  ///< Empty: nothing is said.
};

void PrintTo(const Forgiven& forgiven, std::ostream* stream) {
  *stream << forgiven.name;
}

std::string with_crlf(std::string text) {
  for (std::size_t at = 0; (at = text.find('\n', at)) != std::string::npos; at += 2)
    text.replace(at, 1, "\r\n");
  return text;
}

Spoil every_table(const std::function<std::string(std::string)>& change) {
  return [=](const SmallSite& site) {
    for (const char* file : {"grafts.csv", "diary.csv", "weather/station.csv", "site.json"})
      site.write(file, change(site.read(file)));
  };
}

const std::vector<Forgiven>& forgiven_cases() {
  static const std::vector<Forgiven> cases{
      {"crlf", every_table(with_crlf), ""},
      {"byte_order_mark", every_table([](std::string text) { return "\xef\xbb\xbf" + text; }), ""},
      {"no_last_line_end", every_table([](std::string text) {
         text.pop_back();
         return text;
       }),
       ""},
      {"humidity_130", replaced("weather/station.csv", "T05:00,13.9,77,", "T05:00,13.9,130,"),
       "weather/station.csv"},
      {"rain_below_nothing", replaced("weather/station.csv", ",0\n2025-06-02T00:00", ",-5\n2025-06-02T00:00"),
       "weather/station.csv"},
      {"temperature_of_99", replaced("weather/station.csv", "T03:00,13.0", "T03:00,99.0"),
       "weather/station.csv"},
      {"last_row_cut_off",
       [](const SmallSite& site) {
         std::string text = site.read("weather/station.csv");
         text.resize(text.size() - 9);
         site.write("weather/station.csv", text);
       },
       "cut off"}};
  return cases;
}

class ForgivenInput : public ::testing::TestWithParam<Forgiven> {};

TEST_P(ForgivenInput, IsAnsweredAndNamed) {
  const SmallSite site;
  GetParam().spoil(site);
  const std::string before = site.fingerprint();
  const Said said = site.run({"morning"});
  EXPECT_EQ(said.exit_code, 0) << said.err;
  EXPECT_THAT(said.out, HasSubstr("A1"));
  EXPECT_THAT(said.err, HasSubstr(GetParam().warning));
  EXPECT_TRUE(site.fingerprint() == before);
}

INSTANTIATE_TEST_SUITE_P(Input, ForgivenInput, ::testing::ValuesIn(forgiven_cases()),
                         [](const auto& one) { return one.param.name; });

}  // namespace
}  // namespace graftcast
