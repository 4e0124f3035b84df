#include "progress.hpp"

#include <chrono>
#include <cstdio>
#include <utility>

#include <fmt/format.h>
#include <unistd.h>

namespace graftcast::cli {

Progress::Progress(std::string task) : task_(std::move(task)) {
  if (::isatty(STDERR_FILENO) == 1) thread_ = std::thread([this] { show(); });
}

Progress::~Progress() {
  if (!thread_.joinable()) return;
  {
    const std::scoped_lock lock(mutex_);
    end_ = true;
  }
  ended_.notify_one();
  thread_.join();
}

void Progress::show() {
  using namespace std::chrono_literals;
  const auto begin = std::chrono::steady_clock::now();
  std::unique_lock lock(mutex_);
  bool shown = false;
  for (auto pause = 500ms; !ended_.wait_for(lock, pause, [this] { return end_; }); pause = 1000ms) {
    const auto gone = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
    std::fputs(fmt::format("\rgraftcast: {}, {:.0f} s", task_, gone).c_str(), stderr);
    std::fflush(stderr);
    shown = true;
  }
  if (shown) std::fputs("\r\x1b[K", stderr);
}

}  // namespace graftcast::cli
