#include "models_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "entry_reader.hpp"
#include "section_of.hpp"

namespace graftcast {

namespace {

using model_keys::Section;

constexpr int known_format = 1;

std::vector<std::filesystem::path> json_files(const std::filesystem::path& folder) {
  std::error_code problem;
  std::vector<std::filesystem::path> files;
  for (std::filesystem::directory_iterator file(folder, problem), end; !problem && file != end;
       file.increment(problem))
    if (file->path().extension() == ".json") files.push_back(file->path());
  if (problem) {
    throw OpenError(folder.string(), "cannot read the folder of models: " + problem.message(),
                    "make the folder readable");
  }
  std::ranges::sort(files);
  return files;
}

void check_format(const JsonNode& root) {
  const double format = root.at("format").number();
  if (format > known_format) {
    root.at("format").fail(fmt::format("format {} is newer than this program knows", format),
                           "use a newer graftcast");
  }
  if (format != known_format) root.at("format").fail(fmt::format("format is {}", format), "use 1");
}

std::vector<std::string> root_keys() {
  std::vector<std::string> keys{"format"};
  keys.insert(keys.end(), model_keys::sections.begin(), model_keys::sections.end());
  return keys;
}

void check_name(const JsonNode& node) {
  const auto& name = node.text();
  const auto fits = [](char letter) {
    return (letter >= 'a' && letter <= 'z') || (letter >= '0' && letter <= '9') || letter == '-';
  };
  if (name.empty() || !std::ranges::all_of(name, fits))
    node.fail(fmt::format("name is '{}'", name), "use small letters, digits and hyphens");
}

void require_names(const Models& models, Section section, const std::vector<std::string>& names,
                   const std::filesystem::path& folder) {
  for (const auto& name : names) {
    if (!section_of(models, section).contains(name)) {
      throw DataError({folder.string(), 0, 0},
                      fmt::format("{} has no entry '{}'", section_name(section), name),
                      "use a complete folder of models");
    }
  }
}

}  // namespace

void ModelsReader::read_folder(const std::filesystem::path& folder) {
  named_in_folder_.clear();
  for (const auto& file : json_files(folder)) read_document(JsonDocument::from_file(file));
}

void ModelsReader::read_document(const JsonDocument& document) {
  const JsonNode root(document);
  root.allow_keys(root_keys());
  check_format(root);
  for (const auto section : all_sections)
    if (root.has(section_name(section))) read_section(root.at(section_name(section)), section);
  if (root.has("cold_tables")) read_cold_tables(root.at("cold_tables"));
}

void ModelsReader::read_section(const JsonNode& list, Section section) {
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const auto node = list.at(i);
    const auto& name = node.object().at("name").text();
    const auto labelled = node.labelled(fmt::format("entry '{}' of {}", name, section_name(section)));
    claim_name(labelled, std::string(section_name(section)));
    const auto entry = read_entry(labelled, section, base_of(labelled, section, name));
    note_references(labelled, section, entry);
    section_of(models_, section).insert_or_assign(name, entry);
  }
}

void ModelsReader::read_cold_tables(const JsonNode& list) {
  const auto table_keys = std::to_array<std::string>({"name", "title", "rows"});
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const auto node = list.at(i);
    node.allow_keys(table_keys);
    claim_name(node, "cold_tables");
    models_.cold_tables.insert_or_assign(node.at("name").text(), read_cold_rows(node));
  }
}

void ModelsReader::claim_name(const JsonNode& node, const std::string& section) {
  check_name(node.at("name"));
  if (!named_in_folder_.emplace(section, node.at("name").text()).second) {
    node.at("name").fail(fmt::format("{} has '{}' twice", section, node.at("name").text()),
                         "keep one of them");
  }
}

const Entry* ModelsReader::base_of(const JsonNode& node, Section section, const std::string& name) const {
  const auto& entries = section_of(models_, section);
  const auto fixed = model_keys::fixed_names(section);
  if (!fixed.empty() && std::ranges::find(fixed, name) == fixed.end()) {
    node.at("name").fail(fmt::format("{} has no group '{}'", section_name(section), name),
                         known_names_hint(name, fixed));
  }
  const auto same = entries.find(name);
  if (!node.has("like")) return same != entries.end() ? &same->second : nullptr;
  const auto like = node.at("like");
  if (same != entries.end()) {
    like.fail(fmt::format("'{}' is there already, so it cannot be \"like\" another", name),
              "leave out \"like\"");
  }
  const auto model = entries.find(like.text());
  if (model == entries.end()) {
    like.fail(fmt::format("{} has no '{}' to be like", section_name(section), like.text()),
              known_names_hint(like.text(), keys_in(entries)));
  }
  return &model->second;
}

void ModelsReader::note_references(const JsonNode& node, Section section, const Entry& entry) {
  if (section != Section::species && section != Section::methods) return;
  for (const std::string key : {"cold_table", "usual_wrap", "usual_cover", "usual_cover_evergreen"}) {
    if (node.has("words") && node.at("words").has(key))
      references_.push_back({node.at("words").at(key).position(), key, entry.word(key)});
  }
}

Models ModelsReader::finished(const std::filesystem::path& folder) {
  for (const auto section : {Section::hazards, Section::shared})
    require_names(models_, section, model_keys::fixed_names(section), folder);
  require_names(models_, Section::scion_states, {"dormant", "leafless-evergreen", "leafy"}, folder);
  require_names(models_, Section::wraps, {"none"}, folder);
  require_names(models_, Section::covers, {"none"}, folder);
  for (const auto& reference : references_) {
    const auto known = reference.key == "cold_table"   ? keys_in(models_.cold_tables)
                       : reference.key == "usual_wrap" ? keys_in(models_.wraps)
                                                       : keys_in(models_.covers);
    if (std::ranges::find(known, reference.name) == known.end()) {
      throw DataError(reference.position, fmt::format("{} names no '{}'", reference.key, reference.name),
                      known_names_hint(reference.name, known));
    }
  }
  return std::move(models_);
}

}  // namespace graftcast
