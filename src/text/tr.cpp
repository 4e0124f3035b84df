#include "text/tr.hpp"

#include "text/catalogue.hpp"

namespace graftcast {

namespace {

thread_local const Catalogue* current_catalogue = nullptr;

std::string_view or_english(std::string_view sentence, std::string_view english) noexcept {
  return sentence.empty() ? english : sentence;
}

}  // namespace

LanguageScope::LanguageScope(const Catalogue* catalogue) : outer_(current_catalogue) {
  current_catalogue = catalogue;
}

LanguageScope::~LanguageScope() {
  current_catalogue = outer_;
}

const Catalogue* LanguageScope::current() noexcept {
  return current_catalogue;
}

std::string_view translated(std::string_view english, std::string_view context) noexcept {
  if (current_catalogue == nullptr) return english;
  if (context.empty()) return or_english(current_catalogue->sentence(english), english);
  const std::string key = std::string(context) + '\x04' + std::string(english);
  return or_english(current_catalogue->sentence(key), english);
}

std::string_view translated(std::string_view one, std::string_view many, long count) noexcept {
  const std::string_view english = count == 1 ? one : many;
  if (current_catalogue == nullptr) return english;
  return or_english(current_catalogue->form(one, count), english);
}

std::string filled_in(std::string_view pattern, std::string_view english, fmt::format_args named) {
  try {
    return fmt::vformat(pattern, named);
  } catch (const fmt::format_error&) {
    return fmt::vformat(english, named);
  }
}

}  // namespace graftcast
