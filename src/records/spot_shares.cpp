#include "records/spot_shares.hpp"

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "record_files.hpp"
#include "records/site.hpp"
#include "text/atomic_file.hpp"
#include "text/json_document.hpp"
#include "text/json_edit.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

/// RFC 6901: `~` and `/` of a key are written `~0` and `~1`.
std::string pointer_of(const std::string& key) {
  std::string escaped;
  for (const char letter : key)
    escaped += letter == '~' ? "~0" : letter == '/' ? "~1" : std::string(1, letter);
  return "/spots/" + escaped;
}

std::string with_share(const std::string& text, const std::string& shown_name, const std::string& spot,
                       const std::string& key, double share) {
  const JsonDocument document = JsonDocument::from_text(text, shown_name);
  const auto& root = document.root();
  if (!root.is_object() || !root.contains("spots") || !root["spots"].contains(spot))
    throw RangeError(tr("{file} has no spot {spot}", "file"_a = shown_name, "spot"_a = shown(spot)),
                     tr("name a spot of site.json"));
  const std::string value = fmt::format("{:.2f}", share);
  const std::string pointer = pointer_of(spot);
  const auto& entry = root["spots"][spot];
  if (entry.contains(key)) return with_plain_value(text, document.position(pointer + "/" + key), value);
  return with_last_entry(text, document.position(pointer), entry.empty(),
                         fmt::format("\"{}\": {}", key, value));
}

}  // namespace

std::string with_spot_shares(const std::string& site_text, const std::string& shown_name,
                             const std::string& spot, const SpotShares& shares) {
  std::string text = site_text;
  if (shares.sun) text = with_share(text, shown_name, spot, "sun", *shares.sun);
  if (shares.wind) text = with_share(text, shown_name, spot, "wind", *shares.wind);
  return text;
}

void write_spot_shares(const std::filesystem::path& folder, const std::string& spot,
                       const SpotShares& shares) {
  const std::filesystem::path file = folder / site_file;
  const std::string before = read_text_file(file);
  site_from_text(before, file.string(), folder);
  const std::string after = with_spot_shares(before, file.string(), spot, shares);
  site_from_text(after, file.string(), folder);
  if (after != before) replace_file(file, after);
}

}  // namespace graftcast
