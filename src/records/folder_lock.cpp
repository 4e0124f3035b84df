#include "records/folder_lock.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <fstream>
#include <sstream>
#include <string>
#include <system_error>
#include <thread>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/system_reason.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

using Moment = std::chrono::steady_clock;

int open_folder(const std::filesystem::path& folder) {
  const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (descriptor >= 0) return descriptor;
  throw OpenError(folder.string(),
                  tr("cannot be opened as a folder: {reason}", "reason"_a = system_reason(errno)),
                  tr("name a site folder, or start one with `graftcast new`"));
}

// Who holds the lock, from the kernel's table of locks: "1: FLOCK  ADVISORY  WRITE 1234 08:01:5678 0 EOF".
std::string in_use_by_holder(int descriptor) {
  struct stat state {};
  ::fstat(descriptor, &state);
  const std::string inode = fmt::format(":{}", state.st_ino);
  std::ifstream table("/proc/locks");
  for (std::string line; std::getline(table, line);) {
    std::istringstream words(line);
    std::string number, kind, manner, access, process, place;
    words >> number >> kind >> manner >> access >> process >> place;
    if (kind != "FLOCK" || !place.ends_with(inode)) continue;
    std::string program;
    std::ifstream name("/proc/" + process + "/comm");
    std::getline(name, program);
    if (program.empty()) return tr("is in use by process {process}", "process"_a = process);
    return tr("is in use by process {process} ({program})", "process"_a = process, "program"_a = program);
  }
  return tr("is in use by another process");
}

// True once the lock is ours, false when another holds it still at `deadline`.
bool lock_before(Moment::time_point deadline, int descriptor) {
  constexpr std::chrono::milliseconds pause(20);
  while (::flock(descriptor, LOCK_EX | LOCK_NB) != 0) {
    if (errno == EINTR) continue;
    if (errno != EWOULDBLOCK) throw std::system_error(errno, std::generic_category());
    if (Moment::now() >= deadline) return false;
    std::this_thread::sleep_for(pause);
  }
  return true;
}

}  // namespace

FolderLock::FolderLock(const std::filesystem::path& folder, std::chrono::milliseconds patience)
    : descriptor_(open_folder(folder)) {
  std::string reason;
  try {
    if (lock_before(Moment::now() + patience, descriptor_)) return;
    reason = in_use_by_holder(descriptor_);
  } catch (const std::system_error& fault) {
    reason = tr("cannot be locked: {reason}", "reason"_a = system_reason(fault.code()));
  }
  ::close(descriptor_);
  throw WriteError(folder.string(), reason, tr("nothing was written; wait until it is done and try again"));
}

FolderLock::~FolderLock() {
  ::close(descriptor_);
}

}  // namespace graftcast
