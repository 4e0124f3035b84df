#pragma once
// The spots of a site, as text and as JSON.

#include <string>

#include <nlohmann/json_fwd.hpp>

#include "graftcast/spots.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// The spots as a table, or what was learned of one.
std::string spots_text(const SpotsReport& report, const ReportBasis& basis, const TerminalStyle& style);
nlohmann::ordered_json spots_json(const SpotsReport& report, const ReportBasis& basis);

}  // namespace graftcast
