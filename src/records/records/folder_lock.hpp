#pragma once
// One writer at a time in a site folder.

#include <chrono>
#include <filesystem>

namespace graftcast {

/// Holds the advisory lock on a site folder for as long as it lives. The lock is on the folder itself
/// (flock), so nothing is left behind, and the system lets go of it when a process ends in whatever way.
/// Every function here that writes records takes it on its own; hold it yourself for other files of the site,
/// but not around those functions: a second lock of the same process waits for the first.
class FolderLock {
 public:
  /// Waits up to `patience` for another process to let go.
  /// Errors: OpenError when the folder cannot be opened; WriteError when it stays in use (names the process).
  explicit FolderLock(const std::filesystem::path& folder,
                      std::chrono::milliseconds patience = std::chrono::seconds(10));
  ~FolderLock();
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;

 private:
  int descriptor_;
};

}  // namespace graftcast
