// Sheets of labels as a browser lays them out and prints them.

#include <regex>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "small_site.hpp"
#include "web_driver.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::IsEmpty;
using testing::SmallSite;
using testing::WebDriver;

/// Everything on a label that does not fit: ids that are cut, and what goes over the label's edge.
constexpr const char* what_does_not_fit = R"js(
  const found = [];
  for (const label of document.querySelectorAll('.label')) {
    const edge = label.getBoundingClientRect();
    for (const line of label.children) {
      const box = line.getBoundingClientRect();
      if (box.bottom > edge.bottom + 0.5 || box.right > edge.right + 0.5) found.push('over the edge: ' + line.textContent);
    }
    const id = label.querySelector('.id');
    if (id.scrollWidth > id.clientWidth + 1 || id.scrollHeight > id.clientHeight + 3) found.push('cut: ' + id.textContent);
  }
  return found;)js";

/// Width and height of the first label in mm, as CSS has them: 96 px to 25.4 mm.
constexpr const char* size_in_mm = R"js(
  const box = document.querySelector('.label').getBoundingClientRect();
  return [box.width, box.height].map((px) => px / 96 * 25.4);)js";

std::size_t pages_of(const std::string& pdf) {
  const std::regex page("/Type ?/Page[^s]");
  return static_cast<std::size_t>(std::distance(std::sregex_iterator(pdf.begin(), pdf.end(), page), {}));
}

class LabelsInBrowser : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!WebDriver::is_installed()) GTEST_SKIP() << "no chromedriver here: install Debian's chromium-driver";
    browser_ = std::make_unique<WebDriver>();
    site_.write("grafts.csv",
                "id,grafted_on,scion,species,method,stock,count\n"
                "A1,2025-06-03,Millrace,apple,whip-and-tongue,row A,24\n"
                "WWWWWW,2025-06-03,Wide,apple,cleft,row A,1\n"
                "2025-0614,2025-06-03,Figures,apple,cleft,row A,1\n"
                "the-cherry-behind-the-old-pump-house,2025-06-03,\"A scion whose name goes on and on, and on "
                "again, and further than any label\",apple,cleft,the old stock behind the shed,1\n" +
                    std::string(64, 'M') +
                    ",2025-06-03,<script>document.title='x'</script>,apple,cleft,x,1\n" +
                    "\u6885\u5e72\u306e\u6728,2025-06-03,\u05e9\u05dc\u05d5\u05dd,apple,cleft,x,1\n");
    site_.write("diary.csv", "when,graft,event,value,comment\n");
  }

  void open(std::vector<std::string> more) {
    const std::string file = (site_.path() / "labels.html").string();
    std::vector<std::string> words{"labels", "--each", "--to", file};
    words.insert(words.end(), more.begin(), more.end());
    const testing::Said said = site_.run(words);
    ASSERT_EQ(said.exit_code, 0) << said.err;
    browser_->open(file);
  }

  SmallSite site_;
  std::unique_ptr<WebDriver> browser_;
};

TEST_F(LabelsInBrowser, AreOfTheSizeAskedForAndCutNoId) {
  browser_->window(1000, 900, false);
  for (const auto& [width, height] : {std::pair(60.0, 30.0), {40.0, 15.0}, {99.1, 67.7}, {48.5, 25.4}}) {
    open({"--size", std::to_string(width) + "x" + std::to_string(height)});
    EXPECT_EQ(browser_->run(what_does_not_fit), json::array()) << width << " x " << height;
    const json size = browser_->run(size_in_mm);
    EXPECT_NEAR(size[0].get<double>(), width, 0.1);
    EXPECT_NEAR(size[1].get<double>(), height, 0.1);
    EXPECT_EQ(browser_->run("return document.querySelectorAll('script').length"), 0);
    EXPECT_EQ(browser_->run("return performance.getEntriesByType('resource').length"), 0);
    EXPECT_THAT(browser_->console(), IsEmpty());
  }
}

TEST_F(LabelsInBrowser, PrintAPageASheet) {
  open({});  // 29 labels, 24 to a page.
  EXPECT_EQ(pages_of(browser_->printed()), 2U);
  open({"--from", "20"});
  EXPECT_EQ(pages_of(browser_->printed()), 2U);
  open({"--from", "21"});
  EXPECT_EQ(pages_of(browser_->printed()), 3U);
}

}  // namespace
}  // namespace graftcast
