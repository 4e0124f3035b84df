#include "standard_output.hpp"

#include <cerrno>
#include <csignal>
#include <cstring>

#include <unistd.h>

#include "graftcast/error.hpp"
#include "text/system_reason.hpp"
#include "text/tr.hpp"

namespace graftcast::cli {

namespace {

[[noreturn]] void refuse() {
  throw WriteError(tr("standard output"), system_reason(errno), tr("the answer is not complete"));
}

}  // namespace

bool write_answer(std::string_view text) {
  while (!text.empty()) {
    const ssize_t written = ::write(STDOUT_FILENO, text.data(), text.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0 && errno == EPIPE) return false;
    if (written < 0) refuse();
    text.remove_prefix(static_cast<std::size_t>(written));
  }
  // Some file systems report a full disk only here; a pipe or a terminal cannot be flushed and says EINVAL.
  if (::fsync(STDOUT_FILENO) != 0 && (errno == EIO || errno == ENOSPC || errno == EDQUOT)) refuse();
  return true;
}

void ignore_broken_pipes() {
  std::signal(SIGPIPE, SIG_IGN);
}

}  // namespace graftcast::cli
