#include "readers/header_guess.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "readers/header_text.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

bool is_letter(char letter) {
  return (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
         (static_cast<unsigned char>(letter) >= 0x80U);
}
bool is_capital(char letter) {
  return letter >= 'A' && letter <= 'Z';
}
char small(char letter) {
  return is_capital(letter) ? static_cast<char>(letter - 'A' + 'a') : letter;
}

/// The words of a header in small letters: `outTemp_avg (x)` is out, temp, avg, x.
std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words(1);
  char before = ' ';
  for (const char letter : text) {
    const bool humped = is_capital(letter) && before >= 'a' && before <= 'z';
    if (!is_letter(letter) || humped) words.emplace_back();
    if (is_letter(letter)) words.back() += small(letter);
    before = letter;
  }
  std::erase(words, std::string());
  return words;
}

/// Words that stand for a quantity. One that begins with `=` is a word of its own, else a part of one is
/// enough.
struct Meaning {
  std::string_view name;
  std::array<std::string_view, 9> words;
};

// In this order: the first that fits. Words of English, German, French, Spanish, Portuguese and Italian.
constexpr std::array<Meaning, 8> meanings = {
    {{"dew_point_temperature",
      {"dew", "taupunkt", "roc\u00edo", "rocio", "ros\u00e9e", "orvalho", "rugiada", "=dewp", "=td"}},
     {"wind_speed_of_gust",
      {"gust", "b\u00f6e", "boe", "rafale", "r\u00e1faga", "rafaga", "rajada", "raffica", "windspitze"}},
     {"relative_humidity", {"humid", "feuchte", "humed", "umid", "=hum", "=rh", "=rf", "=hr", "=ur"}},
     {"precipitation_amount",
      {"rain", "precip", "niederschlag", "regen", "lluvia", "pluie", "chuva", "pioggia", "=prcp"}},
     {"air_pressure",
      {"press", "baro", "druck", "presi\u00f3n", "pression", "altimeter", "=mslp", "=slp", "=qnh"}},
     {"surface_downwelling_shortwave_flux_in_air",
      {"solar", "radiation", "strahlung", "radiaci", "rayonnement", "shortwave", "irradiance", "pyrano",
       "=rad"}},
     {"wind_speed", {"wind", "viento", "=vent", "vento", "=ws", "=wspd", "=ff", "anemo", "=uz"}},
     {"air_temperature", {"temp", "=t", "=ta", "=tair", "=at", "=tmax", "=tmin", "=tmean", "=tavg"}}}};

struct Exclusion {
  std::string_view word;
  std::string_view why;
};

constexpr auto exclusions = std::to_array<Exclusion>({
    {"indoor", tr_later("of indoors")},
    {"inside", tr_later("of indoors")},
    {"innen", tr_later("of indoors")},
    {"interior", tr_later("of indoors")},
    {"=in", tr_later("of indoors")},
    {"soil", tr_later("of the soil")},
    {"boden", tr_later("of the soil")},
    {"suelo", tr_later("of the soil")},
    {"leaf", tr_later("of a leaf")},
    {"chill", tr_later("worked out from others")},
    {"index", tr_later("worked out from others")},
    {"feel", tr_later("worked out from others")},
    {"apparent", tr_later("worked out from others")},
    {"gef\u00fchlt", tr_later("worked out from others")},
    {"wetbulb", tr_later("worked out from others")},
    {"=wet", tr_later("worked out from others")},
    {"deficit", tr_later("worked out from others")},
    {"direction", tr_later("a direction")},
    {"richtung", tr_later("a direction")},
    {"direcci", tr_later("a direction")},
    {"=dir", tr_later("a direction")},
    {"=uv", tr_later("of ultraviolet light")},
    {"=par", tr_later("of light for plants alone")},
    {"=net", tr_later("a balance")},
    {"=run", tr_later("a way, no speed")},
    {"energy", tr_later("a second measure of the radiation")},
    {"=battery", tr_later("of the logger")},
    {"=rssi", tr_later("of the logger")},
});

bool holds_word(const std::vector<std::string>& words, std::string_view word) {
  if (word.empty()) return false;
  const bool whole = word.front() == '=';
  if (whole) word.remove_prefix(1);
  return std::any_of(words.begin(), words.end(), [&](const std::string& each) {
    return whole ? each == word : each.find(word) != std::string::npos;
  });
}

template <class... Words>
bool holds_any(const std::vector<std::string>& words, Words... each) {
  return (holds_word(words, each) || ...);
}

/// The name and the unit of a header.
struct NameAndUnit {
  std::string name;
  std::string unit;
};

/// A unit behind the last of some separators: `Temp - \u00b0F`, `Temp, C`, `Rain_in`.
std::optional<NameAndUnit> unit_behind(const std::string& header, std::string_view separators,
                                       std::size_t from) {
  const std::size_t at = header.find_last_of(separators, from);
  if (at == std::string::npos || at == 0) return std::nullopt;
  const std::string unit(trimmed(std::string_view(header).substr(at + 1)));
  if (known_unit(unit) && unit != "1")
    return NameAndUnit{std::string(trimmed(std::string_view(header).substr(0, at))), unit};
  return unit_behind(header, separators, at - 1);
}

/// A unit grown together with the name, as `tempf`; only behind words that can have it.
std::optional<NameAndUnit> unit_grown_on(const std::string& header) {
  struct Ending {
    std::string_view letters;
    Dimension dimension;
  };
  constexpr auto endings = std::to_array<Ending>({{"mph", Dimension::speed},
                                                  {"kmh", Dimension::speed},
                                                  {"kph", Dimension::speed},
                                                  {"inhg", Dimension::pressure},
                                                  {"hpa", Dimension::pressure},
                                                  {"mm", Dimension::depth},
                                                  {"in", Dimension::depth},
                                                  {"f", Dimension::temperature},
                                                  {"c", Dimension::temperature}});
  std::string folded;
  for (const char letter : header) folded += small(letter);
  for (const auto& [letters, dimension] : endings) {
    if (!folded.ends_with(letters) || folded.size() < letters.size() + 3) continue;
    const std::string name = folded.substr(0, folded.size() - letters.size());
    const bool inches_of_mercury = letters == "in" && name.starts_with("baro");
    const bool fits = (dimension == Dimension::temperature &&
                       (name.ends_with("temp") || name.ends_with("point") || name.ends_with("dew"))) ||
                      (dimension == Dimension::speed && name.find("wind") != std::string::npos) ||
                      (dimension == Dimension::pressure && name.find("baro") != std::string::npos) ||
                      (dimension == Dimension::depth &&
                       (name.find("rain") != std::string::npos || name.find("precip") != std::string::npos));
    if (inches_of_mercury) return NameAndUnit{name, "inHg"};
    if (fits) return NameAndUnit{name, std::string(letters)};
  }
  return std::nullopt;
}

NameAndUnit name_and_unit(std::string_view raw) {
  const std::string header(trimmed(raw));
  const HeaderParts parts = split_header(header);
  if (!parts.unit.empty()) return {std::string(parts.name), std::string(parts.unit)};
  if (auto found = unit_behind(header, "-,_/ ", std::string::npos)) return *found;
  if (auto found = unit_grown_on(header)) return *found;
  return {header, {}};
}

bool is_time_header(const std::vector<std::string>& words) {
  return holds_any(words, "time", "=date", "=datum", "=fecha", "=data", "=when", "=day", "=zeit", "=uhrzeit",
                   "=hora", "=heure", "=ora", "stamp", "=valid", "dateutc", "=tag", "obstime");
}

std::string_view suffix_of(const std::vector<std::string>& words) {
  if (holds_any(words, "=max", "=maximum", "=high", "=hi", "=tmax", "=h\u00f6chst")) return "_max";
  if (holds_any(words, "=min", "=minimum", "=low", "=lo", "=tmin", "=tiefst")) return "_min";
  if (holds_any(words, "=mean", "=avg", "=average", "=tmean", "=tavg", "=mittel", "=media")) return "_mean";
  return {};
}

/// Pressure has a level: at the station, or reduced to the sea's.
std::string pressure_name(const std::vector<std::string>& words) {
  const bool sea =
      holds_any(words, "=rel", "relativ", "=sea", "=msl", "=mslp", "=slp", "=qnh", "baromrel", "altimeter");
  return sea ? "air_pressure_at_mean_sea_level" : "air_pressure";
}

HeaderGuess meaning_of(const NameAndUnit& parts, const std::vector<std::string>& words) {
  HeaderGuess guess;
  guess.unit = parts.unit;
  for (const auto& [name, signs] : meanings) {
    const auto* const sign = std::find_if(signs.begin(), signs.end(),
                                          [&](std::string_view word) { return holds_word(words, word); });
    if (sign == signs.end()) continue;
    guess.role = HeaderGuess::Role::quantity;
    guess.name = name == "air_pressure" ? pressure_name(words) : std::string(name);
    guess.suffix = suffix_of(words);
    guess.why = tr("\"{sign}\" in its header", "sign"_a = sign->starts_with('=') ? sign->substr(1) : *sign);
    guess.is_rate = holds_any(words, "rate", "=intensity");
    guess.is_total =
        holds_any(words, "total", "=daily", "=event", "accum", "=month", "=monthly", "=year", "=yearly",
                  "=weekly", "=storm", "dailyrain", "eventrain", "monthlyrain", "yearlyrain", "weeklyrain");
    return guess;
  }
  return guess;
}

}  // namespace

HeaderGuess guess_header(std::string_view header) {
  constexpr std::size_t longest = 200;  // What is longer is prose or a cell that swallowed the file.
  if (header.size() > longest || std::none_of(header.begin(), header.end(), is_letter)) return {};
  const NameAndUnit parts = name_and_unit(header);
  const std::vector<std::string> words = words_of(parts.name);
  const std::vector<std::string> all_words = words_of(header);
  HeaderGuess guess = meaning_of(parts, words);
  if (guess.role == HeaderGuess::Role::nothing && is_time_header(words)) {
    guess.role = HeaderGuess::Role::time;
    guess.is_utc = holds_any(all_words, "=utc", "=gmt", "dateutc", "timeutc");
    guess.is_standard = holds_any(all_words, "=lst", "=standard");
    guess.unit.clear();
    return guess;
  }
  if (guess.role != HeaderGuess::Role::quantity) return guess;
  for (const auto& [word, why] : exclusions) {
    if (!holds_word(words, word)) continue;
    guess.role = HeaderGuess::Role::left_out;
    guess.why = translated(why);
    return guess;
  }
  const auto named = parse_quantity_name(guess.name).value().named;
  const auto unit = known_unit(guess.unit);
  const bool rate = unit && guess.is_rate && unit->dimension == Dimension::depth;
  if (rate) guess.unit += "/h";
  if (const auto stated = known_unit(guess.unit);
      !guess.unit.empty() &&
      (!stated || (stated->dimension != named->dimension && stated->dimension != named->other_dimension))) {
    guess.role = HeaderGuess::Role::left_out;
    guess.why = tr("its unit \"{unit}\" is none of {dimension}", "unit"_a = guess.unit,
                   "dimension"_a = dimension_name(named->dimension));
  }
  return guess;
}

}  // namespace graftcast
