#pragma once
// Runs a line of the shell and keeps what it said: for other programs that tests ask.

#include <cstdio>
#include <string>

#include <sys/wait.h>

#include "run_program.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {

/// `command` by sh, with `folder` as its own where one is given.
inline Said run_shell(const std::string& command, const std::filesystem::path& folder = {}) {
  const TemporaryFolder files;
  const std::string error = (files.path() / "err").string();
  const std::string there = folder.empty() ? "" : "cd '" + folder.string() + "' && ";
  std::FILE* pipe = ::popen((there + "{ " + command + "\n} 2>'" + error + "'").c_str(), "r");
  if (pipe == nullptr) return {};
  std::string out;
  for (int letter = 0; (letter = std::fgetc(pipe)) != EOF;) out.push_back(static_cast<char>(letter));
  const int status = ::pclose(pipe);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, out, files.read("err")};
}

}  // namespace graftcast::testing
