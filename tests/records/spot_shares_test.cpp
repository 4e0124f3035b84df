#include "records/spot_shares.hpp"

#include <gtest/gtest.h>

#include "graftcast/error.hpp"
#include "temporary_folder.hpp"

namespace graftcast {
namespace {

constexpr const char* before =
    "{\"format\": 1, \"latitude\": 41, \"longitude\": -7.50, \"elevation_m\": 260, \"time_zone\": \"UTC\",\n"
    " \"spots\": {\"a/b~c\": {\"wind\" : 0.5 ,\"rain\":true},\n   \"bare\": {}},\n  \"x-mine\": 1.50}\n";

std::string with(const std::string& spot, const SpotShares& shares) {
  return with_spot_shares(before, "site.json", spot, shares);
}

TEST(SpotShares, AreReplacedOrAddedAndTheRestStaysByteForByte) {
  EXPECT_EQ(
      with("a/b~c", {0.4, 0.25}),
      "{\"format\": 1, \"latitude\": 41, \"longitude\": -7.50, \"elevation_m\": 260, \"time_zone\": "
      "\"UTC\",\n"
      " \"spots\": {\"a/b~c\": {\"wind\" : 0.25 ,\"rain\":true,\n   \"sun\": 0.40},\n   \"bare\": {}},\n  "
      "\"x-mine\": 1.50}\n");
  EXPECT_NE(with("bare", {std::nullopt, 1.0}).find("\"bare\": {\"wind\": 1.00}}"), std::string::npos);
  EXPECT_EQ(with("bare", {}), before);
}

TEST(SpotShares, OfAnUnknownSpotAreAnError) {
  EXPECT_THROW(with("bench", {0.4, {}}), RangeError);
  EXPECT_THROW(with_spot_shares("{", "site.json", "bench", {0.4, {}}), DataError);
}

TEST(SpotShares, AreNotWrittenIntoAFileThatIsNoSite) {
  const testing::TemporaryFolder folder;
  folder.write("site.json", "{\"format\": 1, \"spots\": {\"bench\": {}}}");
  EXPECT_THROW(write_spot_shares(folder.path(), "bench", {0.4, {}}), DataError);
  EXPECT_EQ(folder.read("site.json"), "{\"format\": 1, \"spots\": {\"bench\": {}}}");
  folder.write("site.json", before);
  EXPECT_THROW(write_spot_shares(folder.path(), "bare", {1.4, {}}), DataError);  // Beyond the whole.
  EXPECT_EQ(folder.read("site.json"), before);
  write_spot_shares(folder.path(), "bare", {0.4, {}});
  EXPECT_NE(folder.read("site.json").find("\"bare\": {\"sun\": 0.40}"), std::string::npos);
}

}  // namespace
}  // namespace graftcast
