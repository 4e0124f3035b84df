#include "text/languages.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <utility>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr std::string_view english = "en";

std::string_view variable(const char* name) {
  const char* value = std::getenv(name);
  return value != nullptr ? value : std::string_view{};
}

/// The locale of messages by its first variable that is set.
std::string_view locale_of_messages() {
  for (const char* name : {"LC_ALL", "LC_MESSAGES", "LANG"})
    if (const auto value = variable(name); !value.empty()) return value;
  return {};
}

std::string_view before(std::string_view text, char sign) {
  return text.substr(0, text.find(sign));
}

/// `es_MX.UTF-8@euro` is looked for as `es_MX`, then as `es`.
std::array<std::string_view, 2> narrowing(std::string_view locale) {
  const std::string_view name = before(before(locale, '@'), '.');
  return {name, before(name, '_')};
}

/// The plain locales ask for no language, whatever LANGUAGE says.
bool is_of_no_language(std::string_view locale) {
  const std::string_view name = narrowing(locale).front();
  return name.empty() || name == "C" || name == "POSIX";
}

/// A name becomes a part of a path: nothing but letters, digits and what joins them.
bool is_plain(std::string_view name) {
  return !name.empty() && std::ranges::all_of(name, [](char letter) {
    return (letter >= '0' && letter <= '9') || (letter >= 'a' && letter <= 'z') ||
           (letter >= 'A' && letter <= 'Z') || letter == '_' || letter == '-';
  });
}

bool is_folder(const std::filesystem::path& folder) {
  std::error_code problem;
  return std::filesystem::is_directory(folder, problem);
}

}  // namespace

std::filesystem::path program_folder() {
  std::error_code problem;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", problem);
  return problem ? std::filesystem::path{} : program.parent_path();
}

Languages::Languages(std::filesystem::path folder) : folder_(std::move(folder)) {}

Languages Languages::published() {
  if (const auto named = variable("GRAFTCAST_LANGUAGES"); !named.empty()) return Languages(named);
  const auto installed = program_folder().parent_path() / GRAFTCAST_LANGUAGES_FOLDER;
  return Languages(is_folder(installed) ? installed : GRAFTCAST_BUILT_LANGUAGES);
}

std::filesystem::path Languages::file_of(std::string_view name) const {
  return folder_ / name / "LC_MESSAGES" / "graftcast.mo";
}

bool Languages::holds(std::string_view name) const {
  std::error_code problem;
  return is_plain(name) && std::filesystem::is_regular_file(file_of(name), problem);
}

std::vector<std::string> Languages::names() const {
  std::vector<std::string> names;
  std::error_code fault;
  for (std::filesystem::directory_iterator entry(folder_, fault), end; !fault && entry != end;
       entry.increment(fault))
    if (const std::string name = entry->path().filename().string(); holds(name)) names.push_back(name);
  std::ranges::sort(names);
  names.insert(names.begin(), std::string(english));
  return names;
}

std::optional<Languages::Found> Languages::found(std::string_view locale) const {
  for (const std::string_view candidate : narrowing(locale)) {
    if (holds(candidate)) return std::make_unique<const Catalogue>(file_of(candidate));
    if (candidate == english) return nullptr;
  }
  return std::nullopt;
}

std::unique_ptr<const Catalogue> Languages::named(const std::string& name) const {
  if (auto catalogue = found(name)) return std::move(*catalogue);
  throw UsageError(tr("there is no language {name}", "name"_a = shown(name)),
                   tr("give one of: {names}", "names"_a = fmt::join(names(), ", ")));
}

std::unique_ptr<const Catalogue> Languages::of_environment() const {
  const std::string_view locale = locale_of_messages();
  if (is_of_no_language(locale)) return nullptr;
  const std::string wanted = fmt::format("{}:{}", variable("LANGUAGE"), locale);
  for (std::string_view rest = wanted; !rest.empty();) {
    const std::string_view name = before(rest, ':');
    if (auto catalogue = found(name)) return std::move(*catalogue);
    rest.remove_prefix(std::min(name.size() + 1, rest.size()));
  }
  return nullptr;
}

}  // namespace graftcast
