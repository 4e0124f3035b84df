#include "parameters/ensemble_constants.hpp"

#include "key_table.hpp"

namespace graftcast {

namespace {

using Forecast = ForecastConstants;
constexpr auto forecast_numbers = std::to_array<NumberRow>({
    number<&Forecast::temperature_sd_start>("K", "error of temperature (sd) at the start of a forecast"),
    number<&Forecast::temperature_sd_per_day>("K d-1", "by which it grows with lead"),
    above_zero<&Forecast::temperature_sd_limit>("K", "where it ends"),
    number<&Forecast::hourly_correlation>("1", "of errors from hour to hour"),
    number<&Forecast::dew_point_correlation>("1", "of errors of dew point with those of temperature"),
    number<&Forecast::ln_wind_sd>("1", "error of wind (sd of the logarithm)"),
    number<&Forecast::radiation_sd_start>("1", "error of radiation (sd of the factor) at the start"),
    number<&Forecast::radiation_sd_per_day>("d-1", "by which it grows with lead"),
    number<&Forecast::radiation_sd_limit>("1", "where it ends"),
});

using Observing = ObservationConstants;
constexpr auto observation_numbers = std::to_array<NumberRow>({
    number<&Observing::callus_healing>("1", "healing at which half would note callus"),
    above_zero<&Observing::callus_sd>("1", "scatter of that"),
    above_zero<&Observing::bud_sd>("1", "scatter of the bud clock at which buds are called moving"),
    number<&Observing::leaf_share>("share", "of the first leaves at which half would call it leafed out"),
    above_zero<&Observing::leaf_sd>("1", "scatter of that"),
    number<&Observing::wilt_water>("1", "share of the full store at which half would note wilting"),
    above_zero<&Observing::wilt_sd>("1", "scatter of that"),
    number<&Observing::shrivel_water>("1", "share of the full store at which half would note shrivelling"),
    above_zero<&Observing::shrivel_sd>("1", "scatter of that"),
    number<&Observing::reliability>("share", "of notes that are not mistaken"),
});

using Learning = LearningConstants;
constexpr auto learning_numbers = std::to_array<NumberRow>({
    above_zero<&Learning::pace_sd>("1", "by which the pace of healing may differ here (sd of the logarithm)"),
    above_zero<&Learning::drying_sd>("1", "by which drying may differ (sd of the logarithm)"),
    above_zero<&Learning::failure_sd>("1", "by which plain failure may differ (sd of the logit)"),
    above_zero<&Learning::least_outcomes>("1", "grafts taken or lost below which nothing is learned"),
});

using Course = ClimateCourseConstants;
constexpr auto monthly_climate_numbers = std::to_array<NumberRow>({
    above_zero<&Course::least_days>("d", "of a month in the log below which its neighbours help"),
    number<&Course::dew_point_with_minimum>("share", "correlation of dew point with the lowest temperature"),
    number<&Course::dew_point_persistence>("share", "of the rest of dew point, from day to day"),
    number<&Course::wind_with_minimum>("share", "correlation of ln wind with the lowest temperature"),
    number<&Course::wind_persistence>("share", "of the rest of ln wind, from day to day"),
});

using SpotFitting = SpotFitConstants;
constexpr auto spots_numbers = std::to_array<NumberRow>({
    above_zero<&SpotFitting::black_absorptance>("share", "of short wave, a thermometer painted black"),
    above_zero<&SpotFitting::sensor_diameter_mm>("mm", "of a thermometer, where none is given"),
    above_zero<&SpotFitting::sunny_w_m2>("W m-2", "in the open, from which an hour tells of the sun"),
    above_zero<&SpotFitting::least_hours>("h", "that tell, below which a share is not fitted"),
    above_zero<&SpotFitting::told_sun_se>("share", "greatest standard error of a sun share that is proposed"),
    above_zero<&SpotFitting::told_wind_se>("share",
                                           "greatest standard error of a wind share that is proposed"),
    above_zero<&SpotFitting::guessed_wind_sd>("share", "error of a wind share that is guessed"),
});

}  // namespace

constinit const KeyTable ForecastConstants::table{"forecast", forecast_numbers};
constinit const KeyTable ObservationConstants::table{"observation", observation_numbers};
constinit const KeyTable LearningConstants::table{"learning", learning_numbers};
constinit const KeyTable ClimateCourseConstants::table{"monthly-climate", monthly_climate_numbers};
constinit const KeyTable SpotFitConstants::table{"spots", spots_numbers};

}  // namespace graftcast
