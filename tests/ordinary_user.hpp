#pragma once
// Doing something without the superuser's right to read and write everything.

#include <sys/wait.h>
#include <unistd.h>

#include <string>

namespace graftcast::testing {

/// Runs `run` (which gives a text) in a child process that is nobody in particular, and hands its text back.
template <typename Run>
std::string as_ordinary_user(Run run) {
  int pipe_ends[2];
  if (::pipe(pipe_ends) != 0) return "no pipe";
  const pid_t child = ::fork();
  if (child == 0) {
    constexpr uid_t nobody = 65534;
    const bool may_go_on = ::geteuid() != 0 || (::setgid(nobody) == 0 && ::setuid(nobody) == 0);
    const std::string text = may_go_on ? run() : std::string("cannot leave the superuser");
    const ssize_t ignored = ::write(pipe_ends[1], text.data(), text.size());
    ::_exit(ignored < 0 ? 1 : 0);
  }
  ::close(pipe_ends[1]);
  std::string text;
  char buffer[1024];
  for (ssize_t count = 0; (count = ::read(pipe_ends[0], buffer, sizeof buffer)) > 0;) {
    text.append(buffer, static_cast<std::size_t>(count));
  }
  ::close(pipe_ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  return text;
}

}  // namespace graftcast::testing
