#include "language_option.hpp"

#include <algorithm>
#include <optional>
#include <string_view>

#include "graftcast/error.hpp"
#include "text/languages.hpp"

namespace graftcast::cli {

namespace {

/// What follows "--" are words, not options.
std::vector<std::string> options_of(const std::vector<std::string>& arguments) {
  return {arguments.begin(), std::ranges::find(arguments, "--")};
}

std::optional<std::string> language_named(const std::vector<std::string>& arguments) {
  constexpr std::string_view option = "--language", with_value = "--language=";
  std::optional<std::string> named;
  const std::vector<std::string> options = options_of(arguments);
  for (std::size_t i = 0; i < options.size(); ++i) {
    if (options[i].starts_with(with_value)) named = options[i].substr(with_value.size());
    if (options[i] == option && i + 1 < options.size()) named = options[i + 1];
  }
  return named;
}

std::unique_ptr<const Catalogue> catalogue_of_environment() {
  try {
    return Languages::published().of_environment();
  } catch (const Error&) {
    return nullptr;  // It was not asked for by name: English serves.
  }
}

}  // namespace

bool asks_for_json(const std::vector<std::string>& arguments) {
  return std::ranges::count(options_of(arguments), "--json") > 0;
}

std::unique_ptr<const Catalogue> catalogue_asked_for(const std::vector<std::string>& arguments) {
  const auto named = language_named(arguments);
  auto catalogue = named ? Languages::published().named(*named) : catalogue_of_environment();
  return asks_for_json(arguments) ? nullptr : std::move(catalogue);
}

}  // namespace graftcast::cli
