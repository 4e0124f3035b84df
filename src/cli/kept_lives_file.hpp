#pragma once
// The site's file of kept lives: it may be deleted at any time, and no answer depends on it.

#include <filesystem>

#include "ensemble/kept_lives.hpp"

namespace graftcast::cli {

class KeptLivesFile {
 public:
  /// Takes in what `site_folder`/cache/lives holds, if it is there and whole.
  explicit KeptLivesFile(const std::filesystem::path& site_folder);

  KeptLives& lives() { return lives_; }
  /// Writes it anew where so much was worked out that the next morning would feel it. A folder that cannot be
  /// written is no fault: then nothing is kept.
  void save_if_worth_it() const;

 private:
  std::filesystem::path file_;
  KeptLives lives_;
};

}  // namespace graftcast::cli
