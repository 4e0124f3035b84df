#pragma once
// The benchmark's figures of one run after another, kept as JSON with the machine and the commit.

#include <filesystem>
#include <string>
#include <vector>

#include "benchmark/measured_process.hpp"

namespace graftcast::benchmarks {

struct Case {
  std::string name;
  Measured measured;
  std::string aim;  ///< On two quiet cores; empty: none.
};

/// The processor's name, as the system has it.
std::string processor_name();

/// Processor time per reference of the last run in `file` that has the case; NaN where none has.
double last_per_reference(const std::filesystem::path& file, const std::string& name);

/// Adds a run to those in `file`, which need not be there yet.
void record(const std::filesystem::path& file, const std::string& commit, const std::vector<Case>& cases);

}  // namespace graftcast::benchmarks
