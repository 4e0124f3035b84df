#pragma once
// A headless browser, by the W3C's WebDriver protocol over the loopback interface.

#include <string>
#include <vector>

#include <nlohmann/json.hpp>

namespace graftcast::testing {

class WebDriver {
 public:
  /// Starts ChromeDriver and a browser. Error: std::runtime_error.
  WebDriver();
  ~WebDriver();
  WebDriver(const WebDriver&) = delete;
  WebDriver& operator=(const WebDriver&) = delete;

  /// Whether ChromeDriver is on this machine's PATH.
  static bool is_installed();

  void window(int width, int height, bool dark);
  void open(const std::string& file);
  /// The value that the body of a function, `script`, returns.
  nlohmann::json run(const std::string& script);
  /// The value that `script` gives to its last argument, a function, in its own time.
  nlohmann::json run_until_called(const std::string& script);
  /// Presses a key on the page so many times: Tab, ArrowRight, ArrowLeft, PageUp, PageDown.
  void press(const std::string& key, int times = 1);
  /// Moves a mouse to a place of the window, in pixels.
  void point_at(double x, double y);
  /// Every address asked for since this was last called, by the protocol's own record of the network.
  std::vector<std::string> requests();
  /// What the console said since it was last asked, one message an entry.
  std::vector<std::string> console();
  /// The page as PDF on A4.
  std::string printed();
  void medium(const std::string& name);  ///< `print`, `screen`

 private:
  nlohmann::json ask(const char* verb, const std::string& path, const nlohmann::json& body);
  nlohmann::json command(const std::string& name, const nlohmann::json& parameters);

  int process_ = -1, output_ = -1;
  std::string address_, session_;
};

}  // namespace graftcast::testing
