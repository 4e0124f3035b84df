#pragma once
// A diary's text before and after something was added to it.

#include <regex>
#include <sstream>
#include <string>

namespace graftcast::testing {

/// The text with ID in place of every id made from random bytes.
inline std::string ids_hidden(const std::string& text) {
  static const std::regex id(",[a-z2-7]{12},");
  return std::regex_replace(text, id, ",ID,");
}

/// Whether `now` begins with every line of `before`, each with the columns that a writer adds or without.
inline bool keeps_every_line(const std::string& now, const std::string& before) {
  std::stringstream now_lines(now), before_lines(before);
  for (std::string line, kept; std::getline(before_lines, line);) {
    if (!std::getline(now_lines, kept)) return false;
    if (kept != line && kept != line + ",,," && kept != line + ",id,by,photo") return false;
  }
  return true;
}

}  // namespace graftcast::testing
