#pragma once
// How sunny and windy each spot is, and what a thermometer in one of them tells.

#include <map>
#include <optional>
#include <string>

#include <nlohmann/json_fwd.hpp>

#include "ensemble/spot_fit.hpp"
#include "records/site.hpp"
#include "records/spot_shares.hpp"
#include "report/report_basis.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// What was learned of one spot.
struct SpotLearned {
  std::string spot;
  std::string sensor_word;  ///< `bark`, `black`.
  SpotSensor sensor;
  SpotFit fit;
  SpotShares proposed;      ///< What the log tells.
  bool is_written = false;  ///< They stand in site.json now.
};

struct SpotsReport {
  std::map<std::string, Spot> spots;  ///< As site.json had them.
  std::optional<SpotLearned> learned;
};

/// The spots as a table, or what was learned of one.
std::string spots_text(const SpotsReport& report, const ReportBasis& basis, const TerminalStyle& style);
nlohmann::ordered_json spots_json(const SpotsReport& report, const ReportBasis& basis);

}  // namespace graftcast
