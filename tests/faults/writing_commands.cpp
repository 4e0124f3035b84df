#include "writing_commands.hpp"

#include <algorithm>
#include <regex>
#include <stdexcept>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

namespace graftcast::testing {

namespace {

namespace fs = std::filesystem;
using nlohmann::json;

PlayedAnswer service_answer() {
  return whole(200, graftcast::testing::played_forecast(),
               "Date: Mon, 09 Jun 2025 04:00:00 GMT\r\nExpires: Mon, 09 Jun 2025 04:00:00 GMT\r\n");
}

/// A thermometer on the bench: the station's air, warmer by nine kelvin a kilowatt of sun.
std::string bench_log() {
  std::stringstream rows(hourly_log(1, 10));
  std::string text = "time,air_temperature [degC],wind_speed [m s-1]\n", row;
  std::getline(rows, row);
  while (std::getline(rows, row)) {
    std::stringstream stream(row);
    std::vector<std::string> cells;
    for (std::string cell; std::getline(stream, cell, ',');) cells.push_back(cell);
    text += fmt::format("{},{:.2f},{:.2f}\n", cells[0], std::stod(cells[1]) + 9 * std::stod(cells[4]) / 1000,
                        0.4 * std::stod(cells[3]));
  }
  return text;
}

constexpr const char* learned_json =
    R"({"format": 1, "fitted_at": "2025-06-01T00:00:00Z", "outcomes": 40, "species": {}, "methods": {}})";

/// Outcomes of a hundred batches, so that there is something to learn.
void add_outcomes(const SmallSite& site) {
  std::string grafts = site.read("grafts.csv"), diary = site.read("diary.csv");
  for (int number = 1; number <= 100; ++number) {
    grafts += fmt::format("L{},2025-06-02,,{},{},,bench,film,none,10,,T\n", number,
                          number % 2 == 0 ? "citrus" : "apple", number % 2 == 0 ? "chip" : "cleft");
    diary += fmt::format("2025-06-10T12:00,L{},dead,{},\n", number, number % 2 == 0 ? 9 : 1);
    diary += fmt::format("2025-06-10T12:00,L{},taken,{},\n", number, number % 2 == 0 ? 1 : 9);
  }
  site.write("grafts.csv", grafts);
  site.write("diary.csv", diary);
}

std::vector<WritingCommand> make_commands() {
  std::vector<WritingCommand> all;
  const auto add = [&](std::string name, std::vector<std::string> words) -> WritingCommand& {
    all.push_back({std::move(name), std::move(words)});
    return all.back();
  };
  add("new", {"new", "place", "--latitude", "41", "--longitude", "-7.5", "--elevation", "260", "--time-zone",
              "Europe/Lisbon", "--spot", "bench,sun=0.7,movable", "--supply", "paper=4"});
  add("graft", {"graft", "--species", "apple", "--method", "cleft", "--spot", "bench", "--count", "12"});
  add("note", {"note", "B1", "watered", "1"});
  add("note, of standard input", {"note"}).input = "A1 green 9\nC1 watered 1\nB1 bag-vented\n";
  add("note, where there is no diary", {"note", "B1", "watered"}).prepare = [](const SmallSite& site) {
    fs::remove(site.path() / "diary.csv");
  };
  add("split", {"split", "A1", "3"});
  add("weather add", {"weather", "add", "more.csv"}).beside = {{"more.csv", hourly_log(11, 2)}};
  WritingCommand& three = add("weather add, of three files", {"weather", "add", "1.csv", "2.csv", "3.csv"});
  three.beside = {{"1.csv", hourly_log(11, 1)}, {"2.csv", hourly_log(12, 1)}, {"3.csv", hourly_log(13, 1)}};
  three.in_part = {"site/site.json"};
  add("weather fetch", {"weather", "fetch"}).asks_a_service = true;
  add("spots --write", {"spots", "--fit", "bench.csv", "--spot", "bench", "--sensor", "black", "--write"})
      .beside = {{"bench.csv", bench_log()}};
  add("learn", {"learn"}).prepare = add_outcomes;
  add("learn --forget", {"learn", "--forget"}).prepare = [](const SmallSite& site) {
    site.write("learned.json", learned_json);
  };
  add("page --to", {"page", "--to", "page.html"}).beside = {{"page.html", "the page of yesterday\n"}};
  add("calendar --to", {"calendar", "--to", "due.ics"});
  add("labels --to", {"labels", "--to", "labels.html"}).beside = {
      {"labels.html", "the labels of yesterday\n"}};
  add("demo", {"demo", "there"});
  return all;
}

void put(const fs::path& folder, const Tree& tree) {
  for (const auto& [name, content] : tree) {
    fs::create_directories((folder / name).parent_path());
    if (!name.ends_with('/')) std::ofstream(folder / name, std::ios::binary) << content;
  }
}

bool is_record(const std::string& path) {
  return path.ends_with("grafts.csv") || path.ends_with("diary.csv");
}

/// Of the diary every line. Of the ledger every row by its id in the same order: a split lowers a count.
bool holds_all_lines(const std::string& path, const std::string& now, const std::string& before) {
  if (path.ends_with("diary.csv")) return keeps_every_line(now, before);
  std::stringstream lines(before);
  std::size_t at = 0;
  for (std::string line; std::getline(lines, line);) {
    const std::string key = line.substr(0, line.find(','));
    at = now.find(key + ',', at);
    if (at == std::string::npos) return false;
  }
  return true;
}

/// Whether a file of the cache that tells the time is a whole one.
bool is_whole(const std::string& path, const std::string& content) {
  if (path.ends_with(".json")) return !json::parse(content, nullptr, false).is_discarded();
  // gzip ends with the length of what is packed; its head is 1F 8B.
  return content.starts_with("\x1F\x8B") && content.size() > 18;
}

}  // namespace

std::string played_forecast() {
  constexpr int first_s = 1'749'592'800;  // 2025-06-10T22:00Z
  json answer{{"latitude", 40.9},
              {"longitude", 0.4},
              {"elevation", 110},
              {"utc_offset_seconds", 0},
              {"hourly_units", {{"time", "unixtime"}}},
              {"hourly", {{"time", json::array()}}}};
  for (int hour = 0; hour < 48; ++hour) answer["hourly"]["time"].push_back(first_s + 3600 * hour);
  for (const auto& [name, unit, value] : {std::tuple{"temperature_2m", "°C", 24.0},
                                          {"relative_humidity_2m", "%", 50.0},
                                          {"wind_speed_10m", "m/s", 3.0},
                                          {"shortwave_radiation", "W/m²", 100.0}}) {
    answer["hourly_units"][name] = unit;
    answer["hourly"][name] = std::vector<double>(48, value);
  }
  return answer.dump();
}

Tree tree_of(const fs::path& folder) {
  Tree tree;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    const std::string name = fs::relative(entry.path(), folder).string();
    if (entry.is_directory()) {
      tree.emplace(name + '/', "");
      continue;
    }
    std::ifstream stream(entry.path(), std::ios::binary);
    const std::string content(std::istreambuf_iterator<char>(stream), {});
    tree.emplace(name, name.ends_with("diary.csv") ? ids_hidden(content) : content);
  }
  return tree;
}

const std::vector<WritingCommand>& writing_commands() {
  static const std::vector<WritingCommand> all = make_commands();
  return all;
}

Stage::Stage(const WritingCommand& command)
    : command_(command), server_(std::vector<PlayedAnswer>{service_answer()}) {
  command.prepare(master_);
  if (command.asks_a_service) {
    master_.replace(
        "site.json", R"({"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"})",
        fmt::format(R"({{"service": "open-meteo", "contact": "grower@example.org", "base_url": "{}"}})",
                    server_.url()));
  }
  set_back();
  before_ = tree();
  const Said said = play().said;
  if (said.exit_code != 0) throw std::runtime_error(command.name + " fails: " + said.err);
  after_ = tree();
  if (after_ == before_) throw std::runtime_error(command.name + " writes nothing");
  set_back();
}

void Stage::set_back() const {
  for (const auto& entry : fs::directory_iterator(folder_.path())) fs::remove_all(entry.path());
  fs::copy(master_.path(), folder_.path() / "site", fs::copy_options::recursive);
  put(folder_.path(), command_.beside);
}

std::vector<std::string> Stage::all_words() const {
  std::vector<std::string> words{"--site", "site", "--members", "4", "--threads", "1"};
  if (!command_.asks_a_service) words.insert(words.end(), {"--at", small_morning});
  words.insert(words.end(), command_.words.begin(), command_.words.end());
  return words;
}

Traced Stage::play(const Fault& fault) const {
  return run_traced(all_words(), {command_.input, {}, folder_.path(), {}}, fault);
}

Said Stage::run(const std::vector<std::string>& words, const std::string& input) const {
  std::vector<std::string> all{"--site", "site", "--members", "4", "--threads", "1", "--at", small_morning};
  all.insert(all.end(), words.begin(), words.end());
  return testing::run(all, {input, {}, folder_.path(), {}});
}

bool Stage::is_leftover(const std::string& path) const {
  static const std::regex temporary(R"((.*/)?\.[^/]+\.\d+(-\d+)?(/.*)?)");
  return !before_.contains(path) && !after_.contains(path) && std::regex_match(path, temporary);
}

std::vector<std::string> Stage::leftovers(const Tree& tree) const {
  std::vector<std::string> found;
  for (const auto& [path, content] : tree)
    if (is_leftover(path)) found.push_back(path);
  return found;
}

std::string Stage::damage(const Tree& tree) const {
  for (const auto& [path, content] : before_) {
    if (!tree.contains(path) && after_.contains(path)) return path + " is lost";
    if (is_record(path) && tree.contains(path) && !holds_all_lines(path, tree.at(path), content))
      return path + " lost a line";
  }
  for (const auto& [path, content] : tree) {
    if (is_leftover(path)) continue;
    const auto old_one = before_.find(path), new_one = after_.find(path);
    const bool is_old = old_one != before_.end() && old_one->second == content;
    const bool is_new = new_one != after_.end() && new_one->second == content;
    if (is_old || is_new) continue;
    const bool is_of_the_cache = command_.asks_a_service && path.starts_with("site/weather/cache/");
    const bool may_differ = is_of_the_cache || command_.in_part.contains(path);
    if (may_differ && (path.ends_with('/') || is_whole(path, content))) continue;
    return fmt::format("{} is neither the old nor the new one ({} bytes)", path, content.size());
  }
  return {};
}

bool Stage::is_done(const Tree& tree) const {
  return std::ranges::all_of(after_, [&](const auto& file) {
    // A kept forecast is named by the time it came.
    if (command_.asks_a_service && file.first.find("/past/2") != std::string::npos) return true;
    const auto found = tree.find(file.first);
    return found != tree.end() && (command_.asks_a_service || found->second == file.second);
  });
}

}  // namespace graftcast::testing
