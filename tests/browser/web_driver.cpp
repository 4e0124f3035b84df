#include "web_driver.hpp"

#include <csignal>
#include <filesystem>
#include <map>
#include <memory>
#include <sstream>
#include <stdexcept>

#include <curl/curl.h>
#include <fmt/format.h>
#include <sys/wait.h>
#include <unistd.h>

namespace graftcast::testing {

namespace {

using nlohmann::json;

constexpr const char* driver = "chromedriver";
constexpr long patience_s = 60;

std::size_t keep(char* data, std::size_t size, std::size_t count, void* text) {
  static_cast<std::string*>(text)->append(data, size * count);
  return size * count;
}

std::string sent(const char* verb, const std::string& url, const std::string& body) {
  const std::unique_ptr<CURL, void (*)(CURL*)> handle(curl_easy_init(), curl_easy_cleanup);
  const std::unique_ptr<curl_slist, void (*)(curl_slist*)> headers(
      curl_slist_append(nullptr, "Content-Type: application/json"), curl_slist_free_all);
  std::string answer;
  curl_easy_setopt(handle.get(), CURLOPT_URL, url.c_str());
  curl_easy_setopt(handle.get(), CURLOPT_CUSTOMREQUEST, verb);
  curl_easy_setopt(handle.get(), CURLOPT_NOPROXY, "*");
  curl_easy_setopt(handle.get(), CURLOPT_HTTPHEADER, headers.get());
  curl_easy_setopt(handle.get(), CURLOPT_TIMEOUT, patience_s);
  curl_easy_setopt(handle.get(), CURLOPT_WRITEFUNCTION, keep);
  curl_easy_setopt(handle.get(), CURLOPT_WRITEDATA, &answer);
  if (!body.empty()) curl_easy_setopt(handle.get(), CURLOPT_POSTFIELDS, body.c_str());
  if (const CURLcode code = curl_easy_perform(handle.get()); code != CURLE_OK)
    throw std::runtime_error(fmt::format("{}: {}", url, curl_easy_strerror(code)));
  return answer;
}

/// Reads what the driver says up to the port that it found free.
std::string port_from(int output) {
  constexpr std::string_view before = "successfully on port ";
  std::string said;
  for (char c = 0; ::read(output, &c, 1) == 1;) {
    said += c;
    const std::size_t at = said.find(before);
    if (at != std::string::npos && c == '.')
      return said.substr(at + before.size(), said.size() - at - before.size() - 1);
  }
  throw std::runtime_error("ChromeDriver did not start: " + said);
}

std::string from_base64(std::string_view text) {
  constexpr std::string_view digits = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string bytes;
  unsigned held = 0;
  int bits = 0;
  for (const char c : text) {
    const std::size_t digit = digits.find(c);
    if (digit == std::string_view::npos) break;
    held = (held << 6U) | static_cast<unsigned>(digit);
    bits += 6;
    if (bits < 8) continue;
    bits -= 8;
    bytes += static_cast<char>(held >> static_cast<unsigned>(bits) & 0xFFU);
  }
  return bytes;
}

json capabilities() {
  return json::parse(R"({"capabilities": {"alwaysMatch": {
    "goog:loggingPrefs": {"browser": "ALL", "performance": "ALL"},
    "goog:chromeOptions": {"args": ["--headless=new", "--no-sandbox", "--hide-scrollbars", "--disable-gpu",
                                    "--disable-dev-shm-usage"]}}}})");
}

}  // namespace

bool WebDriver::is_installed() {
  const char* path = std::getenv("PATH");
  std::stringstream folders(path == nullptr ? "" : path);
  for (std::string folder; std::getline(folders, folder, ':');)
    if (std::filesystem::exists(std::filesystem::path(folder) / driver)) return true;
  return false;
}

WebDriver::WebDriver() {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  process_ = ::fork();
  if (process_ == 0) {
    ::dup2(ends[1], STDOUT_FILENO);
    ::dup2(ends[1], STDERR_FILENO);
    ::close(ends[0]);
    ::execlp(driver, driver, "--port=0", static_cast<char*>(nullptr));
    ::_exit(127);
  }
  ::close(ends[1]);
  output_ = ends[0];
  address_ = "http://127.0.0.1:" + port_from(output_);
  session_ = "/session/" + ask("POST", "/session", capabilities()).at("sessionId").get<std::string>();
}

WebDriver::~WebDriver() {
  try {
    if (!session_.empty()) sent("DELETE", address_ + session_, {});
  } catch (const std::exception&) {
    // The driver is ended below in any case.
  }
  if (process_ > 0) {
    ::kill(process_, SIGTERM);
    ::waitpid(process_, nullptr, 0);
  }
  ::close(output_);
}

json WebDriver::ask(const char* verb, const std::string& path, const json& body) {
  const json answer = json::parse(sent(verb, address_ + path, body.dump()));
  const json& value = answer.at("value");
  if (value.is_object() && value.contains("error"))
    throw std::runtime_error(fmt::format("{}: {}", path, value.at("message").get<std::string>()));
  return value;
}

json WebDriver::command(const std::string& name, const json& parameters) {
  return ask("POST", session_ + "/goog/cdp/execute", {{"cmd", name}, {"params", parameters}});
}

void WebDriver::window(int width, int height, bool dark) {
  command("Emulation.setDeviceMetricsOverride",
          {{"width", width}, {"height", height}, {"deviceScaleFactor", 1}, {"mobile", false}});
  command("Emulation.setEmulatedMedia",
          {{"features", {{{"name", "prefers-color-scheme"}, {"value", dark ? "dark" : "light"}}}}});
}

void WebDriver::medium(const std::string& name) {
  command("Emulation.setEmulatedMedia", {{"media", name}});
}

void WebDriver::open(const std::string& file) {
  ask("POST", session_ + "/url", {{"url", "file://" + file}});
}

json WebDriver::run(const std::string& script) {
  return ask("POST", session_ + "/execute/sync", {{"script", script}, {"args", json::array()}});
}

json WebDriver::run_until_called(const std::string& script) {
  return ask("POST", session_ + "/execute/async", {{"script", script}, {"args", json::array()}});
}

void WebDriver::point_at(double x, double y) {
  command("Input.dispatchMouseEvent", {{"type", "mouseMoved"}, {"x", x}, {"y", y}});
}

std::vector<std::string> WebDriver::requests() {
  std::vector<std::string> addresses;
  for (const json& entry : ask("POST", session_ + "/se/log", {{"type", "performance"}})) {
    const json event = json::parse(entry.at("message").get<std::string>()).at("message");
    if (event.at("method") == "Network.requestWillBeSent")
      addresses.push_back(event.at("params").at("request").at("url").get<std::string>());
  }
  return addresses;
}

void WebDriver::press(const std::string& key, int times) {
  // Code points of keys by the WebDriver specification (W3C, section Keyboard actions; recalled).
  static const std::map<std::string, std::string> codes{{"Tab", "\uE004"},
                                                        {"PageUp", "\uE00E"},
                                                        {"PageDown", "\uE00F"},
                                                        {"ArrowLeft", "\uE012"},
                                                        {"ArrowRight", "\uE014"}};
  json actions = json::array();
  for (int i = 0; i < times; ++i)
    for (const char* what : {"keyDown", "keyUp"})
      actions.push_back({{"type", what}, {"value", codes.at(key)}});
  ask("POST", session_ + "/actions",
      {{"actions", {{{"type", "key"}, {"id", "keys"}, {"actions", actions}}}}});
}

std::vector<std::string> WebDriver::console() {
  std::vector<std::string> messages;
  for (const json& entry : ask("POST", session_ + "/se/log", {{"type", "browser"}}))
    messages.push_back(entry.at("message").get<std::string>());
  return messages;
}

std::string WebDriver::printed() {
  return from_base64(
      ask("POST", session_ + "/print", {{"page", {{"width", 21.0}, {"height", 29.7}}}}).get<std::string>());
}

}  // namespace graftcast::testing
