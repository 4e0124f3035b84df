#pragma once
// Which languages there are beside English, and which one a person wants.

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "text/catalogue.hpp"

namespace graftcast {

/// Folder of the program that runs; empty where the system does not tell.
std::filesystem::path program_folder();

/// Catalogues in a folder, as LANGUAGE/LC_MESSAGES/graftcast.mo. A null pointer is English.
class Languages {
 public:
  explicit Languages(std::filesystem::path folder);
  /// Those of $GRAFTCAST_LANGUAGES, else those installed with the program, else those of its build.
  static Languages published();

  /// `en` and the others, by name.
  std::vector<std::string> names() const;
  /// `es`, `es_MX` (else `es`) or `es_MX.UTF-8`. Errors: UsageError with the names that there are; those of
  /// Catalogue.
  std::unique_ptr<const Catalogue> named(const std::string& name) const;
  /// The first that there is of LANGUAGE and LC_ALL, LC_MESSAGES or LANG, as gettext's manual has it; English
  /// where there is none. Errors: those of Catalogue.
  std::unique_ptr<const Catalogue> of_environment() const;

 private:
  using Found = std::unique_ptr<const Catalogue>;
  /// Nothing where there is no such language.
  std::optional<Found> found(std::string_view locale) const;
  std::filesystem::path file_of(std::string_view name) const;
  bool holds(std::string_view name) const;

  std::filesystem::path folder_;
};

}  // namespace graftcast
