#pragma once
// Where weather came from, which of it there is, and what stands in for what there is not (private to the
// layer).

#include <string>
#include <string_view>

#include "graftcast/stand_in.hpp"
#include "report/report_basis.hpp"

namespace graftcast {

/// `measured`, `from-daily` ...
std::string origin_words(Origin origin);
/// `air temperature`, `wind speed` ...
std::string variable_words(Variable variable);
/// `last-week`, `past-years` ...; `forecast` where nothing has to stand in.
std::string stand_in_words(StandIn stand_in);
/// What bridges a gap: `interpolation`, a stand-in, or a source by its name.
std::string bridge_words(const BasisGap& gap);

}  // namespace graftcast
