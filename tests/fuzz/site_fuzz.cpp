// site.json of any bytes: what is accepted lies within its ranges.

#include "fuzz_input.hpp"
#include "records/site.hpp"

using namespace graftcast;
using fuzzing::require;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzzing::tolerate_bad_data([&] {
    const Site site = site_from_text(fuzzing::text_of(data, size), "site.json");
    require(site.location.latitude_deg >= -90 && site.location.latitude_deg <= 90, "latitude in range");
    for (const auto& [name, spot] : site.spots) {
      require(!name.empty(), "spots have names");
      require(spot.sun_share >= 0 && spot.sun_share <= 1, "sun in range");
      require(spot.wind_share >= 0 && spot.wind_share <= 1, "wind in range");
    }
    for (const SourceSettings& source : site.weather.sources) {
      require(source.file.empty() != source.service.empty(), "a source is a file or a service");
      require(source.file.empty() || source.file.front() != '/', "a source is within the site folder");
    }
  });
  return 0;
}
