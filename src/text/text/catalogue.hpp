#pragma once
// The sentences of one language, from a file that msgfmt compiled.

#include <filesystem>
#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "text/plural_rule.hpp"

namespace graftcast {

/// Read without setlocale, which would be the whole process's: two readers of one server may differ.
class Catalogue {
 public:
  /// A GNU .mo file. Errors: OpenError; DataError where it is no such file, or is cut short.
  explicit Catalogue(const std::filesystem::path& file);
  /// Of its bytes; `shown_name` stands in errors. Error: DataError.
  Catalogue(std::string_view bytes, const std::string& shown_name);

  /// The sentence for `key` (a context stands before it, with \x04 between); empty where there is none.
  std::string_view sentence(std::string_view key) const noexcept;
  /// Its form for `count` things; empty where there is none.
  std::string_view form(std::string_view key, long count) const noexcept;

 private:
  std::map<std::string, std::vector<std::string>, std::less<>> forms_;
  PluralRule plural_rule_;
};

}  // namespace graftcast
