#include "run_program.hpp"

#include <cstdlib>
#include <stdexcept>

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include "temporary_folder.hpp"

namespace graftcast::testing {

namespace {

/// Pointers as C wants them, the last one null.
std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> list;
  for (std::string& text : texts) list.push_back(text.data());
  list.push_back(nullptr);
  return list;
}

std::vector<std::string> environment_of(const Surroundings& surroundings) {
  std::map<std::string, std::string> variables{
      {"PATH", "/usr/bin:/bin"}, {"LC_ALL", "C.UTF-8"}, {"TERM", "xterm"}};
  // The sanitizers and the coverage tool are steered by these.
  for (const char* kept : {"ASAN_OPTIONS", "UBSAN_OPTIONS", "GCOV_PREFIX", "GCOV_PREFIX_STRIP"})
    if (const char* value = std::getenv(kept)) variables[kept] = value;
  for (const auto& [name, value] : surroundings.environment) variables[name] = value;
  std::vector<std::string> list;
  for (const auto& [name, value] : variables) list.push_back(name + '=' + value);
  return list;
}

class Actions {
 public:
  Actions() { ::posix_spawn_file_actions_init(&actions_); }
  ~Actions() { ::posix_spawn_file_actions_destroy(&actions_); }
  Actions(const Actions&) = delete;
  Actions& operator=(const Actions&) = delete;

  void open(int descriptor, const std::filesystem::path& file, int flags) {
    ::posix_spawn_file_actions_addopen(&actions_, descriptor, file.c_str(), flags, 0600);
  }
  void change_folder(const std::filesystem::path& folder) {
    if (!folder.empty()) ::posix_spawn_file_actions_addchdir_np(&actions_, folder.c_str());
  }
  const posix_spawn_file_actions_t* get() const { return &actions_; }

 private:
  posix_spawn_file_actions_t actions_{};
};

}  // namespace

Said run(const std::vector<std::string>& arguments, const Surroundings& surroundings) {
  const TemporaryFolder files;
  const auto input = files.write("in", surroundings.input);
  const auto output = surroundings.output.empty() ? files.path() / "out" : surroundings.output;
  Actions actions;
  actions.open(STDIN_FILENO, input, O_RDONLY);
  actions.open(STDOUT_FILENO, output, O_WRONLY | O_CREAT);
  actions.open(STDERR_FILENO, files.path() / "err", O_WRONLY | O_CREAT);
  actions.change_folder(surroundings.folder);

  std::vector<std::string> words{GRAFTCAST_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> environment = environment_of(surroundings);
  pid_t process = 0;
  if (::posix_spawn(&process, GRAFTCAST_PROGRAM, actions.get(), nullptr, pointers(words).data(),
                    pointers(environment).data()) != 0)
    throw std::runtime_error("cannot start " GRAFTCAST_PROGRAM);
  int status = 0;
  ::waitpid(process, &status, 0);
  return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, surroundings.output.empty() ? files.read("out") : "",
          files.read("err")};
}

}  // namespace graftcast::testing
