#pragma once
// A small invented site whose records the tests read and change.

#include <map>
#include <string>
#include <string_view>

#include "diary_text.hpp"
#include "records/diary.hpp"
#include "records/ledger.hpp"
#include "records/site.hpp"
#include "temporary_folder.hpp"

namespace graftcast::testing {

inline constexpr std::string_view sample_site = R"({
  "format": 1,
  "name": "Terrace nursery",
  "latitude": 41.19, "longitude": -7.54, "elevation_m": 260,
  "time_zone": "Europe/Lisbon",
  "spots": {
    "east-tables": {"sun": 0.7, "wind": 0.5, "rain": true, "movable": true},
    "store": {"sun": 0.05, "wind": 0.1, "rain": false, "movable": true}
  },
  "supplies": {"clear-bag": 12, "paper": 20},
  "weather": {"sources": [{"file": "weather/station.csv"}]}
}
)";

inline constexpr std::string_view sample_grafts =
    "id,grafted_on,scion,species,method,stock,spot,shade,count,row_label,comment\n"
    "R3-14,2025-03-02,Old russet,apple,whip-and-tongue,T1,east-tables,0.5,200,A,\"first, of the day\"\n"
    "R3-15,2025-03-02T10:30,Old russet,apple,cleft,T1,east-tables,,1,B,\n"
    "R3-16,2025-04-10,Late pear,pear,chip,T2,store,,1,C,\n";

inline constexpr std::string_view sample_diary =
    "when,graft,event,value,comment\n"
    "2025-03-02T18:00,R3-14,bag-on,,\n"
    "2025-03-20,R3-14..15,green,,all of them\n";

/// The same with the columns that a writer adds.
constexpr std::string_view wide_sample_diary =
    "when,graft,event,value,comment,id,by,photo\n"
    "2025-03-02T18:00,R3-14,bag-on,,,,,\n"
    "2025-03-20,R3-14..15,green,,all of them,,,\n";

inline KnownNames sample_names() {
  return {{"apple", "pear", "cherry"},
          {"cleft", "whip-and-tongue", "chip", "bark"},
          {"none", "film", "wax"},
          {"none", "clear-bag", "paper-over-bag"}};
}

inline Clock sample_clock() {
  return Clock("Europe/Lisbon");
}
inline Site parsed_site() {
  return site_from_text(sample_site, "site.json");
}

inline Ledger ledger_of(std::string_view text) {
  return ledger_from_text(text, "grafts.csv", parsed_site(), sample_clock(), sample_names());
}
inline std::vector<DiaryLine> diary_of(std::string_view text, const Ledger& ledger) {
  return diary_from_text(text, "diary.csv", parsed_site(), sample_clock(), sample_names(), ledger);
}

inline Instant instant(const char* text) {
  const auto time = *parse_time(text);
  return Instant(time.reading.time_since_epoch() - time.offset.value_or(std::chrono::seconds(0)));
}

/// A site folder on disk with the sample records.
class SampleFolder : public TemporaryFolder {
 public:
  SampleFolder() {
    write("site.json", sample_site);
    write("grafts.csv", sample_grafts);
    write("diary.csv", sample_diary);
  }

  /// Every file below the folder with its content.
  std::map<std::string, std::string> snapshot() const {
    std::map<std::string, std::string> files;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(path())) {
      const std::string name = entry.path().lexically_relative(path()).string();
      if (entry.is_regular_file()) files[name] = read(name);
    }
    return files;
  }
};

/// `kind what` of the error that `run` ends with.
template <typename Run>
std::string error_of(Run run) {
  try {
    run();
  } catch (const Error& error) {
    return std::string(error.kind()) + " " + error.what();
  }
  return "no error";
}

}  // namespace graftcast::testing
