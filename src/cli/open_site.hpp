#pragma once
// The site that the options name, and the form of an answer.

#include <functional>
#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "app/open_site.hpp"
#include "global_options.hpp"
#include "report/report_basis.hpp"

namespace graftcast::cli {

AskSettings ask_settings(const GlobalOptions& options);

/// The site that `options` names, at the moment they name. Errors: those of graftcast::open_site, UsageError.
OpenSite open_site(const GlobalOptions& options);

/// The basis of an answer of `command`: place, moment, ensemble; weather and warnings are the caller's to
/// add.
ReportBasis basis_of(std::string command, const OpenSite& open, const GlobalOptions& options);
/// The same without a site.
ReportBasis basis_of(std::string command, const GlobalOptions& options);

void append(std::vector<std::string>& lines, const std::vector<std::string>& more);

/// `json` as it is printed.
std::string dumped(const nlohmann::ordered_json& json);

/// An answer: `json` with --json, else `text`, with the warnings beside it.
Answer answered(const GlobalOptions& options, const ReportBasis& basis,
                const std::function<nlohmann::ordered_json()>& json,
                const std::function<std::string()>& text);

}  // namespace graftcast::cli
