#include "traced_run.hpp"

#include <array>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <map>
#include <set>
#include <stdexcept>
#include <thread>

#include <elf.h>
#include <fcntl.h>
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/user.h>
#include <sys/wait.h>
#include <unistd.h>

#include "temporary_folder.hpp"

namespace graftcast::testing {

namespace {

// ---- What a call is ----

enum class Names : std::uint8_t { path, path_at, descriptor };

struct CallKind {
  Names names;
  bool is_change;
};

const std::map<long, CallKind>& kinds() {
  static const std::map<long, CallKind> all{
#ifdef SYS_open
      {SYS_open, {Names::path, false}},           {SYS_stat, {Names::path, false}},
      {SYS_lstat, {Names::path, false}},          {SYS_access, {Names::path, false}},
      {SYS_readlink, {Names::path, false}},       {SYS_unlink, {Names::path, true}},
      {SYS_rmdir, {Names::path, true}},           {SYS_mkdir, {Names::path, true}},
      {SYS_rename, {Names::path, true}},          {SYS_link, {Names::path, true}},
      {SYS_chmod, {Names::path, true}},
#endif
#ifdef SYS_newfstatat
      {SYS_newfstatat, {Names::path_at, false}},
#endif
#ifdef SYS_renameat
      {SYS_renameat, {Names::path_at, true}},
#endif
      {SYS_openat, {Names::path_at, false}},      {SYS_statx, {Names::path_at, false}},
      {SYS_faccessat, {Names::path_at, false}},   {SYS_readlinkat, {Names::path_at, false}},
      {SYS_unlinkat, {Names::path_at, true}},     {SYS_mkdirat, {Names::path_at, true}},
      {SYS_renameat2, {Names::path_at, true}},    {SYS_linkat, {Names::path_at, true}},
      {SYS_fchmodat, {Names::path_at, true}},     {SYS_read, {Names::descriptor, false}},
      {SYS_pread64, {Names::descriptor, false}},  {SYS_readv, {Names::descriptor, false}},
      {SYS_lseek, {Names::descriptor, false}},    {SYS_fstat, {Names::descriptor, false}},
      {SYS_flock, {Names::descriptor, false}},    {SYS_getdents64, {Names::descriptor, false}},
      {SYS_write, {Names::descriptor, true}},     {SYS_writev, {Names::descriptor, true}},
      {SYS_pwrite64, {Names::descriptor, true}},  {SYS_sendfile, {Names::descriptor, true}},
      {SYS_fsync, {Names::descriptor, true}},     {SYS_fdatasync, {Names::descriptor, true}},
      {SYS_ftruncate, {Names::descriptor, true}}, {SYS_fchmod, {Names::descriptor, true}},
      {SYS_fchown, {Names::descriptor, true}},
  };
  return all;
}

std::string text_at(pid_t process, std::uint64_t address) {
  std::string text;
  std::array<char, 64> piece{};
  while (text.size() < 4096) {
    iovec here{piece.data(), piece.size()};
    // Not over the end of a page that may be the last one.
    const std::size_t room = 4096 - (address + text.size()) % 4096;
    iovec there{reinterpret_cast<void*>(address + text.size()), std::min(piece.size(), room)};
    const ssize_t got = ::process_vm_readv(process, &here, 1, &there, 1, 0);
    if (got <= 0) return text;
    const std::string_view part(piece.data(), static_cast<std::size_t>(got));
    text += part.substr(0, part.find('\0'));
    if (part.find('\0') != std::string_view::npos) return text;
  }
  return text;
}

std::string link_text(const std::string& link) {
  std::error_code fault;
  return std::filesystem::read_symlink(link, fault).string();
}

std::string path_of(pid_t process, Names names, const std::uint64_t* arguments) {
  const std::string own = "/proc/" + std::to_string(process);
  if (names == Names::descriptor) return link_text(own + "/fd/" + std::to_string(arguments[0]));
  const std::string text = text_at(process, arguments[names == Names::path ? 0 : 1]);
  if (text.starts_with('/')) return text;
  const auto folder = static_cast<int>(names == Names::path ? AT_FDCWD : static_cast<int>(arguments[0]));
  return link_text(folder == AT_FDCWD ? own + "/cwd" : own + "/fd/" + std::to_string(folder)) + '/' + text;
}

bool opens_to_write(long number, const std::uint64_t* arguments) {
  constexpr std::uint64_t writing = O_WRONLY | O_RDWR | O_CREAT | O_TRUNC;
#ifdef SYS_open
  if (number == SYS_open) return (arguments[1] & writing) != 0;
#endif
  return number == SYS_openat && (arguments[2] & writing) != 0;
}

SystemCall call_of(pid_t process, const __ptrace_syscall_info& info) {
  SystemCall call;
  call.number = static_cast<long>(info.entry.nr);
  const auto kind = kinds().find(call.number);
  if (kind == kinds().end()) return call;
  call.path = path_of(process, kind->second.names, info.entry.args);
  // Pipes and sockets read as `pipe:[12]`.
  call.is_file = call.path.starts_with('/');
  call.is_change = call.is_file && (kind->second.is_change || opens_to_write(call.number, info.entry.args));
  return call;
}

/// Greatest resident set so far; that of rusage would count the test it was forked from, too.
long most_memory_kb(pid_t process) {
  std::ifstream status("/proc/" + std::to_string(process) + "/status");
  for (std::string line; std::getline(status, line);)
    if (line.starts_with("VmHWM:")) return std::stol(line.substr(6));
  return 0;
}

// ---- The processor's part: what number a call has, what it gives ----

#if defined(__x86_64__)
constexpr bool registers_known = true;
void skip_call(pid_t process) {
  ::ptrace(PTRACE_POKEUSER, process, offsetof(user, regs.orig_rax), -1L);
}
void set_result(pid_t process, long result) {
  ::ptrace(PTRACE_POKEUSER, process, offsetof(user, regs.rax), result);
}
#elif defined(__aarch64__)
constexpr bool registers_known = true;
void skip_call(pid_t process) {
  int none = -1;
  iovec part{&none, sizeof none};
  ::ptrace(PTRACE_SETREGSET, process, NT_ARM_SYSTEM_CALL, &part);
}
void set_result(pid_t process, long result) {
  user_regs_struct registers{};
  iovec part{&registers, sizeof registers};
  ::ptrace(PTRACE_GETREGSET, process, NT_PRSTATUS, &part);
  registers.regs[0] = static_cast<unsigned long long>(result);
  ::ptrace(PTRACE_SETREGSET, process, NT_PRSTATUS, &part);
}
#else
constexpr bool registers_known = false;
void skip_call(pid_t) {}
void set_result(pid_t, long) {}
#endif

// ---- The run ----

std::vector<char*> to_pointers(std::vector<std::string>& texts) {
  std::vector<char*> list;
  for (std::string& text : texts) list.push_back(text.data());
  list.push_back(nullptr);
  return list;
}

class Tracer {
 public:
  Tracer(pid_t child, const Fault& fault) : child_(child), fault_(fault) {}

  Traced watch();

 private:
  void start();
  void stopped(pid_t process, int status);
  void at_call(pid_t process);
  bool befalls() const;
  void befall(pid_t process);
  void go_on(pid_t process, int signal) const { ::ptrace(PTRACE_SYSCALL, process, nullptr, signal); }

  pid_t child_;
  const Fault& fault_;
  std::set<pid_t> failing_;
  Traced traced_;
};

void Tracer::start() {
  int status = 0;
  ::waitpid(child_, &status, 0);
  if (!WIFSTOPPED(status)) throw std::runtime_error("the program cannot be traced");
  constexpr long options = PTRACE_O_TRACESYSGOOD | PTRACE_O_TRACECLONE | PTRACE_O_TRACEFORK |
                           PTRACE_O_TRACEVFORK | PTRACE_O_TRACEEXIT | PTRACE_O_EXITKILL;
  ::ptrace(PTRACE_SETOPTIONS, child_, nullptr, options);
  go_on(child_, 0);
}

bool Tracer::befalls() const {
  if (fault_.what == Fault::What::none) return false;
  const std::size_t number = traced_.calls.size() - 1;
  return number == fault_.at || (fault_.lasts && number > fault_.at);
}

void Tracer::befall(pid_t process) {
  switch (fault_.what) {
    case Fault::What::kill:
      traced_.was_killed = true;
      ::kill(child_, SIGKILL);
      return;
    case Fault::What::fail:
      skip_call(process);
      failing_.insert(process);
      return;
    case Fault::What::wait:
      std::this_thread::sleep_for(fault_.pause);
      return;
    case Fault::What::none:
      return;
  }
}

void Tracer::at_call(pid_t process) {
  __ptrace_syscall_info info{};
  if (::ptrace(PTRACE_GET_SYSCALL_INFO, process, sizeof info, &info) <= 0) return;
  if (info.op == PTRACE_SYSCALL_INFO_EXIT && failing_.erase(process) > 0) set_result(process, -fault_.error);
  if (info.op != PTRACE_SYSCALL_INFO_ENTRY) return;
  SystemCall call = call_of(process, info);
  if (!fault_.counts(call)) return;
  traced_.calls.push_back(std::move(call));
  if (befalls()) befall(process);
}

void Tracer::stopped(pid_t process, int status) {
  const int signal = WSTOPSIG(status);
  if (signal == (SIGTRAP | 0x80)) {
    at_call(process);
    go_on(process, 0);
  } else {
    if (process == child_ && status >> 8 == (SIGTRAP | (PTRACE_EVENT_EXIT << 8)))
      traced_.most_memory_kb = most_memory_kb(child_);
    // A new thread begins with SIGSTOP, and events come as SIGTRAP; neither is for the program.
    const bool is_own = status >> 16 != 0 || signal == SIGTRAP || signal == SIGSTOP;
    go_on(process, is_own ? 0 : signal);
  }
}

Traced Tracer::watch() {
  start();
  for (;;) {
    int status = 0;
    const pid_t process = ::waitpid(-1, &status, __WALL);
    if (process < 0) throw std::runtime_error("the traced program is lost");
    if (WIFSTOPPED(status)) {
      stopped(process, status);
    } else if (process == child_) {
      traced_.said.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
      return std::move(traced_);
    }
  }
}

int open_or_end(const std::string& file, int flags) {
  const int descriptor = ::open(file.c_str(), flags, 0600);
  if (descriptor < 0) ::_exit(127);
  return descriptor;
}

}  // namespace

bool can_trace() {
  const pid_t child = registers_known ? ::fork() : -1;
  if (child == 0) ::_exit(::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr) == 0 ? 0 : 1);
  int status = 1;
  if (child > 0) ::waitpid(child, &status, 0);
  return child > 0 && status == 0;
}

bool changes_a_file(const SystemCall& call) {
  return call.is_change;
}

bool frees_room(const SystemCall& call) {
  static const std::set<long> numbers{
#ifdef SYS_unlink
      SYS_unlink,   SYS_rmdir,    SYS_rename,
#endif
#ifdef SYS_renameat
      SYS_renameat,
#endif
      SYS_unlinkat, SYS_renameat2};
  return numbers.contains(call.number);
}

Traced run_traced(const std::vector<std::string>& arguments, const Surroundings& surroundings,
                  const Fault& fault) {
  const TemporaryFolder files;
  const std::string input = files.write("in", surroundings.input).string();
  const std::string output =
      surroundings.output.empty() ? (files.path() / "out").string() : surroundings.output.string();
  const std::string errors = (files.path() / "err").string();
  std::vector<std::string> words{GRAFTCAST_PROGRAM};
  words.insert(words.end(), arguments.begin(), arguments.end());
  std::vector<std::string> environment{"PATH=/usr/bin:/bin", "LC_ALL=C.UTF-8", "TERM=xterm"};
  for (const auto& [name, value] : surroundings.environment) environment.push_back(name + '=' + value);
  const std::vector<char*> word_list = to_pointers(words), environment_list = to_pointers(environment);

  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("cannot start " GRAFTCAST_PROGRAM);
  if (child == 0) {
    ::dup2(open_or_end(input, O_RDONLY), STDIN_FILENO);
    ::dup2(open_or_end(output, O_WRONLY | O_CREAT), STDOUT_FILENO);
    ::dup2(open_or_end(errors, O_WRONLY | O_CREAT), STDERR_FILENO);
    if (!surroundings.folder.empty() && ::chdir(surroundings.folder.c_str()) != 0) ::_exit(127);
    ::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr);
    ::execve(GRAFTCAST_PROGRAM, word_list.data(), environment_list.data());
    ::_exit(127);
  }
  Traced traced = Tracer(child, fault).watch();
  traced.said.out = surroundings.output.empty() ? files.read("out") : "";
  traced.said.err = files.read("err");
  return traced;
}

}  // namespace graftcast::testing
