#pragma once
// How far a site's own results move the published numbers.

#include <map>
#include <string>

namespace graftcast {

/// Shifts from the published numbers, added up over species and method.
struct Shifts {
  double pace = 0;     ///< ln of the pace of healing.
  double drying = 0;   ///< ln of the conductance of bark and bare surfaces.
  double failure = 0;  ///< Logit of the plain failure chance.
};

/// Of one species or one method, with what it rests on.
struct LearnedShifts {
  Shifts mean, sd;   ///< Posterior mean and standard deviation.
  int outcomes = 0;  ///< Grafts taken or lost.
};

/// Content of learned.json.
struct Learned {
  std::string fitted_at;  ///< UTC time of the fit; empty: nothing is learned.
  int outcomes = 0;
  std::map<std::string, LearnedShifts> species, methods;

  bool empty() const { return fitted_at.empty(); }
  /// Sum of the means that are known.
  Shifts of(const std::string& species_name, const std::string& method_name) const;
};

}  // namespace graftcast
