#pragma once
// Parts that several answers share (private to the layer).

#include <string>

#include <fmt/format.h>

#include "graftcast/graft_card.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"
#include "report/text_layout.hpp"

namespace graftcast {

/// The line on the weather that an answer begins with.
std::string heading(const ReportBasis& basis, const TerminalStyle& style);

/// `text` with what an answer ends with: cautions and credits, a blank line before them.
std::string ended(std::string text, const ReportBasis& basis, const TerminalStyle& style);

/// `5 days`, `20 h` for a young one.
std::string age_words(double age_days);

/// What a graft is: `Sanguinelli on Carrizo, citrus chip, 6 grafts, east-tables`.
std::string identity_words(std::string_view scion, std::string_view stock, std::string_view species,
                           std::string_view method, int count, std::string_view spot);

std::string identity_words(const GraftCard& graft);

}  // namespace graftcast
