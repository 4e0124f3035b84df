// Sentences in the language of the thread, with English behind them.

#include "text/tr.hpp"

#include <barrier>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "made_catalogue.hpp"
#include "text/catalogue.hpp"

namespace graftcast {
namespace {

using testing::mo_bytes;

Catalogue made(const std::string& of, const std::string& may) {
  return Catalogue(mo_bytes({{"", testing::polish_header},
                             {"{n} of {all} grafts", of},
                             {std::string("month\x04May"), may},
                             {testing::forms({"{n} graft", "{n} grafts"}),
                              testing::forms({"{n} zraz", "{n} zrazy", "{n} zrazow"})}}),
                   "made.mo");
}

std::string of_all(int n, int all) {
  return tr("{n} of {all} grafts", "n"_a = n, "all"_a = all);
}

std::string grafts(int n) {
  return trn("{n} graft", "{n} grafts", n, "n"_a = n);
}

TEST(Sentences, AreEnglishWithoutALanguage) {
  EXPECT_EQ(of_all(3, 5), "3 of 5 grafts");
  EXPECT_EQ(grafts(1), "1 graft");
  EXPECT_EQ(grafts(0), "0 grafts");
  EXPECT_EQ(trc("month", "May"), "May");
  EXPECT_EQ(translated(tr_later("dew point")), "dew point");
}

TEST(Sentences, OfALanguageOrderTheirArgumentsAsItDoes) {
  const Catalogue catalogue = made("z {all} zrazow {n}", "maj");
  const LanguageScope language(&catalogue);
  EXPECT_EQ(of_all(3, 5), "z 5 zrazow 3");
  EXPECT_EQ(trc("month", "May"), "maj");
  EXPECT_EQ(tr("May"), "May") << "without its context it is another word";
  EXPECT_EQ(grafts(1), "1 zraz");
  EXPECT_EQ(grafts(3), "3 zrazy");
  EXPECT_EQ(grafts(5), "5 zrazow");
  EXPECT_EQ(tr("{n} bags", "n"_a = 2), "2 bags") << "what is not translated is English";
}

TEST(Sentences, WhoseBracesDoNotFitFallBackToEnglish) {
  for (const std::string wrong : {"{count} z {all}", "{n} z {all", "{n:d} z {all:s}", "{n!r}", "}"}) {
    const Catalogue catalogue = made(wrong, "maj");
    const LanguageScope language(&catalogue);
    EXPECT_EQ(of_all(3, 5), "3 of 5 grafts") << wrong;
  }
}

TEST(Sentences, AreOfTheInnermostScope) {
  const Catalogue outer = made("a{n}{all}", "a"), inner = made("b{n}{all}", "b");
  const LanguageScope first(&outer);
  {
    const LanguageScope second(&inner);
    EXPECT_EQ(of_all(1, 2), "b12");
    const LanguageScope english(nullptr);
    EXPECT_EQ(of_all(1, 2), "1 of 2 grafts");
  }
  EXPECT_EQ(of_all(1, 2), "a12");
  EXPECT_EQ(LanguageScope::current(), &outer);
}

TEST(Sentences, OfTwoThreadsAreInTwoLanguages) {
  const Catalogue first = made("a{n}{all}", "a"), second = made("b{n}{all}", "b");
  std::barrier both(2);
  std::string said[2];
  const auto say = [&](const Catalogue& catalogue, std::string& into) {
    const LanguageScope language(&catalogue);
    both.arrive_and_wait();  // Both scopes are open now.
    into = of_all(1, 2);
    both.arrive_and_wait();
  };
  {
    const std::jthread one([&] { say(first, said[0]); });
    const std::jthread other([&] { say(second, said[1]); });
  }
  EXPECT_EQ(said[0], "a12");
  EXPECT_EQ(said[1], "b12");
  EXPECT_EQ(of_all(1, 2), "1 of 2 grafts");
}

}  // namespace
}  // namespace graftcast
