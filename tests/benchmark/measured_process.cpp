#include "benchmark/measured_process.hpp"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <cmath>
#include <ctime>
#include <stdexcept>

namespace graftcast::benchmarks {

namespace {

[[noreturn]] void become(const std::vector<std::string>& words) {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const int nowhere = ::open("/dev/null", O_WRONLY);
  ::dup2(nowhere, STDOUT_FILENO);
  ::dup2(nowhere, STDERR_FILENO);
  ::execv(arguments.front(), arguments.data());
  ::_exit(127);
}

double seconds_of(const timeval& time) {
  return static_cast<double>(time.tv_sec) + 1e-6 * static_cast<double>(time.tv_usec);
}

Measured once(const std::vector<std::string>& words) {
  Measured result;
  const double reference = reference_s();
  const auto begun = std::chrono::steady_clock::now();
  const pid_t child = ::fork();
  if (child == 0) become(words);
  int status = 0;
  rusage usage{};
  ::wait4(child, &status, 0, &usage);
  if (!WIFEXITED(status) || WEXITSTATUS(status) != 0) throw std::runtime_error(words.back() + " failed");
  result.wall_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count();
  result.processor_s = seconds_of(usage.ru_utime) + seconds_of(usage.ru_stime);
  result.peak_mb = static_cast<double>(usage.ru_maxrss) / 1024;
  result.per_reference = result.processor_s / reference;
  return result;
}

double median(std::vector<Measured> of, double Measured::*figure) {
  std::ranges::sort(of, {}, figure);
  return of[of.size() / 2].*figure;
}

}  // namespace

Measured measured(const std::vector<std::string>& words, int runs) {
  std::vector<Measured> all;
  for (int run = 0; run < runs; ++run) all.push_back(once(words));
  return {median(all, &Measured::wall_s), median(all, &Measured::processor_s),
          std::ranges::max_element(all, {}, &Measured::peak_mb)->peak_mb,
          median(all, &Measured::per_reference)};
}

double reference_s() {
  constexpr std::size_t numbers = 4'000'000;  // 32 MB, more than a processor keeps near
  static std::vector<double> values(numbers, 0.5);
  const std::clock_t begun = std::clock();
  for (int round = 0; round < 4; ++round)
    for (double& value : values) value = std::exp(-value) / (1.0 + value);
  return static_cast<double>(std::clock() - begun) / CLOCKS_PER_SEC;
}

}  // namespace graftcast::benchmarks
