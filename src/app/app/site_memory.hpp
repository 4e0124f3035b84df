#pragma once
// What Session keeps between questions, with what a report tells beside the answer.

#include <cstddef>
#include <filesystem>
#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "advice/morning.hpp"
#include "app/open_site.hpp"
#include "graftcast/session.hpp"

namespace graftcast {

/// What an answer rests on beside the records. `season` refers to the rest.
struct SiteBasis {
  SiteBasis(OpenSite site, SiteWeather known) : open(std::move(site)), weather(std::move(known)) {}

  OpenSite open;
  SiteWeather weather;
  std::optional<Season> season;  ///< Absent: nothing had been grafted by then.
};

/// An answer and what it rests on; the pointers hold until the next question.
struct AskedMorning {
  MorningReport report;
  const OpenRecords* records = nullptr;
  const SiteBasis* basis = nullptr;
};

class SiteMemory {
 public:
  SiteMemory(std::filesystem::path folder, const AskSettings& settings)
      : folder_(std::move(folder)), settings_(settings) {}

  /// `moment`: as open_site takes it. Errors: those of open_site, records_of and known_weather.
  AskedMorning morning(const std::function<Instant(const Clock&)>& moment, const MorningAsk& ask);
  std::size_t worked_out() const { return worked_out_; }

 private:
  /// A row's part of the list, and the record that it was worked out from.
  struct KeptRow {
    GraftRecord record;
    MorningOfRow row;
  };

  void take_basis(OpenSite open, const MorningAsk& ask);
  std::vector<MorningOfRow> rows();

  std::filesystem::path folder_;
  AskSettings settings_;
  OpenRecords records_;
  std::unique_ptr<SiteBasis> basis_;
  std::string inputs_;  ///< What the basis was made from.
  std::map<std::string, KeptRow> kept_;
  std::size_t worked_out_ = 0;
};

}  // namespace graftcast
