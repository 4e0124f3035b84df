#pragma once
// Whole runs of a program, timed beside a fixed piece of work, so that figures of one machine can be held
// against those of another.

#include <string>
#include <vector>

namespace graftcast::benchmarks {

/// Medians of several runs.
struct Measured {
  double wall_s = 0;
  double processor_s = 0;    ///< Of all threads.
  double peak_mb = 0;        ///< The greatest of the runs.
  double per_reference = 0;  ///< Processor time in units of reference_s() just before each run.
};

/// Runs `words` (the program first) `runs` times; what it prints is thrown away. Throws where it fails.
Measured measured(const std::vector<std::string>& words, int runs);

/// Processor time of the fixed work: exponentials, divisions and a walk through memory. [s]
double reference_s();

}  // namespace graftcast::benchmarks
