#pragma once
// What a site's own results say of the published numbers.

#include <filesystem>
#include <map>
#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

namespace graftcast {

/// Shifts from the published numbers, added up over species and method.
struct Shifts {
  double pace = 0;     ///< ln of the pace of healing.
  double drying = 0;   ///< ln of the conductance of bark and bare surfaces.
  double failure = 0;  ///< Logit of the plain failure chance.
};

Shifts operator+(const Shifts& a, const Shifts& b);

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

/// `chance` with its logit moved by `shift`. Valid: 0 < chance < 1.
double moved_chance(double chance, double shift);

nlohmann::ordered_json learned_to_json(const Learned& learned);
/// Reads `file`; nothing learned where there is none. Errors: OpenError; DataError with the place for an
/// unknown key, a number out of its range (means within 3, sds within 0..3) or a newer format.
Learned read_learned(const std::filesystem::path& file);

}  // namespace graftcast
