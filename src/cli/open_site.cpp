#include "open_site.hpp"

#include <nlohmann/json.hpp>

namespace graftcast::cli {

AskSettings ask_settings(const GlobalOptions& options) {
  return {options.hindsight, options.seed, options.members, threads_of(options)};
}

OpenSite open_site(const GlobalOptions& options) {
  return graftcast::open_site(
      options.site, [&](const Clock& clock) { return moment_of(options, clock); }, ask_settings(options));
}

ReportBasis basis_of(std::string command, const GlobalOptions& options) {
  ReportBasis basis;
  basis.command = std::move(command);
  basis.as_of = moment_of(options, Clock("UTC"));
  basis.seed = options.seed;
  basis.members = options.members;
  return basis;
}

ReportBasis basis_of(std::string command, const OpenSite& open, const GlobalOptions& options) {
  ReportBasis basis;
  basis.command = std::move(command);
  basis.as_of = open.as_of;
  basis.site = open.site.name;
  basis.clock = open.clock;
  basis.seed = options.seed;
  basis.members = options.members;
  return basis;
}

void append(std::vector<std::string>& lines, const std::vector<std::string>& more) {
  lines.insert(lines.end(), more.begin(), more.end());
}

std::string dumped(const nlohmann::ordered_json& json) {
  return json.dump(1, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + '\n';
}

Answer answered(const GlobalOptions& options, const ReportBasis& basis,
                const std::function<nlohmann::ordered_json()>& json,
                const std::function<std::string()>& text) {
  if (options.json) return {dumped(json()), {}, 0};
  return {text(), basis.warnings, 0};
}

}  // namespace graftcast::cli
