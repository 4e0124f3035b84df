// The page as a browser shows it: on a phone, a tablet and a desk, light and dark, and on paper.

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <sstream>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "small_site.hpp"
#include "web_driver.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::Each;
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
  const grounds = new Map();
  const ground = (e) => {
    if (!e) return [255, 255, 255];
    if (!grounds.has(e)) {
      const colour = parse(getComputedStyle(e).backgroundColor);
      grounds.set(e, colour.length === 3 || colour[3] === 1 ? colour.slice(0, 3) : ground(e.parentElement));
    }
    return grounds.get(e);
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

std::string text_of(const std::string& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

/// What axe-core finds that is serious or critical: rule, and where.
const std::string serious_findings = R"js(
  const done = arguments[arguments.length - 1];
  for (const details of document.querySelectorAll('details')) details.open = true;
  // What the other run has tried in light is not tried again in dark.
  const only = matchMedia('(prefers-color-scheme: dark)').matches ? { runOnly: ['color-contrast'] } : {};
  axe.run(document, only).then((result) => done({ passed: result.passes.length, found: result.violations
    .filter((rule) => rule.impact === 'serious' || rule.impact === 'critical')
    .flatMap((rule) => rule.nodes.map((node) => rule.id + ' ' + node.target.join(' ') + ' ' + node.html.slice(0, 120))) }),
    (error) => done({ passed: 0, found: [String(error)] }));)js";

class PageInBrowser : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!WebDriver::is_installed()) GTEST_SKIP() << "no chromedriver here: install Debian's chromium-driver";
    browser_ = std::make_unique<WebDriver>();
  }

  /// Makes the page of the site into a file, once, and opens it.
  void open() {
    const std::string file = (site_.path() / "page.html").string();
    if (!std::filesystem::exists(file)) {
      const testing::Said said = site_.run({"page", "--to", file});
      ASSERT_EQ(said.exit_code, 0) << said.err;
    }
    browser_->open(file);
  }

  void expect_no_sideways_scroll() {
    EXPECT_LE(browser_->run("return document.documentElement.scrollWidth").get<int>(),
              browser_->run("return window.innerWidth").get<int>());
  }

  SmallSite site_;
  std::unique_ptr<WebDriver> browser_;
};

bool is_full_matrix() {
  const char* const matrix = std::getenv("GRAFTCAST_BROWSER_MATRIX");
  return matrix != nullptr && std::string_view(matrix) == "full";
}

/// A phone, a tablet, a desk; in the full matrix from the smallest phone to a wide screen.
std::vector<int> widths() {
  if (!is_full_matrix()) return {360, 768, 1280};
  return {320, 360, 393, 430, 600, 768, 834, 1024, 1280, 1440, 1920, 2560};
}

TEST_F(PageInBrowser, FitsEveryWidthIsReadableAndLoadsNothing) {
  for (const int width : widths())
    for (const bool dark : {false, true}) {
      browser_->window(width, 900, dark);
      open();
      SCOPED_TRACE(fmt::format("{} px, {}", width, dark ? "dark" : "light"));
      expect_no_sideways_scroll();
      if (width == 360 || is_full_matrix()) {  // Widths change no colour.
        EXPECT_EQ(browser_->run(faint_texts), json::array());
      }
      EXPECT_EQ(browser_->run(small_targets), json::array());
      expect_no_sideways_scroll();  // With everything unfolded, too.
      EXPECT_THAT(browser_->requests(), Each(::testing::StartsWith("file://" + site_.path().string())));
      EXPECT_THAT(browser_->console(), IsEmpty());
    }
}

TEST_F(PageInBrowser, IsReachedByKeyboardInEveryControl) {
  browser_->window(360, 900, false);
  open();
  const int controls = browser_->run(every_control).get<int>();
  ASSERT_GT(controls, 60);
  browser_->press("Tab", controls + 5);
  EXPECT_EQ(browser_->run(missed_controls), json::array());
}

TEST_F(PageInBrowser, HasNothingSeriousForAxe) {
  const std::string folder = GRAFTCAST_AXE;
  const std::string axe = text_of(folder + "/axe.min.js");
  if (axe.empty()) {
    const std::string why = text_of(folder + "/absent.txt");
    GTEST_SKIP() << "axe-core is not here: "
                 << (why.empty() ? "tests/browser/fetch_axe.sh has not been run" : why);
  }
  for (const bool dark : {false, true}) {
    browser_->window(360, 900, dark);
    open();
    const json result = browser_->run_until_called(axe + serious_findings);
    EXPECT_EQ(result.at("found"), json::array()) << (dark ? "dark" : "light");
    EXPECT_GT(result.at("passed"), dark ? 0 : 15);
  }
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
  EXPECT_EQ(browser_->run("return document.getElementById('bar').textContent"), "Notes to send: 1");
}

/// What the first card's slider says, by the hour: the last hour of each day beside the day's row of the
/// tables.
constexpr const char* days_by_hour = R"js(
  const box = document.querySelector('.charts[data-water]');
  const seek = box.querySelector('.seek');
  const said = [];
  for (let hour = 0; hour <= Number(seek.max); hour += 1) {
    seek.value = hour;
    seek.dispatchEvent(new Event('input'));
    const words = seek.getAttribute('aria-valuetext');
    const [, day, tissue, water, low, high, healing] = words.match(
      /^(.*), \d\d:\d\d: tissue (-?\d+).*water (\d+) % of full \(8 in 10: (\d+) to (\d+)\); healing ([\d.]+)/);
    if (said.length === 0 || said.at(-1).day !== day) said.push({ day, hottest: -100 });
    const last = said.at(-1);
    Object.assign(last, { water, band: low + '\u2013' + high, healing, hottest: Math.max(last.hottest, Number(tissue)) });
  }
  const row = (table, i) => [...box.querySelectorAll('table')[table].querySelectorAll('tbody th:not([scope])')[i]
    .parentElement.cells].map((cell) => cell.textContent.trim());
  return said.map((hour, i) => ({ hour, heat: row(0, i), water: row(1, i), healing: row(2, i) }));)js";

TEST_F(PageInBrowser, ReadsOutHoursThatEndEachDayAsTheTablesSay) {
  browser_->window(768, 900, false);
  open();
  const json days = browser_->run(days_by_hour);
  ASSERT_GT(days.size(), 5U);
  for (const json& day : days) {
    const json& hour = day.at("hour");
    EXPECT_EQ(hour.at("day"), day.at("heat").at(0));
    EXPECT_EQ(hour.at("water"), day.at("water").at(1));
    EXPECT_EQ(hour.at("band"), day.at("water").at(2));
    EXPECT_EQ(hour.at("healing"), day.at("healing").at(1));
    EXPECT_LE(hour.at("hottest").get<int>(), std::stoi(day.at("heat").at(1).get<std::string>()));
  }
  EXPECT_THAT(browser_->console(), IsEmpty());
}

TEST_F(PageInBrowser, MovesByHoursAndDaysWithTheKeyboardAndByPointing) {
  browser_->window(768, 900, false);
  open();
  const auto hour = [&] {
    return browser_->run("return Number(document.querySelector('.seek').value)").get<int>();
  };
  browser_->run("document.querySelector('.seek').focus()");
  const int now = hour();
  EXPECT_THAT(browser_->run("return document.querySelector('.seen').textContent").get<std::string>(),
              HasSubstr("tissue "));
  browser_->press("ArrowRight");
  EXPECT_EQ(hour(), now + 1);
  browser_->press("PageDown");
  EXPECT_EQ(hour(), now + 1 - 24);
  browser_->press("ArrowLeft");
  browser_->press("PageUp");
  EXPECT_EQ(hour(), now);
  const json box = browser_->run(
      "const chart = document.querySelectorAll('.charts[data-water] svg')[1]; chart.scrollIntoView({block: "
      "'center'});"
      "const box = chart.getBoundingClientRect(); return [box.left, box.top, box.width, box.height]");
  const auto at = [&](int i) { return box.at(static_cast<std::size_t>(i)).get<double>(); };
  browser_->point_at(at(0) + at(2) * 0.95, at(1) + at(3) / 2);
  EXPECT_GT(hour(), now + 24);
  EXPECT_EQ(browser_->run("return document.querySelector('.card').querySelectorAll('path.at[d]').length"), 3);
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
  const std::string pdf = browser_->printed();
  EXPECT_EQ(pdf.substr(0, 4), "%PDF");
  // A4 is 595.3 by 841.9 points of 1/72 inch (ISO 216; computed).
  const std::size_t box = pdf.find("/MediaBox [0 0 ");
  ASSERT_NE(box, std::string::npos);
  double width = 0, height = 0;
  std::istringstream(pdf.substr(box + 15, 40)) >> width >> height;
  EXPECT_NEAR(width, 595.3, 1);
  EXPECT_NEAR(height, 841.9, 1);
  browser_->medium("print");
  EXPECT_EQ(browser_->run("return [...document.querySelectorAll('.tick')].every((e) => e.checkVisibility())"),
            true);
  EXPECT_EQ(browser_->run("return [...document.querySelectorAll('.card, textarea, button')]"
                          ".some((e) => e.checkVisibility())"),
            false);
}

}  // namespace
}  // namespace graftcast
