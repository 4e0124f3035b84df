#include "kept_lives_file.hpp"

#include <fstream>
#include <string>

#include "graftcast/error.hpp"
#include "text/atomic_file.hpp"

namespace graftcast::cli {

namespace {

constexpr std::size_t worth_keeping_member_hours = 10'000'000;  // about a tenth of a second
constexpr std::uintmax_t largest_file_bytes = 128'000'000;

std::string content_of(const std::filesystem::path& file) {
  std::error_code fault;
  const auto size = std::filesystem::file_size(file, fault);
  if (fault || size > largest_file_bytes || !std::filesystem::is_regular_file(file, fault)) return {};
  std::string content(static_cast<std::size_t>(size), '\0');
  std::ifstream stream(file, std::ios::binary);
  stream.read(content.data(), static_cast<std::streamsize>(size));
  return stream ? content : std::string();
}

}  // namespace

KeptLivesFile::KeptLivesFile(const std::filesystem::path& site_folder)
    : file_(site_folder / "cache" / "lives") {
  lives_.take_in(content_of(file_));
}

void KeptLivesFile::save_if_worth_it() const {
  if (lives_.member_hours_worked_out() < worth_keeping_member_hours) return;
  const std::string bytes = lives_.bytes();
  if (bytes.size() > largest_file_bytes) return;
  const std::filesystem::path folder = file_.parent_path();
  try {
    require_inside(folder.parent_path(), folder);
    make_folder(folder);
    replace_file(file_, bytes);
  } catch (const WriteError&) {  // The answer stands without it.
  }
}

}  // namespace graftcast::cli
