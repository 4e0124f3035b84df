// Reading: thirty years of hours as a table, alone and taken through checks, gaps and merging; and each
// archive.

#include <algorithm>
#include <fstream>
#include <functional>
#include <vector>

#include <benchmark/benchmark.h>
#include <fmt/format.h>

#include "benchmark/invented_nursery.hpp"
#include "temporary_folder.hpp"
#include "weather/detect_reader.hpp"
#include "weather/site_weather.hpp"
#include "weather/table_reader.hpp"

namespace {

using namespace graftcast;

constexpr int years = 30;
constexpr std::int64_t table_rows = 8766 * years;

/// A site folder whose log is the table.
struct LogOnDisk {
  testing::TemporaryFolder folder;
  std::filesystem::path file = folder.write("weather/log.csv", benchmarks::hourly_table(years));
  std::int64_t bytes = static_cast<std::int64_t>(std::filesystem::file_size(file));
};

const LogOnDisk& log_on_disk() {
  static const LogOnDisk log;
  return log;
}

void count_rows(benchmark::State& state) {
  state.SetItemsProcessed(state.iterations() * table_rows);
  state.SetBytesProcessed(state.iterations() * log_on_disk().bytes);
}

/// The least that anything can do with the file: read it and count its lines, as `wc -l` does. What reading
/// costs is to be seen beside it.
void counting_the_lines(benchmark::State& state) {
  std::vector<char> piece(std::size_t{1} << 16U);
  for (auto _ : state) {
    std::ifstream file(log_on_disk().file, std::ios::binary);
    std::int64_t lines = 0;
    while (file.read(piece.data(), static_cast<std::streamsize>(piece.size())) || file.gcount() > 0)
      lines += std::count(piece.begin(), piece.begin() + file.gcount(), '\n');
    if (lines != table_rows + 1) state.SkipWithError("the table has another number of rows");
    benchmark::DoNotOptimize(lines);
  }
  count_rows(state);
}
BENCHMARK(counting_the_lines)->Unit(benchmark::kMillisecond);

void reading_a_table(benchmark::State& state) {
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  for (auto _ : state) benchmark::DoNotOptimize(read_table(log_on_disk().file, {}, site.location, clock));
  count_rows(state);
}
BENCHMARK(reading_a_table)->Unit(benchmark::kMillisecond);

void reading_checking_and_merging(benchmark::State& state) {
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  SourceSettings source;
  source.file = "weather/log.csv";
  const Knowledge knowledge{benchmarks::this_morning(), false};
  for (auto _ : state)
    benchmark::DoNotOptimize(
        assemble(log_on_disk().folder.path(), site.location, clock, {{source}}, knowledge));
  count_rows(state);
}
BENCHMARK(reading_checking_and_merging)->Unit(benchmark::kMillisecond);

// ---- The public archives' layouts, each with invented values ----

/// A file of one layout and how many rows it has.
struct ArchiveOnDisk {
  testing::TemporaryFolder folder;
  std::filesystem::path file;
  std::int64_t rows;
  std::int64_t bytes;

  ArchiveOnDisk(const std::string& name, const std::string& text)
      : file(folder.write(name, text)),
        rows(std::count(text.begin(), text.end(), '\n')),
        bytes(static_cast<std::int64_t>(text.size())) {}
};

/// `row(moment, hour of the year)` for every hour of `count` years from 2001 on.
std::string each_hour(int count, const std::function<std::string(std::chrono::year_month_day, int)>& row) {
  std::string text;
  const std::chrono::sys_days first = std::chrono::year(2001) / 1 / 1;
  const std::chrono::sys_days past = std::chrono::year(2001 + count) / 1 / 1;
  for (auto day = first; day < past; day += std::chrono::days(1)) {
    for (int hour = 0; hour < 24; ++hour) text += row(day, hour);
  }
  return text;
}

std::string ymd(std::chrono::year_month_day day, std::string_view between) {
  return fmt::format("{:04}{}{:02}{}{:02}", static_cast<int>(day.year()), between,
                     static_cast<unsigned>(day.month()), between, static_cast<unsigned>(day.day()));
}

std::string isd_lite_years() {
  return each_hour(10, [](auto day, int hour) {
    return fmt::format("{} {:02} {:5} {:5} {:5} {:5} {:5} {:5} {:5} {:5}\n", ymd(day, " "), hour,
                       150 + 5 * hour, 90, 10132, 270, 31, 2, 0, -9999);
  });
}

std::string ghcn_hourly_years() {
  return "STATION|DATE|temperature|temperature_Quality_Code|dew_point_temperature|dew_point_temperature_"
         "Quality_Code|"
         "wind_speed|wind_speed_Quality_Code|sea_level_pressure|precipitation|precipitation_Report_Type\n" +
         each_hour(10, [](auto day, int hour) {
           return fmt::format("XXE1|{}T{:02}:53:00|{:.1f}|1|9.0|1|3.1|1|1013.2|0.0|FM-15\n", ymd(day, "-"),
                              hour, 15 + 0.5 * hour);
         });
}

std::string ghcn_daily_years() {
  std::string text;
  for (int year = 1901; year <= 2020; ++year) {
    for (int month = 1; month <= 12; ++month) {
      for (const char* const element : {"TMAX", "TMIN", "PRCP"}) {
        text += fmt::format("XXE00000001{}{:02}{}", year, month, element);
        for (int day = 0; day < 31; ++day) text += day < 28 ? fmt::format("{:5}  a", 100 + day) : "-9999   ";
        text += '\n';
      }
    }
  }
  return text;
}

std::string epw_year() {
  return "LOCATION,Example Town,NO,XXX,TMY,999999,41.20,-7.50,0.0,260.0\nDESIGN CONDITIONS,0\n"
         "TYPICAL/EXTREME PERIODS,0\nGROUND TEMPERATURES,0\nHOLIDAYS/DAYLIGHT SAVINGS,No,0,0,0\nCOMMENTS 1,\n"
         "COMMENTS 2,\nDATA PERIODS,1,1,Data,Sunday, 1/ 1,12/31\n" +
         each_hour(1, [](auto day, int hour) {
           return fmt::format(
               "{},{},{},{},0,?9?9*9,{:.1f},9.0,65,98350,0,1415,322,{},0,0,0,0,0,0,120,2.1,3,2,16.0,77777,9,"
               "999999999,180,0.08,0,88,0.16,0,1\n",
               static_cast<int>(day.year()), static_cast<unsigned>(day.month()),
               static_cast<unsigned>(day.day()), hour + 1, 15 + 0.5 * hour, 10 * hour);
         });
}

std::string tmy3_year() {
  return "999999,\"EXAMPLE FIELD\",XX,0.0,41.200,-7.500,260\nDate (MM/DD/YYYY),Time (HH:MM),GHI "
         "(W/m^2),TotCld (tenths),"
         "Dry-bulb (C),Dew-point (C),RHum (%),Pressure (mbar),Wspd (m/s)\n" +
         each_hour(1, [](auto day, int hour) {
           return fmt::format("{:02}/{:02}/{},{:02}:00,{},5,{:.1f},9.0,60,983,2.1\n",
                              static_cast<unsigned>(day.month()), static_cast<unsigned>(day.day()),
                              static_cast<int>(day.year()), hour + 1, 10 * hour, 15 + 0.5 * hour);
         });
}

void reading_an_archive(benchmark::State& state, const char* name, std::string (*text)()) {
  const Site site = benchmarks::nursery_site();
  const Clock clock(site.time_zone);
  const ArchiveOnDisk archive(name, text());
  for (auto _ : state) benchmark::DoNotOptimize(read_weather_file(archive.file, {}, site.location, clock));
  state.SetItemsProcessed(state.iterations() * archive.rows);
  state.SetBytesProcessed(state.iterations() * archive.bytes);
}
BENCHMARK_CAPTURE(reading_an_archive, isd_lite, "isd", isd_lite_years)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(reading_an_archive, ghcn_hourly, "a.psv", ghcn_hourly_years)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(reading_an_archive, ghcn_daily, "a.dly", ghcn_daily_years)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(reading_an_archive, epw, "a.epw", epw_year)->Unit(benchmark::kMillisecond);
BENCHMARK_CAPTURE(reading_an_archive, tmy3, "a.csv", tmy3_year)->Unit(benchmark::kMillisecond);

}  // namespace
