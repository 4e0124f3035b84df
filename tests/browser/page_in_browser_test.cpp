// The page as a browser shows it: on a phone, a tablet and a desk, light and dark, and on paper.

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "small_site.hpp"
#include "web_driver.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::SmallSite;
using testing::WebDriver;

/// Contrast of texts by WCAG 2.1, success criterion 1.4.3: relative luminance from sRGB (recalled). Gives the
/// texts below 4.5.
constexpr const char* faint_texts = R"js(
  const lit = (rgb) => {
    const [r, g, b] = rgb.map((v) => v / 255).map((v) => v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4);
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const parse = (colour) => colour.match(/[\d.]+/g).map(Number);
  const ground = (element) => {
    for (let e = element; e; e = e.parentElement) {
      const colour = parse(getComputedStyle(e).backgroundColor);
      if (colour.length === 3 || colour[3] === 1) return colour.slice(0, 3);
    }
    return [255, 255, 255];
  };
  const found = [];
  for (const details of document.querySelectorAll('details')) details.open = true;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const e = node.parentElement;
    if (node.textContent.trim() === '' || !e.checkVisibility() || e.closest('script')) continue;
    const style = getComputedStyle(e);
    const ink = parse(e.closest('svg') ? style.fill : style.color).slice(0, 3);
    const [a, b] = [lit(ink), lit(ground(e))];
    const contrast = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    if (contrast < 4.5) found.push(contrast.toFixed(2) + ' ' + node.textContent.trim().slice(0, 40));
  }
  return found;)js";

/// Everything that is pressed with a finger, and is smaller than 44 pixels either way (WCAG 2.1, success
/// criterion 2.5.5; recalled). Links within a sentence do not count.
constexpr const char* small_targets = R"js(
  for (const details of document.querySelectorAll('details')) details.open = true;
  return [...document.querySelectorAll('.ev span, .tick, .big, .copy, summary, .some input, .seek')]
    .filter((e) => e.checkVisibility())
    .map((e) => [e.getBoundingClientRect(), e])
    .filter(([box]) => box.height < 44 || box.width < 44)
    .map(([box, e]) => e.className + ' ' + e.textContent.trim() + ' ' + box.width + ' x ' + box.height);)js";

constexpr const char* every_control = R"js(
  for (const details of document.querySelectorAll('details')) details.open = true;
  window.reached = new Set();
  document.addEventListener('focusin', (event) => window.reached.add(event.target));
  window.controls = [...document.querySelectorAll('a[href], button, input, textarea, summary, [tabindex="0"]')]
    .filter((e) => e.checkVisibility());
  return window.controls.length;)js";

constexpr const char* missed_controls =
    "return window.controls.filter((e) => !window.reached.has(e)).map((e) => e.outerHTML.slice(0, 120));";

class PageInBrowser : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!WebDriver::is_installed()) GTEST_SKIP() << "no chromedriver here: install Debian's chromium-driver";
    browser_ = std::make_unique<WebDriver>();
  }

  /// Makes the page of the site into a file, and opens it.
  void open() {
    const std::string file = (site_.path() / "page.html").string();
    const testing::Said said = site_.run({"page", "--to", file});
    ASSERT_EQ(said.exit_code, 0) << said.err;
    browser_->open(file);
  }

  void expect_no_sideways_scroll() {
    EXPECT_LE(browser_->run("return document.documentElement.scrollWidth").get<int>(),
              browser_->run("return window.innerWidth").get<int>());
  }

  SmallSite site_;
  std::unique_ptr<WebDriver> browser_;
};

TEST_F(PageInBrowser, FitsEveryWidthIsReadableAndLoadsNothing) {
  for (const int width : {360, 768, 1280})
    for (const bool dark : {false, true}) {
      browser_->window(width, 900, dark);
      open();
      SCOPED_TRACE(fmt::format("{} px, {}", width, dark ? "dark" : "light"));
      expect_no_sideways_scroll();
      EXPECT_EQ(browser_->run(faint_texts), json::array());
      EXPECT_EQ(browser_->run(small_targets), json::array());
      expect_no_sideways_scroll();  // With everything unfolded, too.
      EXPECT_EQ(browser_->run("return performance.getEntriesByType('resource').length"), 0);
      EXPECT_THAT(browser_->console(), IsEmpty());
    }
}

TEST_F(PageInBrowser, IsReachedByKeyboardInEveryControl) {
  browser_->window(360, 900, false);
  open();
  const int controls = browser_->run(every_control).get<int>();
  ASSERT_GT(controls, 60);
  for (int i = 0; i < controls + 5; ++i) browser_->press("Tab");
  EXPECT_EQ(browser_->run(missed_controls), json::array());
}

TEST_F(PageInBrowser, BuildsTheTextOfNotesFromItsButtons) {
  browser_->window(360, 900, false);
  open();
  const auto click = [&](const std::string& note) {
    browser_->run(fmt::format("document.querySelector('input[value=\"{}\"]').click()", note));
  };
  const auto lines = [&] {
    return browser_->run("return document.getElementById('notes').value.trim().split('\\n')")
        .get<std::vector<std::string>>();
  };
  constexpr const char* moment = "^20[0-9]{2}-[0-9]{2}-[0-9]{2} [0-9]{2}:[0-9]{2} ";
  const auto noted = [&](const std::string& note) { return ::testing::ContainsRegex(moment + note + "$"); };
  browser_->run("for (const box of document.querySelectorAll('.some input')) box.value = '2'");
  click("B1 green");
  click("A1 watered");
  EXPECT_THAT(lines(), ElementsAre(noted("B1 green 2"), noted("A1 watered")));
  click("B1 green");
  EXPECT_THAT(lines(), ElementsAre(noted("A1 watered")));
  EXPECT_EQ(browser_->run("return document.getElementById('bar').textContent"), "1 note to send");
}

TEST_F(PageInBrowser, ReadsOutADayOfAllThreeCharts) {
  browser_->window(768, 900, false);
  open();
  const std::string read = browser_
                               ->run(
                                   "const seek = document.querySelector('.seek'); seek.value = 1;"
                                   "seek.dispatchEvent(new Event('input'));"
                                   "return seek.getAttribute('aria-valuetext')")
                               .get<std::string>();
  for (const char* part : {"tissue ", "air ", "limit ", "water ", "healing ", "stage "})
    EXPECT_THAT(read, HasSubstr(part));
  EXPECT_EQ(
      browser_->run("return document.querySelectorAll('.card')[0].querySelectorAll('path.at[d]').length"), 3);
}

TEST_F(PageInBrowser, RunsNoScriptButItsOwnAndWorksWithoutIt) {
  browser_->window(360, 900, false);
  open();
  std::string html = site_.read("page.html");
  html.replace(html.find("'use strict';"), 13, "'use  strict';");
  browser_->open(site_.write("changed.html", html).string());
  EXPECT_THAT(browser_->console(), ElementsAre(HasSubstr("Content Security Policy")));
  EXPECT_EQ(browser_->run("return document.documentElement.className"), "");
  EXPECT_EQ(browser_->run("document.querySelector('.card details.notes').open = true;"
                          "return document.querySelector('.card .ev span').checkVisibility()"),
            true);
  EXPECT_EQ(browser_->run("return getComputedStyle(document.getElementById('copy')).display"), "none");
  expect_no_sideways_scroll();
}

TEST_F(PageInBrowser, ShowsHostileNamesAsText) {
  const std::string name = "<script>document.title='ran'</script>\u202Eturned";
  site_.replace("grafts.csv", "Millrace", name);
  site_.replace("grafts.csv", "Red Pith", std::string(500, 'W'));
  browser_->window(360, 900, false);
  open();
  EXPECT_EQ(browser_->run("return document.scripts.length"), 1);
  EXPECT_THAT(browser_->run("return document.title").get<std::string>(), HasSubstr("Grafts at"));
  EXPECT_THAT(browser_->run("return document.body.textContent").get<std::string>(), HasSubstr(name));
  EXPECT_LT(browser_
                ->run("return Math.max(...[...document.querySelectorAll('.nm')]"
                      ".map((e) => e.getBoundingClientRect().height))")
                .get<double>(),
            100);
  expect_no_sideways_scroll();
  EXPECT_THAT(browser_->console(), IsEmpty());
}

TEST_F(PageInBrowser, PrintsTheListWithBoxesToTickOff) {
  browser_->window(768, 900, false);
  open();
  EXPECT_THAT(browser_->printed().substr(0, 8), ::testing::StartsWith("JVBERi"));  // "%PDF" in base64.
  browser_->medium("print");
  EXPECT_EQ(browser_->run("return [...document.querySelectorAll('.tick')].every((e) => e.checkVisibility())"),
            true);
  EXPECT_EQ(browser_->run("return [...document.querySelectorAll('.card, textarea, button')]"
                          ".some((e) => e.checkVisibility())"),
            false);
}

}  // namespace
}  // namespace graftcast
