// Stored answers of services: structure as the services send it, values invented.

#include <gmock/gmock.h>

#include <cmath>
#include <limits>

#include "graftcast/air.hpp"
#include "services_cases.hpp"
#include "weather/resample.hpp"

namespace graftcast {
namespace {

using testing::at;
using testing::block_with;
using testing::channel;
using testing::complaint_of;
using ::testing::DoubleNear;
using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using ::testing::NanSensitiveDoubleEq;
using testing::note;
using ::testing::Pointwise;
using testing::replaced;
using testing::service_fixture;
using testing::terrace;

constexpr double nan = std::numeric_limits<double>::quiet_NaN();
const AnswerOrigin saved{"answer.json", at("2025-06-09T04:02:00Z"), ""};
/// FAO-56 eq. 47 (Allen et al. 1998; recalled): u2 = u10 * 4.87 / ln(67.8 * 10 - 5.42).
const double wind_factor = 4.87 / std::log(67.8 * 10 - 5.42);

std::vector<double> values(const Readings& readings, Quantity quantity, Kind kind) {
  return channel(readings, quantity, kind).value;
}

// ---- MET Norway ----

TEST(MetNorway, ValuesHoldAtTheirTime) {
  const ServiceAnswer answer = read_met_norway(service_fixture("met_norway_complete.json"), terrace, saved);
  const Readings& readings = answer.readings;
  EXPECT_TRUE(readings.is_forecast);
  EXPECT_EQ(readings.made_at, at("2025-06-09T03:37:12Z"));
  EXPECT_THAT(readings.credit, HasSubstr("Data from MET Norway"));
  EXPECT_NEAR(answer.place.value().latitude_deg, 41.2, 1e-12);  // The answer has the longitude first.
  const Block& block = readings.blocks.at(0);
  EXPECT_EQ(block.spans.front(), (Span{at("2025-06-09T04:00:00Z"), at("2025-06-09T04:00:00Z")}));
  EXPECT_THAT(channel(readings, Quantity::air_temperature, Kind::instant).value,
              ElementsAre(14, 15.2, 17, 19.1, 21));
  EXPECT_NEAR(values(readings, Quantity::wind_speed, Kind::instant)[0], 2.0 * wind_factor, 1e-12);
}

TEST(MetNorway, PressureIsBroughtFromSeaLevelToTheSite) {
  const ServiceAnswer answer = read_met_norway(service_fixture("met_norway_complete.json"), terrace, saved);
  // FAO-56 eq. 7 (recalled): 101.3 ((293 - 0.0065 z) / 293)^5.26.
  const double factor = std::pow((293 - 0.0065 * 260) / 293, 5.26);
  EXPECT_NEAR(values(answer.readings, Quantity::pressure, Kind::instant)[0], 101.5 * factor, 1e-9);
}

TEST(MetNorway, HourlyAndSixHourlyInstantsAreJoinedEachAtTheirOwnStep) {
  const ServiceAnswer answer = read_met_norway(service_fixture("met_norway_complete.json"), terrace, saved);
  ASSERT_GE(answer.readings.blocks.size(), 2U);
  EXPECT_EQ(answer.readings.blocks[0].spans.back().begin, at("2025-06-09T08:00:00Z"));
  const QuantityHours made = resample(answer.readings, terrace);
  const auto& air = made[Quantity::air_temperature];
  // Every hour from 04 to the hour of the last instant is known, those between the six-hourly ones as filled.
  for (std::size_t k = 0; k <= 20; ++k) EXPECT_NE(air.origin[k], Origin::missing) << k;
  EXPECT_EQ(air.origin[0], Origin::forecast);
  EXPECT_EQ(air.origin[10], Origin::filled);
  EXPECT_NEAR(air.value[0], 14.6, 1e-9);
}

TEST(MetNorway, RainIsOfTheHourAheadAndNeverOfOverlappingSixHours) {
  const ServiceAnswer answer = read_met_norway(service_fixture("met_norway_complete.json"), terrace, saved);
  const Block& block = block_with(answer.readings, Quantity::precipitation, Kind::sum);
  EXPECT_THAT(block.channels.at(0).value, ElementsAre(0, 0.5, 1.0, 0, 0, 6.0, 0.6));
  EXPECT_EQ(block.spans[1], (Span{at("2025-06-09T05:00:00Z"), at("2025-06-09T06:00:00Z")}));
  EXPECT_EQ(block.spans[5], (Span{at("2025-06-09T12:00:00Z"), at("2025-06-09T18:00:00Z")}));
  EXPECT_EQ(block.spans[6], (Span{at("2025-06-09T18:00:00Z"), at("2025-06-10T00:00:00Z")}));
}

TEST(MetNorway, SixHourlyExtremesAndGustsAreTaken) {
  const Readings readings =
      read_met_norway(service_fixture("met_norway_complete.json"), terrace, saved).readings;
  const Block& block = block_with(readings, Quantity::air_temperature, Kind::maximum);
  EXPECT_EQ(block.spans[5], (Span{at("2025-06-09T12:00:00Z"), at("2025-06-09T18:00:00Z")}));
  EXPECT_EQ(values(readings, Quantity::air_temperature, Kind::maximum)[5], 32.5);
  EXPECT_EQ(values(readings, Quantity::air_temperature, Kind::minimum)[5], 25.0);
  EXPECT_NEAR(values(readings, Quantity::gust, Kind::maximum)[0], 4.0 * wind_factor, 1e-12);
  EXPECT_TRUE(std::isnan(values(readings, Quantity::gust, Kind::maximum)[1]));
}

TEST(MetNorway, AnAbsentOrNullFieldIsAMissingValue) {
  const std::string text = replaced(service_fixture("met_norway_complete.json"), "\"air_temperature\": 15.2",
                                    "\"air_temperature\": null");
  const auto air =
      values(read_met_norway(text, terrace, saved).readings, Quantity::air_temperature, Kind::instant);
  EXPECT_TRUE(std::isnan(air[1]));
  EXPECT_EQ(air[2], 17);
}

TEST(MetNorway, TheUnitIsReadAndNotAssumed) {
  const std::string text = service_fixture("met_norway_complete.json");
  const std::string fahrenheit =
      replaced(text, "\"air_temperature\": \"celsius\"", "\"air_temperature\": \"degF\"");
  EXPECT_NEAR(values(read_met_norway(fahrenheit, terrace, saved).readings, Quantity::air_temperature,
                     Kind::instant)[0],
              -10.0, 1e-9);
  const std::string odd = replaced(text, "\"wind_speed\": \"m/s\"", "\"wind_speed\": \"furlong\"");
  EXPECT_THAT(complaint_of([&] { read_met_norway(odd, terrace, saved); }), HasSubstr("furlong"));
  const std::string wrong = replaced(text, "\"wind_speed\": \"m/s\"", "\"wind_speed\": \"hPa\"");
  EXPECT_THAT(complaint_of([&] { read_met_norway(wrong, terrace, saved); }), HasSubstr("a pressure"));
  const std::string none = replaced(text, "\"wind_speed\": \"m/s\",", "");
  EXPECT_THAT(complaint_of([&] { read_met_norway(none, terrace, saved); }), HasSubstr("/units/wind_speed"));
}

TEST(MetNorway, WhatCannotBeIsSetAsideWithANote) {
  const std::string text = replaced(service_fixture("met_norway_complete.json"), "\"air_temperature\": 15.2",
                                    "\"air_temperature\": 152");
  const Readings readings = read_met_norway(text, terrace, saved).readings;
  EXPECT_TRUE(std::isnan(values(readings, Quantity::air_temperature, Kind::instant)[1]));
  EXPECT_EQ(note(readings.notes, "beyond-limits").count, 1U);
  EXPECT_THAT(note(readings.notes, "beyond-limits").examples, ElementsAre("2025-06-09T05:00:00Z: 152 degC"));
}

TEST(MetNorway, OddStructureIsRefusedWithItsPlace) {
  const std::string text = service_fixture("met_norway_complete.json");
  const auto refusal = [&](std::string_view from, std::string_view to) {
    return complaint_of([&] { read_met_norway(replaced(text, from, to), terrace, saved); });
  };
  EXPECT_THAT(refusal("\"2025-06-09T05:00:00Z\"", "\"2025-06-09T05:00:00\""),
              HasSubstr("is not a time with its offset"));
  EXPECT_THAT(refusal("\"2025-06-09T05:00:00Z\"", "\"2025-06-09T04:00:00Z\""), HasSubstr("do not rise"));
  EXPECT_THAT(refusal("\"2025-06-09T05:00:00Z\"", "5"), HasSubstr("answer.json:"));
  EXPECT_THAT(refusal("\"air_temperature\": 15.2", "\"air_temperature\": \"15.2\""),
              HasSubstr("not a number"));
  EXPECT_THAT(refusal("\"updated_at\": \"2025-06-09T03:37:12Z\"", "\"updated_at\": \"\""), HasSubstr("time"));
  EXPECT_THAT(refusal("\"timeseries\"", "\"timeseriez\""), HasSubstr("/properties/timeseries is not there"));
  EXPECT_THAT(refusal("2025-06-10T00:00:00Z", "2035-06-10T00:00:00Z"), HasSubstr("longer than any"));
}

// ---- National Weather Service ----

const Location delta{38.01, -121.5, 5};

TEST(Nws, AValueHoldsForEachHourOfItsInterval) {
  const ServiceAnswer answer = read_nws_gridpoint(service_fixture("nws_gridpoint.json"), delta, saved);
  const Readings& readings = answer.readings;
  EXPECT_EQ(readings.made_at, at("2024-05-01T02:54:57Z"));
  const Block& block = block_with(readings, Quantity::air_temperature, Kind::mean);
  ASSERT_EQ(block.spans.size(), 1U + 3U + 25U);  // PT1H, PT3H, P1DT1H.
  EXPECT_EQ(block.spans[3], (Span{at("2024-04-30T23:00:00Z"), at("2024-05-01T00:00:00Z")}));
  EXPECT_NEAR(block.channels[0].value[3], 25.5555555556, 1e-9);
  const auto hour = resample(readings, delta)[Quantity::air_temperature];
  EXPECT_EQ(std::count(hour.origin.begin(), hour.origin.end(), Origin::forecast), 29);
  EXPECT_NEAR(answer.place.value().latitude_deg, 38.012, 1e-9);  // Of the five corners the first comes twice.
}

TEST(Nws, UnitsAreReadBehindTheirNamespace) {
  const Readings readings = read_nws_gridpoint(service_fixture("nws_gridpoint.json"), delta, saved).readings;
  EXPECT_NEAR(values(readings, Quantity::wind_speed, Kind::mean)[0], 14.816 / 3.6 * wind_factor, 1e-12);
  EXPECT_NEAR(values(readings, Quantity::gust, Kind::maximum)[0], 27.78 / 3.6 * wind_factor, 1e-12);
  EXPECT_NEAR(values(readings, Quantity::dew_point, Kind::mean)[4], 8.8888888889, 1e-9);
}

TEST(Nws, RainIsASumOverItsBlock) {
  const Readings readings = read_nws_gridpoint(service_fixture("nws_gridpoint.json"), delta, saved).readings;
  const Block& block = block_with(readings, Quantity::precipitation, Kind::sum);
  EXPECT_THAT(block.channels[0].value, ElementsAre(0, 1.27));
  EXPECT_EQ(block.spans[1], (Span{at("2024-05-01T00:00:00Z"), at("2024-05-01T06:00:00Z")}));
  double total = 0;
  const QuantityHours hours = resample(readings, delta);
  for (const double value : hours[Quantity::precipitation].value) total += std::isnan(value) ? 0 : value;
  EXPECT_NEAR(total, 1.27, 1e-12);
}

TEST(Nws, ExtremesKeepTheirWholeInterval) {
  const Readings readings = read_nws_gridpoint(service_fixture("nws_gridpoint.json"), delta, saved).readings;
  const Block& block = block_with(readings, Quantity::air_temperature, Kind::maximum);
  EXPECT_EQ(block.spans[1].end - block.spans[1].begin, std::chrono::hours(13));
  EXPECT_EQ(block.channels[0].value[1], 28);
}

TEST(Nws, NullIsAMissingValueAndAnEmptyLayerIsNone) {
  const Readings readings = read_nws_gridpoint(service_fixture("nws_gridpoint.json"), delta, saved).readings;
  EXPECT_THAT(values(readings, Quantity::relative_humidity, Kind::mean),
              ElementsAre(38, NanSensitiveDoubleEq(nan), NanSensitiveDoubleEq(nan)));
  EXPECT_THROW(channel(readings, Quantity::pressure, Kind::mean), std::runtime_error);
}

TEST(Nws, IntervalsInEveryFormAreRead) {
  const std::string text = service_fixture("nws_gridpoint.json");
  const auto span_of = [&](const std::string& interval) {
    const std::string changed = replaced(text, "2024-04-30T20:00:00+00:00/PT4H\",\n", interval + "\",\n");
    return block_with(read_nws_gridpoint(changed, delta, saved).readings, Quantity::cloud_cover, Kind::mean)
        .spans.front();
  };
  EXPECT_EQ(span_of("2024-04-30T20:00:00+00:00/2024-04-30T20:30:00+00:00"),
            (Span{at("2024-04-30T20:00:00Z"), at("2024-04-30T20:30:00Z")}));
  EXPECT_EQ(span_of("PT45M/2024-04-30T21:00:00+00:00"),
            (Span{at("2024-04-30T20:15:00Z"), at("2024-04-30T21:00:00Z")}));
  EXPECT_EQ(span_of("NOW/PT1H"), (Span{at("2024-05-01T02:54:57Z"), at("2024-05-01T03:54:57Z")}));
  EXPECT_EQ(span_of("2024-04-30T13:00:00-07:00/PT1H").begin, at("2024-04-30T20:00:00Z"));
}

TEST(Nws, WhatIsNoIntervalIsRefusedWithItsPlace) {
  const std::string text = service_fixture("nws_gridpoint.json");
  for (const char* const wrong :
       {"2024-04-30T20:00:00+00:00", "2024-04-30T20:00:00/PT4H", "2024-04-30T20:00:00+00:00/P1M", "/",
        "2024-04-30T20:00:00+00:00/PT", "2024-04-30T20:00:00+00:00/PT0H", "2024-04-30T20:00:00+00:00/PT4",
        "2024-04-30T20:00:00+00:00/P99999999999D", "2024-04-30T20:00:00+00:00/2024-04-30T19:00:00+00:00"}) {
    const std::string changed = replaced(text, "2024-04-30T20:00:00+00:00/PT4H", wrong);
    EXPECT_THAT(complaint_of([&] { read_nws_gridpoint(changed, delta, saved); }),
                HasSubstr("is not an interval"))
        << wrong;
  }
}

TEST(Nws, ALayerThatWouldFillTheMemoryIsRefused) {
  const std::string text = replaced(service_fixture("nws_gridpoint.json"), "2024-05-01T00:00:00+00:00/P1DT1H",
                                    "2024-05-01T00:00:00+00:00/P390D");
  EXPECT_THAT(complaint_of([&] { read_nws_gridpoint(text, delta, saved); }), HasSubstr("longer than any"));
}

TEST(Nws, AnErrorOfTheServiceIsNoForecast) {
  const std::string problem =
      R"({"correlationId":"x","title":"Forecast Grid Expired","type":"https://api.weather.gov/problems/ForecastGridExpired","status":503,"detail":"grid XYZ/41,67 has expired"})";
  EXPECT_THAT(complaint_of([&] { read_nws_gridpoint(problem, delta, saved); }), HasSubstr("updateTime"));
}

// ---- Open-Meteo ----

const Location orange{-33.3, 149.1, 862};

TEST(OpenMeteo, TimesAreUtcPlusOneConstantOffset) {
  const ServiceAnswer answer =
      read_open_meteo(service_fixture("open_meteo_forecast.json"), orange, saved, true);
  const Block& block = block_with(answer.readings, Quantity::air_temperature, Kind::instant);
  EXPECT_EQ(block.spans.front().begin, at("2024-11-30T21:00:00Z"));
  EXPECT_EQ(block.spans.size(), 4U);
  EXPECT_EQ(answer.readings.made_at, saved.received_at);
}

TEST(OpenMeteo, RadiationAndRainAreOfTheHourBefore) {
  const Readings readings =
      read_open_meteo(service_fixture("open_meteo_forecast.json"), orange, saved, true).readings;
  const Block& block = block_with(readings, Quantity::shortwave, Kind::mean);
  EXPECT_EQ(block.spans.front(), (Span{at("2024-11-30T20:00:00Z"), at("2024-11-30T21:00:00Z")}));
  EXPECT_THAT(values(readings, Quantity::shortwave, Kind::mean),
              ElementsAre(300, 480, 655, NanSensitiveDoubleEq(nan)));
  EXPECT_THAT(values(readings, Quantity::precipitation, Kind::sum),
              ElementsAre(0, 0.2, 0, NanSensitiveDoubleEq(nan)));
  const QuantityHours made = resample(readings, orange);
  EXPECT_EQ(made.start, std::chrono::floor<std::chrono::hours>(at("2024-11-30T20:00:00Z")));
  EXPECT_EQ(made[Quantity::shortwave].value[1], 480);
}

TEST(OpenMeteo, WindDefaultsToKilometresAnHourAndPressureHereBeatsThatOfTheSea) {
  const Readings readings =
      read_open_meteo(service_fixture("open_meteo_forecast.json"), orange, saved, true).readings;
  EXPECT_NEAR(values(readings, Quantity::wind_speed, Kind::instant)[1], 3.0 * wind_factor, 1e-12);
  EXPECT_NEAR(values(readings, Quantity::gust, Kind::maximum)[2], 10.0 * wind_factor, 1e-12);
  EXPECT_NEAR(values(readings, Quantity::pressure, Kind::instant)[0], 91.52, 1e-9);
}

TEST(OpenMeteo, DailyValuesAreOfTheDayAtTheConstantOffset) {
  const Readings readings =
      read_open_meteo(service_fixture("open_meteo_forecast.json"), orange, saved, true).readings;
  const Block& block = block_with(readings, Quantity::air_temperature, Kind::maximum);
  EXPECT_EQ(block.spans[0], (Span{at("2024-11-30T13:00:00Z"), at("2024-12-01T13:00:00Z")}));
  EXPECT_THAT(values(readings, Quantity::air_temperature, Kind::maximum),
              ElementsAre(27.1, NanSensitiveDoubleEq(nan)));
  EXPECT_THAT(values(readings, Quantity::shortwave, Kind::sum), ElementsAre(28.9, 14.4));
}

TEST(OpenMeteo, UnixTimesAreTrueUtcWhateverTheOffset) {
  std::string text = replaced(service_fixture("open_meteo_ensemble.json"), "\"utc_offset_seconds\":0",
                              "\"utc_offset_seconds\":39600");
  const Readings readings = read_open_meteo(text, terrace, saved, true).readings;
  EXPECT_EQ(block_with(readings, Quantity::air_temperature, Kind::instant).spans[0].begin,
            at("2025-06-09T04:00:00Z"));
}

TEST(OpenMeteo, MembersOfAnEnsembleAreCoursesOfTheirOwn) {
  const ServiceAnswer answer =
      read_open_meteo(service_fixture("open_meteo_ensemble.json"), terrace, saved, true);
  EXPECT_THAT(values(answer.readings, Quantity::air_temperature, Kind::instant),
              Pointwise(DoubleNear(1e-9), {10.0, 15.0, 20.0}));
  ASSERT_EQ(answer.members.size(), 2U);
  EXPECT_NEAR(values(answer.members[0], Quantity::air_temperature, Kind::instant)[0], 11, 1e-9);
  EXPECT_TRUE(std::isnan(values(answer.members[0], Quantity::air_temperature, Kind::instant)[2]));
  EXPECT_NEAR(values(answer.members[0], Quantity::precipitation, Kind::sum)[1], 0.2 * 25.4, 1e-9);
  EXPECT_NEAR(values(answer.members[1], Quantity::wind_speed, Kind::instant)[0], 20 * 0.44704 * wind_factor,
              1e-9);
  EXPECT_EQ(answer.members[1].made_at, answer.readings.made_at);
}

TEST(OpenMeteo, WithoutAControlRunTheMeanOfTheMembersStandsIn) {
  std::string text = service_fixture("open_meteo_ensemble.json");
  for (const char* const name : {"\"temperature_2m\"", "\"temperature_2m\"", "\"precipitation\"",
                                 "\"precipitation\"", "\"wind_speed_10m\"", "\"wind_speed_10m\""})
    text = replaced(text, name, "\"x\"");
  text = replaced(text, "\"x\":\"inch\"", "\"y\":1");  // Keys must differ where a fault is looked for.
  const ServiceAnswer answer = read_open_meteo(text, terrace, saved, true);
  EXPECT_THAT(values(answer.readings, Quantity::air_temperature, Kind::instant),
              Pointwise(DoubleNear(1e-9), {10.0, 15.0, 19.0}));  // The last of the one member that has it.
  EXPECT_EQ(answer.members.size(), 2U);
  EXPECT_EQ(note(answer.readings.notes, "ensemble-mean").count, 1U);
}

TEST(OpenMeteo, MembersOfSeveralModelsAreToldApart) {
  const std::string text = R"({"latitude":41.25,"longitude":-7.5,"utc_offset_seconds":0,
    "hourly_units":{"time":"unixtime","temperature_2m_alpha":"°C","temperature_2m_member01_alpha":"°C","temperature_2m_beta":"°C","temperature_2m_member01_beta":"°C","precipitation_probability":"%"},
    "hourly":{"time":[1749441600],"temperature_2m_alpha":[10],"temperature_2m_member01_alpha":[11],"temperature_2m_beta":[12],"temperature_2m_member01_beta":[13],"precipitation_probability":[50]}})";
  const ServiceAnswer answer = read_open_meteo(text, terrace, saved, true);
  EXPECT_THAT(values(answer.readings, Quantity::air_temperature, Kind::instant), ElementsAre(10));
  EXPECT_EQ(answer.members.size(), 3U);
  EXPECT_THROW(channel(answer.readings, Quantity::precipitation, Kind::sum), std::runtime_error);
}

TEST(OpenMeteo, AnArchiveIsPastWeatherAndNoForecast) {
  const ServiceAnswer answer = read_open_meteo(service_fixture("open_meteo_archive.csv"), terrace,
                                               {"archive.csv", std::nullopt, ""}, false);
  EXPECT_FALSE(answer.readings.is_forecast);
  EXPECT_FALSE(answer.readings.made_at);
}

TEST(OpenMeteo, CsvHasSectionsAndAnOffsetThatNeedNotBelongToThePlace) {
  const Readings readings =
      read_open_meteo(service_fixture("open_meteo_archive.csv"), terrace, saved, false).readings;
  const Block& instants = block_with(readings, Quantity::air_temperature, Kind::instant);
  EXPECT_EQ(instants.spans[0].begin, at("2020-03-28T15:00:00Z"));
  // Europe's clocks went forward that night; the file knows nothing of it.
  EXPECT_EQ(instants.spans[2].begin - instants.spans[0].begin, std::chrono::hours(2));
  EXPECT_NEAR(values(readings, Quantity::wind_speed, Kind::instant)[0], 5 * wind_factor, 1e-12);
  EXPECT_THAT(values(readings, Quantity::precipitation, Kind::sum).size(), 3U);
  EXPECT_EQ(block_with(readings, Quantity::air_temperature, Kind::minimum).spans[1],
            (Span{at("2020-03-29T15:00:00Z"), at("2020-03-30T15:00:00Z")}));
}

TEST(OpenMeteo, CsvThatLostItsOffsetNeedsAFixedOne) {
  std::string text = service_fixture("open_meteo_archive.csv");
  text = "\n" + text.substr(text.find("time,"));
  const auto begin = [&](const std::string& zone) {
    return block_with(read_open_meteo(text, terrace, {"cut.csv", std::nullopt, zone}, false).readings,
                      Quantity::air_temperature, Kind::instant)
        .spans[0]
        .begin;
  };
  EXPECT_EQ(begin(""), at("2020-03-29T00:00:00Z"));
  EXPECT_EQ(begin("+09:00"), at("2020-03-28T15:00:00Z"));
  EXPECT_EQ(begin("UTC"), at("2020-03-29T00:00:00Z"));
  EXPECT_THROW(begin("Europe/Lisbon"), DataError);
  const auto notes = read_open_meteo(text, terrace, {"cut.csv", std::nullopt, ""}, false).readings.notes;
  EXPECT_EQ(note(notes, "offset-assumed").count, 1U);
}

TEST(OpenMeteo, BadCsvIsRefusedWithItsPlace) {
  const std::string text = service_fixture("open_meteo_archive.csv");
  const auto refusal = [&](std::string_view from, std::string_view to) {
    return complaint_of([&] {
      read_open_meteo(replaced(text, from, to), terrace, {"a.csv", std::nullopt, ""}, false);
    });
  };
  EXPECT_THAT(refusal("5.7,82", "5.x,82"), HasSubstr("a.csv:5:18"));
  EXPECT_THAT(refusal("5.7,82,", "5.7,"), HasSubstr("6 fields below 7 headers"));
  EXPECT_THAT(refusal("32400", "999999"), HasSubstr("offset"));
  EXPECT_THAT(refusal("2020-03-29T01:00", "2020-03-29T00:00"), HasSubstr("do not rise"));
  EXPECT_THAT(refusal("(km/h)", "(parsec)"), HasSubstr("parsec"));
  EXPECT_THAT(refusal("latitude,", "location_id,latitude,"), HasSubstr("several places"));
}

TEST(OpenMeteo, TheServicesOwnErrorIsShown) {
  const std::string refused =
      R"({"error":true,"reason":"Cannot initialize from invalid String value tempeture_2m"})";
  EXPECT_THAT(complaint_of([&] { read_open_meteo(refused, terrace, saved, true); }),
              HasSubstr("tempeture_2m"));
  const std::string broken = service_fixture("open_meteo_forecast.json").substr(0, 900) +
                             "Unexpected error while streaming data: connection lost";
  EXPECT_THAT(complaint_of([&] { read_open_meteo(broken, terrace, saved, true); }), HasSubstr("broke off"));
}

TEST(OpenMeteo, SeveralPlacesAreRefusedAndAListOfOneIsRead) {
  const std::string one = service_fixture("open_meteo_forecast.json");
  EXPECT_FALSE(read_open_meteo("[" + one + "]", orange, saved, true).readings.blocks.empty());
  EXPECT_THAT(complaint_of([&] { read_open_meteo("[" + one + "," + one + "]", orange, saved, true); }),
              HasSubstr("2 places"));
}

TEST(OpenMeteo, ColumnsMustFitTheirTimes) {
  const std::string text =
      replaced(service_fixture("open_meteo_forecast.json"), "[61,58,52,null]", "[61,58,52]");
  EXPECT_THAT(complaint_of([&] { read_open_meteo(text, orange, saved, true); }),
              HasSubstr("3 values for 4 times"));
}

// ---- All of them ----

TEST(ServiceAnswers, AreRecognisedByTheirContent) {
  EXPECT_EQ(recognised_service(service_fixture("met_norway_complete.json")), Service::met_norway);
  EXPECT_EQ(recognised_service(service_fixture("nws_gridpoint.json").substr(0, 1500)), Service::nws);
  EXPECT_EQ(recognised_service(service_fixture("open_meteo_forecast.json")), Service::open_meteo);
  EXPECT_EQ(recognised_service(service_fixture("open_meteo_archive.csv")), Service::open_meteo);
  EXPECT_EQ(recognised_service("\r\ntime,temperature_2m (\u00b0C)\r\n2014-01-01T00:00,5.9\r\n"),
            Service::open_meteo);
  EXPECT_EQ(recognised_service("time,air_temperature [degC]\n2025-06-01T00:00Z,10\n"), std::nullopt);
  EXPECT_EQ(recognised_service("{}"), std::nullopt);
  EXPECT_EQ(recognised_service(""), std::nullopt);
}

TEST(ServiceAnswers, WhatIsNoJsonIsRefusedInWords) {
  for (const Service service : {Service::met_norway, Service::nws, Service::open_meteo}) {
    const auto refusal = [&](std::string_view text) {
      return complaint_of([&] { read_service_answer(service, text, terrace, saved); });
    };
    EXPECT_THAT(refusal(""), HasSubstr("answer is empty"));
    EXPECT_THAT(refusal("<html><body>400 Bad Request</body></html>"), HasSubstr("HTML"));
    EXPECT_THAT(refusal("{\"properties\": {"), HasSubstr("answer.json:1:"));
    EXPECT_THAT(refusal("{\"properties\": 1e999}"), HasSubstr("not valid JSON"));
    EXPECT_THAT(refusal(std::string(100'000, '[')), HasSubstr("deeper"));
    EXPECT_THAT(refusal(std::string(65, '[') + std::string(65, ']')), HasSubstr("deeper than 64"));
    EXPECT_THAT(refusal("{\"a\\\"" + std::string(99, '[') + "\": " + std::string(63, '[') +
                        std::string(63, ']') + "}"),
                ::testing::Not(HasSubstr("deeper")));
    EXPECT_THAT(refusal("[]"), HasSubstr("answer.json"));
    EXPECT_THAT(refusal("{}"), HasSubstr("answer.json"));
  }
}

TEST(ServiceAnswers, CutAnywhereTheyAreRefusedOrReadButNeverHalfRead) {
  for (const char* const name :
       {"met_norway_complete.json", "nws_gridpoint.json", "open_meteo_forecast.json"}) {
    const std::string text = service_fixture(name);
    const Service service = recognised_service(text).value();
    const std::size_t end = text.find_last_of('}');
    for (std::size_t length = 0; length <= end; length += 97)
      EXPECT_FALSE(
          complaint_of([&] { read_service_answer(service, text.substr(0, length), terrace, saved); }).empty())
          << name << " cut after " << length;
  }
}

TEST(Services, HaveNamesAndTheNearestIsOffered) {
  for (const char* const name :
       {"met-norway", "nws", "open-meteo", "open-meteo-ensemble", "open-meteo-archive", "url"})
    EXPECT_EQ(service_name(parse_service(name)), name);
  EXPECT_THAT(complaint_of([] { parse_service("met-noway"); }), HasSubstr("met-norway"));
}

TEST(Services, DistanceIsAlongTheGreatCircle) {
  // A degree of latitude on a sphere of 6371 km: 111.19 km (computed).
  EXPECT_NEAR(distance_km({41, -7, 0}, {42, -7}), 111.195, 0.001);
  EXPECT_NEAR(distance_km({0, 179.5, 0}, {0, -179.5}), 111.195, 0.001);
  EXPECT_NEAR(distance_km({-33.3, 149.1, 0}, {-33.3, 149.1}), 0, 1e-9);
}

}  // namespace
}  // namespace graftcast
