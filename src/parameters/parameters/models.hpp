#pragma once
// models/*.json: every constant with a physical or biological meaning, with unit, range, source and grade.

#include <array>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include "parameters/advice_constants.hpp"
#include "parameters/cover.hpp"
#include "parameters/ensemble_constants.hpp"
#include "parameters/hazards.hpp"
#include "parameters/known_names.hpp"
#include "parameters/learned.hpp"
#include "parameters/method.hpp"
#include "parameters/plant_constants.hpp"
#include "parameters/species.hpp"

namespace graftcast {

/// The whole set. A new group of constants is a struct with its table, a member here, and a place in
/// `hazards_of` or `shared_of` (sections.hpp).
struct Models {
  std::map<std::string, Species> species;
  std::map<std::string, Method> methods;
  std::map<std::string, Cover> covers;
  std::map<std::string, Wrap> wraps;
  std::map<std::string, ScionState> scion_states;
  /// By the name in a species' word `cold_table`; rows begin at B = 0 and rise.
  std::map<std::string, std::vector<ColdRow>> cold_tables;

  HeatDay heat_day;
  DryingDay drying_day;
  ColdDay cold_day;
  MouldDay mould_day;
  SoakedDay soaked_day;
  WindDay wind_day;
  UrgencyLimits urgency;
  HeatIndexLimits heat_index;
  std::array<SignChances, 7> signs{
      SignChances("shrivelled"), SignChances("wilted"), SignChances("blackened"),  SignChances("mould"),
      SignChances("bleeding"),   SignChances("callus"), SignChances("buds-moving")};
  CautionTexts cautions;

  ClimateConstants climate;
  WaterConstants water;
  HealingConstants healing;
  BudConstants buds;
  HeatConstants heat;
  StoresConstants stores;
  StockConstants stock;
  ForecastConstants forecast;
  ObservationConstants observation;
  ActionConstants actions;
  LearningConstants learning;
  WhenConstants when;
  ClimateCourseConstants monthly_climate;
  SpotFitConstants spots;
  WhyConstants why;
  WoodConstants wood;
  RegraftConstants regraft;
  AftercareConstants aftercare;

  Learned learned;  ///< Of the site's own results; empty for the published numbers alone.

  /// Error of both: DataError with the nearest names.
  const Species& species_named(std::string_view name) const;
  const Method& method_named(std::string_view name) const;
  /// The sign that a note of `event` is, null for an event that is none.
  const SignChances* sign_of(std::string_view event) const;
  KnownNames known_names() const;
};

/// A section of models/*.json: `species` ... `shared`, with its entries by name.
struct ModelSection {
  std::string_view name;
  std::map<std::string_view, const Entry*> entries;
};
/// All sections but the cold tables, in the order in which they are shown.
std::vector<ModelSection> sections_of(const Models& models);

/// Reads models/*.json of `published` and, when given and there, the owner's own files in `own` (same
/// layout). An owner's entry of a known name replaces single keys; a new one gives all keys, or takes them
/// from the entry that its `"like"` names. A value replaced without a source counts as the owner's, grade C;
/// the rest of the number stays. Afterwards every entry has every key of its section, every number lies in
/// its range and unit, and every name of a cold table, wrap or cover is known. Errors: OpenError, DataError
/// (place, nearest key).
Models load_models(const std::filesystem::path& published,
                   const std::optional<std::filesystem::path>& own = std::nullopt);

/// All of `models` in the layout of models/*.json, so that load_models reads it back to the same.
nlohmann::json models_to_json(const Models& models);

/// Folder of the installed or source models: $GRAFTCAST_MODELS, else beside the program, else the source
/// tree.
std::filesystem::path published_models_folder();

}  // namespace graftcast
