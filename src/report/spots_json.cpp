#include "json_parts.hpp"
#include "report/json_report.hpp"
#include "report/spots_report.hpp"
#include "words/spot_words.hpp"

namespace graftcast {

namespace {

Json climate_json(const Spot& spot) {
  if (!spot.climate) return nullptr;
  return {{"air_temperature_c", number(spot.climate->air_temperature_c, 2)},
          {"relative_humidity_pct", number(spot.climate->relative_humidity_pct, 1)}};
}

Json spot_json(const std::string& name, const Spot& spot) {
  Json horizon = Json::array();
  for (const Spot::HorizonPoint& point : spot.horizon)
    horizon.push_back({point.azimuth_deg, point.height_deg});
  return {{"name", name},
          {"sun", number(spot.sun_share, 3)},
          {"wind", number(spot.wind_share, 3)},
          {"rain", spot.rain},
          {"movable", spot.movable},
          {"sun_from_h", number(spot.sun_from_h, 2)},
          {"sun_to_h", number(spot.sun_to_h, 2)},
          {"horizon", std::move(horizon)},
          {"climate", climate_json(spot)}};
}

Json share_json(const FittedShare& share, const SpotFit& fit, const std::optional<double>& proposed) {
  return {{"value", number(share.value, 4)},
          {"standard_error", number(share.standard_error, 4)},
          {"told", share.is_told()},
          {"why_not", share.doubt ? Json(share_doubt_words(*share.doubt, fit)) : Json(nullptr)},
          {"proposed", number(proposed, 2)}};
}

Json learned_json(const SpotLearned& learned) {
  const SpotFit& fit = learned.fit;
  return {{"spot", learned.spot},
          {"sensor", sensor_surface_name(learned.surface)},
          {"absorptance", number(learned.sensor.absorptance, 3)},
          {"diameter_mm", number(1000 * learned.sensor.diameter_m, 2)},
          {"hours", fit.hours},
          {"sunny_hours", fit.sunny_hours},
          {"dark_hours", fit.dark_hours},
          {"wind_hours", fit.wind_hours},
          {"sun", share_json(fit.sun, fit, learned.proposed.sun)},
          {"wind", share_json(fit.wind, fit, learned.proposed.wind)},
          {"correlation", number(fit.correlation, 3)},
          {"sensor_offset_k", number(fit.sensor_offset_k, 3)},
          {"rmse_before_k", number(fit.rmse_before_k, 3)},
          {"rmse_after_k", number(fit.rmse_after_k, 3)},
          {"autocorrelation", number(fit.autocorrelation, 3)},
          {"effective_hours", number(fit.effective_hours, 1)},
          {"light_is_measured", fit.light_is_measured},
          {"written", learned.is_written}};
}

}  // namespace

Json spots_json(const SpotsReport& report, const ReportBasis& basis) {
  Json json = basis_json(basis);
  json["spots"] = Json::array();
  for (const auto& [name, spot] : report.spots) json["spots"].push_back(spot_json(name, spot));
  json["learned"] = report.learned ? learned_json(*report.learned) : Json(nullptr);
  return json;
}

}  // namespace graftcast
