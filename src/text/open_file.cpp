#include "open_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <utility>

#include "graftcast/error.hpp"
#include "text/system_reason.hpp"
#include "text/tr.hpp"

namespace graftcast {

OpenFile::OpenFile(const std::filesystem::path& path, std::string shown_name) : name_(std::move(shown_name)) {
  // A pipe without a writer would keep waiting, and a device may never end.
  descriptor_ = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  if (descriptor_ < 0)
    throw OpenError(name_, tr("cannot be opened: {reason}", "reason"_a = system_reason(errno)));
  struct stat status {};
  if (::fstat(descriptor_, &status) == 0 && S_ISREG(status.st_mode)) return;
  ::close(descriptor_);
  if (S_ISDIR(status.st_mode)) throw OpenError(name_, tr("is a folder"), tr("name a file in it"));
  throw OpenError(name_, tr("is not a plain file"), tr("save what it gives in a file first"));
}

OpenFile::~OpenFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

std::size_t OpenFile::read(char* buffer, std::size_t size) const {
  for (;;) {
    const ssize_t count = ::read(descriptor_, buffer, size);
    if (count >= 0) return static_cast<std::size_t>(count);
    if (errno != EINTR)
      throw OpenError(name_, tr("cannot be read: {reason}", "reason"_a = system_reason(errno)));
  }
}

int OpenFile::release() noexcept {
  return std::exchange(descriptor_, -1);
}

}  // namespace graftcast
