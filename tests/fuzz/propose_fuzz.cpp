// The proposal of a column map on arbitrary bytes: it proposes or throws Error of bad data, and what it
// proposes reads the file as it said. The first byte chooses what is given already.

#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <optional>
#include <string>

#include "fuzz_input.hpp"
#include "weather/column_proposal.hpp"
#include "weather/detect_reader.hpp"

namespace {

using namespace graftcast;

/// The proposal looks at a file more than once, so the bytes have to lie in one. Each process has its own.
class InputFile {
 public:
  InputFile()
      : path_(std::filesystem::temp_directory_path() /
              ("propose_fuzz." + std::to_string(getpid()) + ".csv")) {}
  ~InputFile() {
    std::error_code ignored;
    std::filesystem::remove(path_, ignored);
  }
  InputFile(const InputFile&) = delete;
  InputFile& operator=(const InputFile&) = delete;

  const std::filesystem::path& holding(std::string_view text) const {
    std::ofstream(path_, std::ios::binary | std::ios::trunc) << text;
    return path_;
  }

 private:
  std::filesystem::path path_;
};

SourceSettings settings_for(unsigned choice) {
  SourceSettings given;
  if ((choice & 1U) != 0) given.time_zone = "-08:00";
  if ((choice & 2U) != 0) given.stamp = Stamp::end;
  if ((choice & 4U) != 0) given.columns = {{"time", {"When", "", "%d/%m/%Y %H:%M", {}}}};
  if ((choice & 8U) != 0) given.columns["air_temperature"] = {"Temp", "degF", "", {"-99"}};
  return given;
}

/// One command must do: what is proposed is taken as it stands.
void check_proposal(const ColumnProposal& proposal, const std::filesystem::path& path,
                    const Location& terrace, const Clock& clock) {
  const Readings readings = read_weather_file(path, proposal.source, terrace, clock);
  fuzzing::require(summary_of(readings).rows == proposal.summary.rows,
                   "the proposal reads as many rows as it says");
  const ColumnProposal again = propose_columns(path, proposal.source, terrace, clock);
  fuzzing::require(again.summary.rows == proposal.summary.rows, "a proposal that is given is kept");
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const InputFile file;
  static const Clock clock("Europe/Lisbon");
  const Location terrace{41.2, -7.5, 260};
  if (size == 0) return 0;
  const std::filesystem::path& path = file.holding(fuzzing::text_of(data, size).substr(1));
  std::optional<ColumnProposal> proposal;
  fuzzing::tolerate_bad_data(
      [&] { proposal = propose_columns(path, settings_for(data[0]), terrace, clock); });
  if (proposal) check_proposal(*proposal, path, terrace, clock);
  return 0;
}
