#pragma once
// Independent pieces of work on several threads.

#include <atomic>
#include <cstddef>
#include <exception>
#include <thread>
#include <vector>

#include "text/tr.hpp"

namespace graftcast {

/// Calls `work(i)` for every i below `count` on `threads` threads. Each call must write only its own result,
/// so that the outcome does not depend on the number of threads. The failure of the lowest i is thrown again.
template <class Work>
void for_each_parallel(std::size_t count, int threads, Work&& work) {
  std::vector<std::exception_ptr> failures(count);
  std::atomic<std::size_t> next{0};
  const auto loop = [&, catalogue = LanguageScope::current()] {
    const LanguageScope language(catalogue);
    for (std::size_t i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        failures[i] = std::current_exception();
      }
    }
  };
  {
    std::vector<std::jthread> others;
    for (int t = 1; t < threads && static_cast<std::size_t>(t) < count; ++t) others.emplace_back(loop);
    loop();
  }
  for (const auto& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

}  // namespace graftcast
