// `learn` over the program: what it writes, uses and forgets.

#include <fstream>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "json_schema.hpp"
#include "small_site.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::Said;
using testing::SmallSite;

constexpr const char* learned = R"({"format": 1, "fitted_at": "2025-06-01T00:00:00Z", "outcomes": 40,
 "species": {}, "methods": {"chip": {"pace": {"mean": 0.5, "sd": 0.1}, "drying": {"mean": 0, "sd": 0.2},
 "failure": {"mean": 0.2, "sd": 0.3}, "outcomes": 40}}})";

TEST(Learn, AnswersInItsSchemaAndChangesNothingFromNothing) {
  const SmallSite site;
  const std::string before = site.fingerprint();
  const Said said = site.run({"learn", "--json", "--bases", "--by", "species", "--by", "grafter"});
  ASSERT_EQ(said.exit_code, 0) << said.err;
  std::ifstream stream(GRAFTCAST_SOURCE_DIR "/models/schema/output-learn.schema.json");
  EXPECT_THAT(testing::SchemaCheck(json::parse(stream)).complaints(json::parse(said.out)), IsEmpty());
  EXPECT_EQ(json::parse(said.out)["changed"], false);
  EXPECT_EQ(site.fingerprint(), before);
}

TEST(Learn, WhatIsLearnedMovesTheOtherAnswersUntilItIsForgotten) {
  const SmallSite site;
  const auto healing = [&] { return json::parse(site.run({"since", "--json"}).out)["grafts"]; };
  const json before = healing();
  site.write("learned.json", learned);
  const json with = healing();
  bool moved = false;
  for (std::size_t i = 0; i < before.size(); ++i) {
    const bool chip = before[i]["graft_method"] == "chip";
    const double gain = with[i]["healing"].get<double>() - before[i]["healing"].get<double>();
    EXPECT_TRUE(chip || gain == 0) << before[i]["id"];
    moved = moved || (chip && gain > 0);
  }
  EXPECT_TRUE(moved);
  EXPECT_EQ(site.run({"learn", "--forget"}).exit_code, 0);
  EXPECT_EQ(healing(), before);
  EXPECT_THAT(site.run({"learn", "--forget"}).out, HasSubstr("nothing had been learned"));
}

TEST(Learn, ABrokenFileIsRefusedByEveryCommandAndStays) {
  for (
      const auto& [text, message] :
      {std::pair{R"({"format": 2})", "learned.json:1:"},
       {"{\"format\": 1,\n \"outcomes\": \"x\"}", "learned.json:"},
       {R"({"format": 1, "fitted_at": "x", "outcomes": 1, "species": {"apple": {"pace": {"mean": 9, "sd": 1}}}, "methods": {}})",
        "learned.json:1:"}}) {
    const SmallSite site;
    site.write("learned.json", text);
    const std::string before = site.fingerprint();
    const Said said = site.run({"morning"});
    EXPECT_EQ(said.exit_code, 65) << said.err;
    EXPECT_THAT(said.err, HasSubstr(message));
    EXPECT_THAT(said.out, IsEmpty());
    EXPECT_EQ(site.fingerprint(), before);
  }
}

}  // namespace
}  // namespace graftcast
