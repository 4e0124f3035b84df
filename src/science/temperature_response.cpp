#include "graftcast/temperature_response.hpp"

#include "graftcast/error.hpp"
#include "range_check.hpp"
#include "text/tr.hpp"

namespace graftcast {

double beta_response(double temperature_c, const CardinalTemperatures& cardinals) {
  const auto [lower_c, optimum_c, upper_c] = cardinals;
  require_within(temperature_c, valid::temperature);
  require_within(lower_c, {tr_later("lower cardinal temperature"), -50, 80, "degC"});
  require_within(upper_c, {tr_later("upper cardinal temperature"), -50, 80, "degC"});
  if (!(lower_c < optimum_c && optimum_c < upper_c)) {
    throw RangeError(tr("optimum {optimum} degC is not between the limits {lower} and {upper} degC",
                        "optimum"_a = optimum_c, "lower"_a = lower_c, "upper"_a = upper_c),
                     tr("valid: lower < optimum < upper"));
  }
  return raw::beta_response(temperature_c, lower_c, optimum_c, upper_c);
}

}  // namespace graftcast
