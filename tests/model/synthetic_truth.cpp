#include "model/synthetic_truth.hpp"

#include <algorithm>
#include <cmath>
#include <random>

#include "ensemble/distributions.hpp"
#include "graftcast/air.hpp"
#include "weather/open_stations.hpp"
#include "weather/site_weather.hpp"

namespace graftcast::testing {

namespace {

constexpr int longest_age_days = 40;
constexpr int batch_size = 12;

HourlyWeather read_davis() {
  const OpenStation station = davis();
  return assemble({station.read()}, station.place, station.clock,
                  {std::chrono::sys_days{std::chrono::January / 1 / 2019}, true})
      .hourly;
}

/// Draws one site of the endless row.
class SiteDrawing {
 public:
  SiteDrawing(std::uint64_t index, int horizon_days, int members)
      : index_(index), random_(index * 7919 + 13), horizon_days_(horizon_days), members_(members) {
    // Mornings from March to August, when grafts are fresh there and heat comes.
    const int year = whole(1995, 2018);
    const std::chrono::sys_days first{std::chrono::year{year} / std::chrono::March / 15};
    now_ = first + std::chrono::days(whole(0, 150)) + std::chrono::hours(14);  // about seven, local time
    begin_ = now_ - std::chrono::days(longest_age_days + 1);
    end_ = now_ + std::chrono::days(horizon_days);
  }

  DrawnSite drawn(int batches) {
    DrawnSite site;
    site.forecast = std::make_unique<MadeSeason>(davis_site(), hours_between(davis_hours(), begin_, end_),
                                                 begin_, settings(now_, members_, 1, horizon_days_));
    SeasonSettings truth_settings = settings(end_, true_members, 1000 + index_, 1);
    truth_settings.weather_spread = false;
    // The real weather is the forecast, and what came differs from it as the model says forecasts differ.
    const MadeSeason truth(davis_site(), with_forecast_errors(davis_hours(), begin_, now_, end_, index_),
                           begin_, truth_settings);
    for (int i = 0; i < batches; ++i) {
      DrawnBatch batch = lived(truth, row(i), static_cast<std::uint64_t>(i));
      if (!batch.lost.empty()) site.batches.push_back(std::move(batch));
    }
    return site;
  }

 private:
  double real(double low, double high) { return std::uniform_real_distribution(low, high)(random_); }
  int whole(int low, int high) { return std::uniform_int_distribution(low, high)(random_); }
  template <class Value>
  Value one_of(std::initializer_list<Value> values) {
    return *(values.begin() + whole(0, static_cast<int>(values.size()) - 1));
  }

  static SeasonSettings settings(Instant as_of, int members, std::uint64_t seed, int days) {
    SeasonSettings s;
    s.as_of = as_of;
    s.members = members;
    s.seed = seed;
    s.horizon_days = s.outlook_days = days;
    return s;
  }

  GraftRow row(int number) {
    const Instant grafted = now_ - std::chrono::hours(whole(12, 24 * longest_age_days));
    GraftRow row =
        made_row("G" + std::to_string(number),
                 std::chrono::local_days{std::chrono::floor<std::chrono::days>(grafted).time_since_epoch()},
                 one_of({"citrus", "avocado", "apple", "peach", "mango", "walnut", "fig"}),
                 one_of({"cleft", "chip", "whip-and-tongue", "bark"}),
                 one_of({"none", "none", "clear-bag", "paper-over-bag"}),
                 one_of({"film", "film", "film-bud-out", "wax"}));
    row.grafted_at = grafted;
    row.shade = one_of({0.0, 0.5, 0.7});
    row.count = batch_size;
    return row;
  }

  DrawnBatch lived(const MadeSeason& truth, const GraftRow& row, std::uint64_t number) {
    GraftRun run(truth.season, graft_case(row, {}, truth.site, truth.clock, published_models(), end_));
    std::vector<Instant> looks;
    for (Instant look = *row.grafted_at + std::chrono::days(4); look < now_; look += std::chrono::days(4))
      looks.push_back(look);
    looks.push_back(now_);
    std::vector<std::size_t> marks;
    for (const Instant look : looks) marks.push_back(truth.season.index_of(look));
    std::vector<UnionStates> at;
    const UnionNow later = run.to_now(marks, at);
    const auto member = static_cast<std::size_t>(whole(0, true_members - 1));
    std::vector<HardLimits> alive;
    for (int i = 0; i < row.count; ++i)
      alive.push_back(drawn_limits(run.limits(), index_, number * 1000 + static_cast<std::uint64_t>(i)));
    DrawnBatch batch{row, now_, {}, {}};
    for (std::size_t k = 0; k < looks.size(); ++k) look_at(looks[k], at[k], member, alive, batch);
    for (const HardLimits& limits : alive) batch.lost.push_back(!limits.stands(later.states, member));
    return batch;
  }

  /// Counts the newly dead, who leave `alive`, and one sign on the others.
  void look_at(Instant when, const UnionStates& states, std::size_t member, std::vector<HardLimits>& alive,
               DrawnBatch& batch) {
    const auto dead =
        std::erase_if(alive, [&](const HardLimits& limits) { return !limits.stands(states, member); });
    if (dead > 0) batch.seen.push_back(made_line(when, "dead", std::to_string(dead)));
    const char* event = one_of({"buds-moving", "leafed-out", "wilted", "shrivelled"});
    const double chance =
        note_chance(published_models().observation, *event_named(event), states, member, 0).if_alive;
    const auto shown = std::count_if(alive.begin(), alive.end(), [&](auto&) { return real(0, 1) < chance; });
    if (shown > 0) batch.seen.push_back(made_line(when, event, std::to_string(shown)));
  }

  std::uint64_t index_;
  std::mt19937_64 random_;
  int horizon_days_, members_;
  Hour now_{}, begin_{}, end_{};
};

}  // namespace

HourlyWeather hours_between(const HourlyWeather& weather, Hour begin, Hour end) {
  HourlyWeather part = weather;
  const auto from = (begin - weather.start).count(), to = (end - weather.start).count();
  const auto cut = [&](auto& values) {
    values.erase(values.begin() + to, values.end());
    values.erase(values.begin(), values.begin() + from);
  };
  part.start = begin;
  for (auto& column : part.columns) {
    cut(column.value);
    cut(column.origin);
    cut(column.source);
  }
  cut(part.forecast_lead_h);
  return part;
}

const HourlyWeather& davis_hours() {
  static const HourlyWeather hours = read_davis();
  return hours;
}

Site davis_site() {
  Site site = made_site({});
  const OpenStation station = davis();
  site.location = station.place;
  site.time_zone = "America/Los_Angeles";
  return site;
}

HourlyWeather with_forecast_errors(const HourlyWeather& real, Hour begin, Hour now, Hour end,
                                   std::uint64_t seed) {
  const Outlook outlook = complete_weather(hours_between(real, begin, end), begin, now, end);
  const OpenStation station = davis();
  const std::size_t ahead = outlook.weather.size() - outlook.now;
  const WeatherArrays ahead_of_now =
      weather_of_members(outlook, sun_of_hours(station.place, now, ahead),
                         ForecastErrors{published_models().forecast}, 1, 500'000 + seed);
  HourlyWeather forecast = outlook.weather;
  for (std::size_t i = 0; i < ahead; ++i) {
    const auto column = static_cast<Eigen::Index>(i);
    const double air_c = ahead_of_now.air_c(0, column);
    const auto put = [&](Variable variable, double value) {
      forecast[variable].value[outlook.now + i] = value;
    };
    put(Variable::air_temperature, air_c);
    put(Variable::relative_humidity,
        100 * ahead_of_now.vapour_kpa(0, column) / raw::saturation_vapour_pressure_kpa(air_c));
    put(Variable::wind_speed, ahead_of_now.wind_m_s(0, column));
    put(Variable::shortwave, ahead_of_now.global_w_m2(0, column));
  }
  return forecast;
}

bool HardLimits::stands(const UnionStates& states, std::size_t member) const {
  const auto i = static_cast<Eigen::Index>(member);
  return states.lowest_reserve[i] > least_reserve && states.highest_heat_dose[i] < heat_dose &&
         states.highest_cold_kill[i] < cold_luck && states.stores_spent[i] < stores;
}

HardLimits drawn_limits(const SurvivalLimits& limits, std::uint64_t seed, std::uint64_t graft) {
  const auto uniform = [&](std::uint64_t what) {
    return random_uniform(seed ^ 0x9e3779b97f4a7c15U, Purpose::stratum, graft, what);
  };
  const auto normal = [&](std::uint64_t what) { return normal_quantile(uniform(what)); };
  return {limits.lost_water + limits.lost_water_sd * normal(0), std::exp(limits.heat_ln_sd * normal(1)),
          uniform(2), std::exp(limits.stores_ln_sd * normal(3))};
}

DrawnSite drawn_site(std::uint64_t index, int batches, int horizon_days, int members) {
  return SiteDrawing(index, horizon_days, members).drawn(batches);
}

}  // namespace graftcast::testing
