#include "graftcast/weather_file.hpp"

#include <algorithm>
#include <array>
#include <cerrno>
#include <cmath>
#include <cstring>
#include <fstream>
#include <iterator>

#include <fcntl.h>
#include <unistd.h>

#include <fmt/format.h>

#include "graftcast/detect_reader.hpp"
#include "graftcast/error.hpp"

namespace graftcast {

namespace fs = std::filesystem;

namespace {

ChannelSummary summary_of(const Channel& channel) {
  ChannelSummary summary{channel.quantity, channel.kind, 0, 0, 0};
  for (const double value : channel.value) {
    if (std::isnan(value)) continue;
    summary.least = summary.known == 0 ? value : std::min(summary.least, value);
    summary.greatest = summary.known == 0 ? value : std::max(summary.greatest, value);
    ++summary.known;
  }
  return summary;
}

bool same_content(const fs::path& a, const fs::path& b) {
  std::ifstream first(a, std::ios::binary);
  std::ifstream second(b, std::ios::binary);
  return first && second &&
         std::equal(std::istreambuf_iterator<char>(first), {}, std::istreambuf_iterator<char>(second), {});
}

[[noreturn]] void refuse(const fs::path& target, const char* step) {
  throw WriteError(target.string(), fmt::format("{}: {}", step, std::strerror(errno)), "nothing was copied");
}

/// An open file that closes itself.
class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags) : number_(::open(path.c_str(), flags | O_CLOEXEC, 0666)) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  bool is_open() const { return number_ >= 0; }
  int number() const { return number_; }

 private:
  int number_;
};

bool copy_content(const Descriptor& from, const Descriptor& to) {
  std::array<char, 1U << 16U> buffer;
  while (true) {
    const ssize_t got = ::read(from.number(), buffer.data(), buffer.size());
    if (got <= 0) return got == 0;
    for (ssize_t written = 0; written < got;) {
      const ssize_t step =
          ::write(to.number(), buffer.data() + written, static_cast<std::size_t>(got - written));
      if (step < 0) return false;
      written += step;
    }
  }
}

/// Copies to a file beside the target, flushes it, and gives it its name only if that is free.
void copy_durably(const fs::path& file, const fs::path& target) {
  const fs::path unfinished = target.string() + ".unfinished";
  const Descriptor from(file, O_RDONLY);
  const Descriptor to(unfinished, O_WRONLY | O_CREAT | O_TRUNC | O_NOFOLLOW);
  if (!from.is_open() || !to.is_open()) refuse(target, "cannot be copied");
  const bool complete = copy_content(from, to) && ::fsync(to.number()) == 0 &&
                        ::link(unfinished.c_str(), target.c_str()) == 0;  // Fails where the name is taken.
  const int fault = errno;
  ::unlink(unfinished.c_str());
  errno = fault;
  if (!complete) refuse(target, "cannot be copied");
  const Descriptor folder(target.parent_path(), O_RDONLY | O_DIRECTORY);
  if (!folder.is_open() || ::fsync(folder.number()) != 0) refuse(target, "cannot be made durable");
}

}  // namespace

WeatherFileSummary summary_of(const Readings& readings) {
  WeatherFileSummary summary;
  summary.notes = readings.notes;
  for (const Block& block : readings.blocks) {
    if (block.spans.empty()) continue;
    const bool is_first = summary.channels.empty();
    summary.daily = is_daily(block.spans.front());
    summary.rows = std::max(summary.rows, block.spans.size());
    summary.first = is_first ? block.spans.front().begin : std::min(summary.first, block.spans.front().begin);
    summary.last = is_first ? block.spans.back().end : std::max(summary.last, block.spans.back().end);
    for (const Channel& channel : block.channels) summary.channels.push_back(summary_of(channel));
  }
  if (summary.rows == 0)
    throw DataError({readings.source, 0, 0}, "no row can be placed in time", "see the notes on its times");
  return summary;
}

AddedWeather add_weather_file(const fs::path& site_folder, const fs::path& file, SourceSettings settings,
                              const Location& location, const Clock& clock) {
  WeatherFileSummary summary = summary_of(read_weather_file(file, settings, location, clock));
  AddedWeather added{std::move(settings), {}, std::move(summary)};
  added.reader = reader_of(file, added.source);
  const fs::path target = site_folder / "weather" / file.filename();
  added.source.file = (fs::path("weather") / file.filename()).generic_string();
  std::error_code fault;
  if (fs::equivalent(file, target, fault)) return added;
  if (fs::exists(fs::symlink_status(target, fault))) {
    if (same_content(file, target)) return added;
    throw WriteError(target.string(),
                     "another file of that name is there, and weather files are never written over",
                     "give the new file a name of its own");
  }
  fs::create_directories(target.parent_path(), fault);
  if (fault) throw WriteError(target.parent_path().string(), fault.message(), "nothing was copied");
  copy_durably(file, target);
  return added;
}

}  // namespace graftcast
