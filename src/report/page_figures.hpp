#pragma once
// The three charts of a graft, each with its answer in words and its table (private to the layer).

#include <optional>
#include <span>
#include <string>

#include "page_days.hpp"
#include "report/terminal_style.hpp"

namespace graftcast {

/// What the charts of one graft are made from.
struct ChartedGraft {
  const GraftSince& graft;
  const PageLevels& levels;
  std::span<const ChartDay> days;  ///< Not empty.
  LocalDay today{};
  std::optional<LocalDay> forecast_until;  ///< Last day that a forecast tells of.
  const TerminalStyle& style;
};

/// In the unit of the page.
double page_temperature(const TerminalStyle& style, double temperature_c);

std::string heat_figure(const ChartedGraft& of);     ///< How hot was it, and how hot will it be?
std::string water_figure(const ChartedGraft& of);    ///< How dry?
std::string healing_figure(const ChartedGraft& of);  ///< How far is the union?

}  // namespace graftcast
