// Forecast services that lie or are not what they say: over the whole program, with its memory watched.

#include <algorithm>
#include <limits>

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "writing_commands.hpp"

namespace graftcast {
namespace {

using nlohmann::json;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::LoopbackServer;
using ::testing::Not;
using testing::PlayedAnswer;
using testing::raw;
using testing::Said;
using testing::SmallSite;
using testing::Traced;
using testing::whole;

constexpr long most_memory_kb = 300 * 1024;

struct Lie {
  std::string name;
  PlayedAnswer answer;
  std::string said;        ///< What the program says of it.
  bool is_usable = false;  ///< What is not a lie in it counts.
  int exit_code = 69;
};

PlayedAnswer with(const std::function<void(json&)>& change) {
  json answer = json::parse(testing::played_forecast());
  change(answer);
  return whole(200, answer.dump());
}

PlayedAnswer with_value(const char* column, double value) {
  return with([&](json& answer) {
    for (std::size_t hour = 10; hour < 20; ++hour) answer["hourly"][column][hour] = value;
  });
}

std::string with_text(const std::string& from, const std::string& to) {
  std::string answer = testing::played_forecast();
  const std::size_t at = answer.find(from);
  return at == std::string::npos ? throw std::logic_error("no " + from) : answer.replace(at, from.size(), to);
}

std::string repeated(std::string_view text, std::size_t bytes) {
  std::string all;
  while (all.size() < bytes) all += text;
  return all;
}

PlayedAnswer ten_years() {
  return with([](json& answer) {
    json& hours = answer["hourly"];
    const long first = hours["time"][0].get<long>();
    for (auto& [name, values] : hours.items()) values = json::array();
    for (long hour = 0; hour < 87'660; ++hour) {
      for (auto& [name, values] : hours.items()) values.push_back(name == "time" ? first + 3600 * hour : 20);
    }
  });
}

PlayedAnswer twice_the_hours() {
  return with([](json& answer) {
    for (auto& [name, values] : answer["hourly"].items()) {
      json doubled = json::array();
      for (const json& value : values) {
        doubled.push_back(value);
        doubled.push_back(name == "time" ? value : json(value.get<double>() + 9));
      }
      values = doubled;
    }
  });
}

PlayedAnswer backwards() {
  return with([](json& answer) { std::ranges::reverse(answer["hourly"]["time"]); });
}

std::vector<Lie> made_lies() {
  const std::string head = "HTTP/1.1 200 OK\r\nContent-Type: application/json\r\n";
  const std::size_t much = std::size_t{15} << 20U;
  return {
      {"NegativeHumidity", with_value("relative_humidity_2m", -20), "set aside", true, 0},
      {"HumidityOfAThousand", with_value("relative_humidity_2m", 1000), "set aside", true, 0},
      {"EightyDegrees", with_value("temperature_2m", 80), "set aside", true, 0},
      {"ColderThanSpace", with_value("temperature_2m", -300), "set aside", true, 0},
      {"WindOfAThousand", with_value("wind_speed_10m", 1000), "set aside", true, 0},
      {"NegativeSun", with_value("shortwave_radiation", -500), "set aside", true, 0},
      {"BrighterThanSpace", with_value("shortwave_radiation", 5000), "set aside", true, 0},
      {"CelsiusCalledKelvin", with([](json& answer) { answer["hourly_units"]["temperature_2m"] = "K"; }),
       "set aside", true, 0},
      {"TenYearsOfHours", ten_years(), "longer than any"},
      {"HoursTwice", twice_the_hours(), ""},
      {"HoursBackwards", backwards(), ""},
      {"DeepNesting", whole(200, repeated("[", 200'000)), "nested deeper"},
      {"DeepObjects", whole(200, repeated("{\"a\":", 1'000'000)), "nested deeper"},
      {"NotANumber", whole(200, with_text("24.0", "NaN")), "not valid JSON"},
      {"InfiniteNumber", whole(200, with_text("24.0", "1e999")), "not valid JSON"},
      {"NumberAsText", whole(200, with_text("24.0", "\"24\"")), "not a number"},
      {"LongNumber", whole(200, with_text("24.0", repeated("9", 1'000'000))), ""},
      {"ListsBeyondMemory", whole(200, '[' + repeated("[],", much) + "[]]"), "more values than fit"},
      {"ObjectsBeyondMemory", whole(200, '[' + repeated("{},", much) + "{}]"), "more values than fit"},
      {"NumbersByTheMillion", whole(200, '[' + repeated("1,", much) + "1]"), "more values than fit"},
      {"KeysByTheMillion", whole(200, '{' + repeated("\"\":1,", much) + "\"\":1}"), "more values than fit"},
      {"OneLongText", whole(200, '"' + repeated("a", much) + '"'), ""},
      {"EndlessAnswer", raw(head + "\r\n" + repeated("[1,", std::size_t{20} << 20U)), "larger than"},
      {"GzipBomb",
       whole(200, testing::gzipped(repeated(" ", std::size_t{64} << 20U)), "Content-Encoding: gzip\r\n"),
       "larger than"},
      {"NoGzip", whole(200, "{}", "Content-Encoding: gzip\r\n"), ""},
      {"HugeHeader", raw(head + "X-Long: " + repeated("x", 1'000'000) + "\r\n\r\n{}"), "larger than"},
      {"ManyHeaders", raw(head + repeated("X-A: b\r\n", 1'000'000) + "\r\n{}"), "larger than"},
      {"Empty", whole(200, ""), "empty"},
      {"SignInPage", whole(200, "<html><body>sign in</body></html>"), "HTML"},
      {"CutShort", raw(head + "Content-Length: 100000\r\n\r\n" + testing::played_forecast()), ""},
      {"RedirectToAFile", whole(302, "", "Location: file:///etc/passwd\r\n"), "away from https"},
      {"RedirectToAnyMachine", whole(302, "", "Location: http://192.0.2.1/\r\n"), "away from https"},
      {"RedirectToItself", whole(302, "", "Location: /again\r\n"), "redirected more than"},
      {"EscapesInItsReason",
       whole(200, R"({"error": true, "reason": "\u001b]0;owned\u0007\u001b[31mred\u009b2J"})"), "refused"},
      {"EscapesInItsRefusal", whole(400, "\x1b[31mred\x1b]0;owned\x07"), "status 400"},
      {"AnotherPlace", with([](json& answer) { answer["latitude"] = -40; }), "km away"},
      {"NoSuchPlace", with([](json& answer) { answer["latitude"] = 4000; }), ""},
      {"OffsetOfAYear", with([](json& answer) { answer["utc_offset_seconds"] = 31'536'000; }), "UTC"},
      {"OffsetBeyondNumbers",
       whole(200, with_text("\"utc_offset_seconds\":0", "\"utc_offset_seconds\":18446744073709551615")),
       "UTC"},
      {"TimeBeyondNumbers", whole(200, with_text("1749592800", "9223372036854775807")), ""},
      {"TimeBeforeAll", whole(200, with_text("1749592800", "-9223372036854775808")), ""},
  };
}

const std::vector<Lie>& lies() {
  static const std::vector<Lie> all = made_lies();
  return all;
}

struct LiedToSite : SmallSite {
  explicit LiedToSite(const std::string& url) {
    replace("site.json",
            R"({"file": "weather/forecast.csv", "as": "forecast", "made_at": "2025-06-11T03:00Z"})",
            fmt::format(R"({{"service": "open-meteo", "contact": "grower@example.org", "base_url": "{}"}})",
                        url));
  }
  Traced traced(std::vector<std::string> words) const {
    words.insert(words.begin(), {"--site", text(), "--members", "4"});
    return testing::run_traced(words);
  }
  /// Its hours with the forecast; that of a service was made when it came.
  Traced hours(std::vector<std::string> more = {}) const {
    std::vector<std::string> words{"--at", small_morning_text, "--hindsight", "--json", "weather",
                                   "show", "--hourly"};
    words.insert(words.end(), more.begin(), more.end());
    return traced(words);
  }
  static constexpr const char* small_morning_text = testing::small_morning;
};

/// No hour has a value beyond what weather can be.
void expect_possible(const json& hours) {
  for (const json& hour : hours) {
    const auto expect_within = [&](const char* name, double low, double high) {
      if (!hour.contains(name) || hour[name].is_null()) return;
      EXPECT_GE(hour[name].get<double>(), low) << name << " at " << hour["time"];
      EXPECT_LE(hour[name].get<double>(), high) << name << " at " << hour["time"];
    };
    expect_within("air_temperature_c", -60, 60);
    expect_within("relative_humidity_pct", 0, 100);
    expect_within("wind_speed_m_s", 0, 80);
    expect_within("shortwave_w_m2", 0, 1400);
  }
}

class LyingService : public ::testing::TestWithParam<std::size_t> {
 protected:
  void SetUp() override {
    if (!testing::can_trace()) GTEST_SKIP() << "this machine does not let a test trace a program";
  }
};

TEST_P(LyingService, IsNotBelievedAndFillsNoMemory) {
  const Lie& lie = lies()[GetParam()];
  const LoopbackServer server({lie.answer});
  const LiedToSite site(server.url());
  const Traced before = site.hours();
  const std::string records = site.read("site.json") + site.read("grafts.csv") + site.read("diary.csv");
  const Traced fetched = site.traced({"weather", "fetch"});
  EXPECT_EQ(fetched.said.exit_code, lie.exit_code) << fetched.said.err << fetched.said.out;
  EXPECT_LT(fetched.most_memory_kb, most_memory_kb);
  const std::string said = fetched.said.err + fetched.said.out;
  EXPECT_LT(said.size(), 3000U);
  EXPECT_THAT(said, HasSubstr(lie.said));
  EXPECT_THAT(said, Not(HasSubstr("\x1b]"))) << "an escape of the service's own";
  EXPECT_THAT(said, Not(HasSubstr("\xC2\x9B")));
  EXPECT_THAT(said, Not(HasSubstr("internal fault")));
  EXPECT_EQ(site.read("site.json") + site.read("grafts.csv") + site.read("diary.csv"), records);

  const Traced after = site.hours();
  ASSERT_EQ(after.said.exit_code, 0) << after.said.err;
  EXPECT_LT(after.most_memory_kb, most_memory_kb);
  const json hours = json::parse(after.said.out)["hours"];
  if (lie.is_usable) {
    EXPECT_GT(hours.size(), json::parse(before.said.out)["hours"].size());
    expect_possible(hours);
  } else {
    EXPECT_EQ(hours, json::parse(before.said.out)["hours"]);
  }
  const Traced morning = site.traced({"--at", testing::small_morning, "--hindsight", "morning"});
  EXPECT_EQ(morning.said.exit_code, 0) << morning.said.err;
  EXPECT_LT(morning.most_memory_kb, most_memory_kb);
}

std::string lie_name(const ::testing::TestParamInfo<std::size_t>& number) {
  return lies()[number.param].name;
}

INSTANTIATE_TEST_SUITE_P(Lies, LyingService, ::testing::Range(std::size_t{0}, lies().size()), lie_name);

TEST(LyingServiceClock, DoesNotSilenceItselfForYears) {
  const LoopbackServer server({whole(200, testing::played_forecast(),
                                     "Date: Mon, 09 Jun 2025 04:00:00 GMT\r\n"
                                     "Expires: Fri, 31 Dec 9999 23:59:59 GMT\r\n")});
  const LiedToSite site(server.url());
  ASSERT_EQ(testing::run({"--site", site.text(), "weather", "fetch"}).exit_code, 0);
  const Said again = testing::run({"--site", site.text(), "--json", "weather", "fetch"});
  const std::string until = json::parse(again.out)["fetched"][0]["not_before"];
  const std::string made = json::parse(again.out)["as_of"];
  EXPECT_LT(until.substr(0, 4), "9999");
  EXPECT_EQ(std::stoi(until.substr(0, 4)) - std::stoi(made.substr(0, 4)) <= 1, true) << until;
}

TEST(LyingServiceClock, OfOursPutBackDoesNotSilenceTheService) {
  const LoopbackServer server({whole(200, testing::played_forecast())});
  const LiedToSite site(server.url());
  ASSERT_EQ(testing::run({"--site", site.text(), "weather", "fetch"}).exit_code, 0);
  // The state as it would be, had our clock been in the year 2090 then.
  std::filesystem::path state;
  for (const auto& file : std::filesystem::recursive_directory_iterator(site.path() / "weather/cache"))
    if (file.path().filename() == "state.json") state = std::filesystem::relative(file.path(), site.path());
  json content = json::parse(site.read(state.string()));
  content["asked_at"] = "2090-01-01T00:00:00Z";
  content["not_before"] = "2090-01-02T00:00:00Z";
  site.write(state.string(), content.dump());
  EXPECT_EQ(testing::run({"--site", site.text(), "weather", "fetch"}).exit_code, 0);
  EXPECT_EQ(server.seen().size(), 2U);
}

}  // namespace
}  // namespace graftcast
