#include "services/cache_files.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "services/fetch_state.hpp"
#include "text/atomic_file.hpp"
#include "text/text.hpp"

namespace graftcast {

namespace fs = std::filesystem;

namespace {

constexpr std::string_view past_ending = ".http.gz";

/// A word that is safe as the name of a folder.
std::string plain(std::string_view text) {
  std::string word;
  for (const char letter : text) {
    const bool kept = (letter >= 'a' && letter <= 'z') || (letter >= 'A' && letter <= 'Z') ||
                      (letter >= '0' && letter <= '9') || letter == '.';
    if (kept) word += letter;
    if (!kept && !word.ends_with('-')) word += '-';
  }
  return word;
}

/// `2025-06-09T043000Z`, which every file system takes.
std::string past_name(Instant made_at) {
  std::string name = utc_text(made_at);
  std::erase(name, ':');
  return name + std::string(past_ending);
}

std::optional<Instant> past_time(const std::string& name) {
  constexpr std::size_t length = 18;
  if (name.size() != length + past_ending.size() || !name.ends_with(past_ending)) return std::nullopt;
  const std::string text =
      fmt::format("{}:{}:{}", name.substr(0, 13), name.substr(13, 2), name.substr(15, 3));
  const auto time = parse_time(text);
  if (!time || !time->offset) return std::nullopt;
  return Instant(time->reading.time_since_epoch() - *time->offset);
}

/// Tells addresses apart that look alike once they are plain (FNV-1a, 32 bits).
std::uint32_t mark_of(std::string_view text) {
  std::uint32_t mark = 2166136261U;
  for (const char letter : text) mark = (mark ^ static_cast<unsigned char>(letter)) * 16777619U;
  return mark;
}

/// Whether what lies in `folder` was asked for at the source's address.
bool was_asked_at(const fs::path& folder, const SourceSettings& source) {
  std::error_code fault;
  if (!fs::exists(folder, fault)) return false;
  try {
    std::string address = source.base_url;
    while (address.ends_with('/')) address.pop_back();  // As the subject has it.
    const FetchState state = parse_state(read_text_file(folder / "state.json"), "state.json");
    return state.subject.find(' ' + address + ' ') != std::string::npos;
  } catch (const Error&) {
    return true;  // Nothing there speaks against it.
  }
}

}  // namespace

fs::path cache_folder(const fs::path& site_folder, const SourceSettings& source) {
  const fs::path all = site_folder / "weather" / "cache";
  if (source.base_url.empty()) return all / plain(source.service);
  const std::string word = plain(source.service + "-" + source.base_url);
  if (was_asked_at(all / word, source)) return all / word;  // From before addresses had their mark.
  return all / fmt::format("{}-{:08x}", word, mark_of(source.base_url));
}

StoredAnswer read_stored(const fs::path& file) {
  return parse_stored(read_file_bytes(file), file.string());
}

void CacheFiles::require_inside_site() const {
  require_inside(site_folder_, folder_);
  require_inside(site_folder_, folder_ / "past");
}

FetchState CacheFiles::state() const {
  const fs::path file = folder_ / "state.json";
  std::error_code fault;
  if (!fs::exists(file, fault)) return {};
  return parse_state(read_text_file(file), file.string());
}

void CacheFiles::write_state(const FetchState& state) const {
  make_folder(folder_);
  replace_file(folder_ / "state.json", state_text(state));
}

void CacheFiles::write_latest(const StoredAnswer& stored) const {
  make_folder(folder_);
  replace_file(folder_ / "latest.http.gz", stored_bytes(stored));
}

std::optional<StoredAnswer> CacheFiles::latest() const {
  const fs::path file = folder_ / "latest.http.gz";
  std::error_code fault;
  if (!fs::exists(file, fault)) return std::nullopt;
  try {
    return read_stored(file);
  } catch (const DataError&) {
    return std::nullopt;  // Damaged, it tells nothing; the next answer takes its place.
  }
}

void CacheFiles::keep(Instant made_at, const StoredAnswer& stored) const {
  const fs::path file = folder_ / "past" / past_name(made_at);
  std::error_code fault;
  if (fs::exists(file, fault)) return;
  make_folder(folder_ / "past");
  replace_file(file, stored_bytes(stored));
}

void CacheFiles::drop_older() const {
  const std::vector<PastForecast> all = past();
  std::error_code ignored;  // One that stays is only older than needed.
  for (std::size_t k = 1; k < all.size(); ++k) fs::remove(all[k].file, ignored);
}

std::vector<PastForecast> CacheFiles::past() const {
  std::vector<PastForecast> all;
  std::error_code fault;
  for (fs::directory_iterator entry(folder_ / "past", fault), end; !fault && entry != end;
       entry.increment(fault)) {
    if (const auto made_at = past_time(entry->path().filename().string()))
      all.push_back({*made_at, entry->path()});
  }
  std::ranges::sort(all, std::ranges::greater{}, &PastForecast::made_at);
  return all;
}

std::optional<StoredAnswer> CacheFiles::points(const std::string& url, Instant now) const {
  const fs::path file = folder_ / "points.http.gz";
  std::error_code fault;
  if (!fs::exists(file, fault)) return std::nullopt;
  try {
    StoredAnswer stored = read_stored(file);
    if (stored.url == url && now - stored.received_at < std::chrono::days(30)) return stored;
  } catch (const DataError&) {
    // A damaged file is fetched again like one that is not there.
  }
  return std::nullopt;
}

void CacheFiles::write_points(const StoredAnswer& stored) const {
  make_folder(folder_);
  replace_file(folder_ / "points.http.gz", stored_bytes(stored));
}

void CacheFiles::drop_points() const {
  std::error_code ignored;  // It is overwritten by the next one anyway.
  fs::remove(folder_ / "points.http.gz", ignored);
}

}  // namespace graftcast
