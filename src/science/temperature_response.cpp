#include "graftcast/temperature_response.hpp"

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "range_check.hpp"

namespace graftcast {

double beta_response(double temperature_c, const CardinalTemperatures& cardinals) {
  const auto [lower_c, optimum_c, upper_c] = cardinals;
  require_within(temperature_c, valid::temperature);
  require_within(lower_c, {"lower cardinal temperature", -50, 80, "degC"});
  require_within(upper_c, {"upper cardinal temperature", -50, 80, "degC"});
  if (!(lower_c < optimum_c && optimum_c < upper_c)) {
    throw RangeError(
        fmt::format("optimum {} degC is not between the limits {} and {} degC", optimum_c, lower_c, upper_c),
        "valid: lower < optimum < upper");
  }
  return raw::beta_response(temperature_c, lower_c, optimum_c, upper_c);
}

}  // namespace graftcast
