#include "text/catalogue.hpp"

#include <cstdint>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::uint32_t little_endian_magic = 0x950412de;
constexpr std::size_t longest_file = 16U << 20U;

/// The tables of a .mo file (gettext's manual, "The Format of GNU MO Files").
class MoFile {
 public:
  MoFile(std::string_view bytes, const std::string& shown_name) : shown_name_(shown_name), bytes_(bytes) {
    const std::uint32_t magic = number_at(0, little);
    if (magic != little_endian_magic) {
      order_ = big;
      if (number_at(0, big) != little_endian_magic) fail();
    }
  }

  std::size_t sentences() const { return number_at(8, order_); }
  std::string_view original(std::size_t i) { return text_at(number_at(12, order_) + 8 * i); }
  std::string_view translation(std::size_t i) { return text_at(number_at(16, order_) + 8 * i); }

 private:
  enum Order : std::uint8_t { little, big };

  [[noreturn]] void fail() const {
    throw DataError({shown_name_, 0, 0}, tr("this is no compiled catalogue of sentences, or is cut short"),
                    tr("make it with msgfmt from the language's .po file"));
  }

  std::uint32_t number_at(std::size_t at, Order order) const {
    if (at > bytes_.size() || bytes_.size() - at < 4) fail();
    std::uint32_t number = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      const std::size_t byte = order == little ? 3 - i : i;
      number = number << 8U | static_cast<unsigned char>(bytes_[at + byte]);
    }
    return number;
  }

  /// Texts do not overlap: a damaged table that names one long text many times would fill the memory.
  std::string_view text_at(std::size_t descriptor) {
    const std::size_t length = number_at(descriptor, order_), at = number_at(descriptor + 4, order_);
    if (at > bytes_.size() || bytes_.size() - at < length) fail();
    if ((read_ += length) > bytes_.size()) fail();
    return bytes_.substr(at, length);
  }

  const std::string& shown_name_;
  std::string_view bytes_;
  std::size_t read_ = 0;
  Order order_ = little;
};

std::vector<std::string> split_at_nul(std::string_view text) {
  std::vector<std::string> parts;
  for (;;) {
    const auto end = text.find('\0');
    parts.emplace_back(text.substr(0, end));
    if (end == std::string_view::npos) return parts;
    text.remove_prefix(end + 1);
  }
}

/// The line `Plural-Forms: ...` of the header, which is the translation of the empty sentence.
std::string_view plural_forms_of(std::string_view header) {
  constexpr std::string_view field = "Plural-Forms:";
  const auto at = header.find(field);
  if (at == std::string_view::npos) return {};
  const std::string_view rest = header.substr(at + field.size());
  return rest.substr(0, rest.find('\n'));
}

}  // namespace

Catalogue::Catalogue(const std::filesystem::path& file)
    : Catalogue(read_file_bytes(file, longest_file), file.string()) {}

Catalogue::Catalogue(std::string_view bytes, const std::string& shown_name) {
  MoFile read(bytes, shown_name);
  for (std::size_t i = 0; i < read.sentences(); ++i) {
    const std::string_view original = read.original(i);
    forms_[std::string(original.substr(0, original.find('\0')))] = split_at_nul(read.translation(i));
  }
  const std::string_view rule = plural_forms_of(sentence(""));
  if (rule.empty()) return;
  try {
    plural_rule_ = PluralRule(rule);
  } catch (const DataError& error) {
    throw DataError({shown_name, 0, 0}, error.message(), error.hint());
  }
}

std::string_view Catalogue::sentence(std::string_view key) const noexcept {
  const auto found = forms_.find(key);
  return found == forms_.end() ? std::string_view{} : std::string_view(found->second.front());
}

std::string_view Catalogue::form(std::string_view key, long count) const noexcept {
  const auto found = forms_.find(key);
  if (found == forms_.end()) return {};
  const auto form = plural_rule_.form_of(static_cast<unsigned long>(count < 0 ? -count : count));
  return form < found->second.size() ? std::string_view(found->second[form]) : std::string_view{};
}

}  // namespace graftcast
