#pragma once
// Runs the real program under ptrace(2) and lets a fault befall it at a system call of choice.

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "cli/run_program.hpp"

namespace graftcast::testing {

/// One system call, as it begins.
struct SystemCall {
  long number = -1;
  std::string path{};  ///< Of the file it names or whose descriptor it is given; empty where there is none.
  bool is_change = false;  ///< Makes, fills, renames, flushes or removes a file.
  bool is_file = false;    ///< Reads, looks at or changes a file.
};

struct Fault {
  enum class What : std::uint8_t { none, kill, fail, wait };
  What what = What::none;
  std::size_t at = 0;                 ///< Which of the counted calls it befalls, from 0.
  bool lasts = false;                 ///< All counted calls from there on.
  int error = 0;                      ///< What a call that fails gives, for example ENOSPC.
  std::chrono::milliseconds pause{};  ///< How long a call waits.
  std::function<bool(const SystemCall&)> counts = [](const auto&) { return true; };
};

struct Traced {
  Said said;
  bool was_killed = false;        ///< The fault killed it.
  std::vector<SystemCall> calls;  ///< Those counted.
  long most_memory_kb = 0;        ///< Greatest resident set.
};

/// Whether this machine lets a test trace, and the registers of its processor are known here.
bool can_trace();

/// Runs the program; `fault` befalls it. Error: std::runtime_error when it cannot be traced.
Traced run_traced(const std::vector<std::string>& arguments, const Surroundings& surroundings = {},
                  const Fault& fault = {});

/// Calls that change files.
bool changes_a_file(const SystemCall& call);

/// Calls that remove or rename, for which a full disk has room.
bool frees_room(const SystemCall& call);

}  // namespace graftcast::testing
