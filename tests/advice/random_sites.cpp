#include "advice/random_sites.hpp"

#include <algorithm>
#include <iterator>
#include <random>

namespace graftcast::testing {

namespace {

constexpr int record_days = 26;
constexpr int forecast_days = 12;

class SiteMaker {
 public:
  explicit SiteMaker(std::uint64_t seed) : random_(seed) {}

  RandomSite made(int grafts) {
    first_day_ = std::chrono::sys_days{std::chrono::January / 1 / 2024} + std::chrono::days(whole(0, 700));
    settings_.as_of =
        first_day_ + std::chrono::days(record_days) + std::chrono::minutes(whole(0, 24 * 60 - 1));
    settings_.members = 16;
    settings_.outlook_days = 14;
    settings_.seed = static_cast<std::uint64_t>(whole(1, 1000));
    settings_.weather_spread = !chance(0.2);
    RandomSite result;
    const Site place = site();
    for (int i = 1; i <= grafts; ++i) result.grafts.push_back(graft("G" + std::to_string(i)));
    result.made = std::make_unique<MadeSeason>(place, weather(), first_day_, settings_);
    return result;
  }

 private:
  double real(double low, double high) { return std::uniform_real_distribution(low, high)(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  bool chance(double share) { return real(0, 1) < share; }
  template <class Value>
  Value one_of(std::initializer_list<Value> values) {
    return *(values.begin() + whole(0, static_cast<int>(values.size()) - 1));
  }
  template <class Type>
  std::string name_of(const std::map<std::string, Type>& entries) {
    return std::next(entries.begin(), whole(0, static_cast<int>(entries.size()) - 1))->first;
  }

  Site site() {
    Site site = made_site({});
    site.location.latitude_deg = one_of({-1.0, 1.0}) * real(20, 55);
    site.time_zone = one_of({"UTC", "Europe/Lisbon", "Africa/Johannesburg"});
    site.spots["here"].movable = chance(0.5);
    site.spots["here"].sun_share = real(0.2, 1);
    site.spots["shed"] = Spot{0.1, 0.2, false, true, {}, {}, {}, {}};
    site.spots["room"] = Spot{0.0, 0.0, false, true, {}, {}, {}, Spot::Climate{22, 85}};
    if (chance(0.5)) site.supplies["foil"] = 10;
    site.shade_cloth_share = one_of({0.3, 0.5, 0.7});
    return site;
  }

  HourlyWeather weather() {
    const double minimum_c = real(-4, 20), range_k = real(6, 18), humidity_pct = real(10, 90);
    const double spell_k = one_of({0.0, 8.0, 14.0, -12.0});
    const int known_days = record_days + (chance(0.3) ? 1 : forecast_days);
    return made_weather(std::chrono::year_month_day{first_day_}, known_days, [&](int day) {
      const double spell = day >= record_days && day < record_days + 5 ? spell_k : 0;
      const double low_c = minimum_c + real(-2, 2) + spell;
      return MadeDay{low_c,        low_c + range_k, spell > 0 ? humidity_pct / 2 : humidity_pct,
                     real(0.5, 4), real(200, 950),  6};
    });
  }

  GraftRecord graft(const std::string& id) {
    const Models& models = published_models();
    const int day = whole(0, record_days + 1);  // now and then one that is still to be made
    GraftRow row = made_row(
        id, std::chrono::local_days{(first_day_ + std::chrono::days(day)).time_since_epoch()},
        name_of(models.species), name_of(models.methods), name_of(models.covers), name_of(models.wraps));
    if (chance(0.2)) row.wrap = "";
    if (chance(0.1)) row.scion_state = "leafy";
    if (chance(0.4)) row.shade = real(0, 0.9);
    if (chance(0.5)) row.pot_litres = real(0.5, 15);
    if (chance(0.3)) row.tip = "open";
    if (chance(0.3)) row.diameter_mm = real(4, 30);
    if (chance(0.3)) row.cambium_match_word = "one-side";
    row.count = one_of({1, 1, 40});
    row.priority = one_of({0.0, 1.0, 1.0, 5.0});
    return {row, diary(day)};
  }

  std::vector<DiaryLine> diary(int day_of_grafting) {
    std::vector<DiaryLine> lines;
    for (int day = day_of_grafting + 1; day < record_days; day += whole(2, 12)) {
      const char* event = one_of({"bag-on", "bag-off", "paper-on", "shade", "watered", "green", "callus",
                                  "wilted", "buds-moving", "dead", "shrivelled", "moved"});
      lines.push_back(
          made_line(first_day_ + std::chrono::days(day) + std::chrono::hours(8), event, value_of(event)));
    }
    return lines;
  }

  std::string value_of(std::string_view event) {
    if (event == "shade") return "0.4";
    if (event == "moved") return "shed";
    return event == "dead" && chance(0.7) ? "1" : "";
  }

  std::mt19937_64 random_;
  std::chrono::sys_days first_day_;
  SeasonSettings settings_;
};

}  // namespace

const GraftRecord& RandomSite::record(const std::string& id) const {
  return *std::find_if(grafts.begin(), grafts.end(), [&](const GraftRecord& g) { return g.row.id == id; });
}

RandomSite random_site(std::uint64_t seed, int grafts) {
  return SiteMaker(seed).made(grafts);
}

}  // namespace graftcast::testing
