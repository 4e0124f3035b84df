// Covers taken apart and put together.

#include "plant/cover_parts.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "model/made_weather.hpp"

namespace graftcast::testing {
namespace {

using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::Pair;
using ::testing::UnorderedElementsAre;
using Over = CoverParts::Over;

/// The published models with a sock, which is a bag that takes some light, and a crate of slats.
const Models& models_with_own_covers() {
  static const Models models = [] {
    Models own = published_models();
    Cover sock = own.covers.at("clear-bag");
    sock.name = "sock";
    sock.needs = "sock";
    sock.light_passed.value = 0.4;
    sock.light_absorbed.value = 0.5;
    own.covers.emplace("sock", sock);
    Cover crate = own.covers.at("paper-bag");
    crate.name = "crate+slats";
    own.covers.emplace("crate+slats", crate);
    return own;
  }();
  return models;
}

CoverOptics optics(const std::string& name) {
  return cover_optics(name, models_with_own_covers());
}

TEST(CoverParts, OfThePublishedCoversGiveTheirNamesBack) {
  for (const auto& [name, cover] : published_models().covers)
    EXPECT_EQ(cover_name(parts_of_cover(name, published_models())), name);
}

TEST(CoverParts, OfAnOwnCoverAreOneBagAndWhatIsDoneToIt) {
  const Models& models = models_with_own_covers();
  EXPECT_EQ(parts_of_cover("sock", models), (CoverParts{"sock"}));
  for (const Over over : {Over::vent, Over::paper, Over::foil})
    EXPECT_EQ(parts_of_cover(cover_name({"sock", over}), models), (CoverParts{"sock", over}));
  EXPECT_EQ(cover_name({"sock", Over::paper}), "sock+paper");
  EXPECT_EQ(parts_of_cover(cover_name({"", Over::foil}), models), (CoverParts{"", Over::foil}));
  EXPECT_EQ(parts_of_cover("crate+slats", models), (CoverParts{"crate+slats"}));
}

TEST(CoverOptics, OfPartsOnAClearBagAreThoseOfTheEntryForThem) {
  // With an entry that is the clear bag under another name, every composition meets a published one.
  Models models = published_models();
  Cover twin = models.covers.at("clear-bag");
  twin.name = "twin";
  models.covers.emplace("twin", twin);
  for (const Over over : {Over::vent, Over::paper, Over::foil}) {
    const CoverOptics made = cover_optics(cover_name({"twin", over}), models);
    const CoverOptics published = cover_optics(cover_name({"clear-bag", over}), models);
    EXPECT_EQ(made.wall, published.wall);
    EXPECT_NEAR(made.light_passed, published.light_passed, 1e-12);
    EXPECT_NEAR(made.light_absorbed, published.light_absorbed, 1e-12);
    EXPECT_NEAR(made.heat_kept, published.heat_kept, 1e-12);
    EXPECT_NEAR(made.vapour_kept, published.vapour_kept, 1e-12);
  }
}

TEST(CoverOptics, OfASheetOverAnOwnBagDarkensItAndKeepsItClosed) {
  EXPECT_LT(optics("sock+paper").light_passed, 0.5 * optics("sock").light_passed);
  EXPECT_LE(optics("sock+paper").light_passed + optics("sock+paper").light_absorbed, 1);
  EXPECT_EQ(optics("sock+paper").vapour_kept, optics("sock").vapour_kept);
  EXPECT_EQ(optics("sock+vented").vapour_kept, optics("vented-bag").vapour_kept);
  EXPECT_EQ(optics("sock+vented").light_passed, optics("sock").light_passed);
}

TEST(CoverOptics, OfFoilAloneShadeAndLetVapourOut) {
  const CoverOptics foil = optics(cover_name({"", Over::foil}));
  EXPECT_TRUE(foil.wall);
  EXPECT_LT(foil.light_passed, 0.1);
  EXPECT_EQ(foil.vapour_kept, 0);
}

TEST(CoverNeeds, AreThoseOfTheBagAndOfWhatLiesOverIt) {
  const Models& models = models_with_own_covers();
  EXPECT_THAT(cover_needs("none", models), IsEmpty());
  EXPECT_THAT(cover_needs("paper-over-bag", models),
              UnorderedElementsAre(Pair("clear-bag", 1), Pair("paper", 1)));
  EXPECT_THAT(cover_needs("sock+foil", models), UnorderedElementsAre(Pair("sock", 1), Pair("foil", 1)));
  EXPECT_THAT(cover_needs("sock+vented", models), UnorderedElementsAre(Pair("sock", 1)));
}

TEST(OwnCovers, AreThoseBeyondThePublished) {
  EXPECT_THAT(own_covers(published_models()), IsEmpty());
  EXPECT_THAT(own_covers(models_with_own_covers()), ElementsAre("crate+slats", "sock"));
}

}  // namespace
}  // namespace graftcast::testing
