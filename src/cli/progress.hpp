#pragma once
// A sign of life on standard error.

#include <condition_variable>
#include <mutex>
#include <string>
#include <thread>

namespace graftcast::cli {

/// After half a second shows `task` and the seconds gone, when standard error is a terminal; wipes it when it
/// ends.
class Progress {
 public:
  explicit Progress(std::string task);
  ~Progress();
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

 private:
  void show();

  std::string task_;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool end_ = false;
  std::thread thread_;
};

}  // namespace graftcast::cli
