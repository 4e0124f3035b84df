#pragma once
// The files of one source's cache (private to the layer).

#include <filesystem>
#include <optional>

#include "weather/forecast_cache.hpp"

namespace graftcast {

class CacheFiles {
 public:
  CacheFiles(const std::filesystem::path& site_folder, const SourceSettings& source)
      : site_folder_(site_folder), folder_(cache_folder(site_folder, source)) {}

  /// Before anything is written: no symbolic link may lead it elsewhere. Error: WriteError.
  void require_inside_site() const;

  /// The state; an empty one where there is none. Error: DataError where it cannot be read.
  FetchState state() const;
  void write_state(const FetchState& state) const;
  void write_latest(const StoredAnswer& stored) const;
  /// The last answer that came; nothing where there is none or it is damaged.
  std::optional<StoredAnswer> latest() const;
  /// Keeps it as the forecast of `made_at`; one that is there already stays, for it reaches further back.
  void keep(Instant made_at, const StoredAnswer& stored) const;
  /// Takes away all but the newest: of an archive each answer holds what the ones before held.
  void drop_older() const;
  std::vector<PastForecast> past() const;
  /// The answer on the grid cell, of `url` and not older than 30 days at `now`; nothing where there is none.
  std::optional<StoredAnswer> points(const std::string& url, Instant now) const;
  void write_points(const StoredAnswer& stored) const;
  void drop_points() const;

 private:
  std::filesystem::path site_folder_, folder_;
};

/// Errors: OpenError, DataError.
StoredAnswer read_stored(const std::filesystem::path& file);

}  // namespace graftcast
