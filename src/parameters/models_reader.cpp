#include "models_reader.hpp"

#include <algorithm>

#include <fmt/format.h>

#include "entry_reader.hpp"
#include "key_table.hpp"
#include "sections.hpp"

namespace graftcast {

namespace {

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

std::vector<std::string> root_keys(const Models& models) {
  std::vector<std::string> keys{"format"};
  for_each_map(models, [&](const char* section, const auto&) { keys.emplace_back(section); });
  keys.insert(keys.end(), {"hazards", "shared", "cold_tables"});
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

[[noreturn]] void fail_like(const JsonNode& like, const std::string& name) {
  like.fail(fmt::format("'{}' is there already, so it cannot be \"like\" another", name),
            "leave out \"like\"");
}

std::vector<std::string> names_of(const std::vector<Entry*>& groups) {
  std::vector<std::string> names;
  for (const Entry* group : groups) names.push_back(group->name);
  return names;
}

}  // namespace

void ModelsReader::read_folder(const std::filesystem::path& folder) {
  named_in_folder_.clear();
  for (const auto& file : json_files(folder)) read_document(JsonDocument::from_file(file));
}

void ModelsReader::read_document(const JsonDocument& document) {
  const JsonNode root(document);
  root.allow_keys(root_keys(models_));
  check_format(root);
  for_each_map(models_, [&](const char* section, auto& entries) {
    if (root.has(section)) read_map(root.at(section), section, entries);
  });
  if (root.has("hazards")) read_groups(root.at("hazards"), "hazards", hazards_of(models_));
  if (root.has("shared")) read_groups(root.at("shared"), "shared", shared_of(models_));
  if (root.has("cold_tables")) read_cold_tables(root.at("cold_tables"));
}

template <typename Map>
void ModelsReader::read_map(const JsonNode& list, const std::string& section, Map& entries) {
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const JsonNode node = claimed(list.at(i), section);
    const std::string& name = node.at("name").text();
    const bool complete = start_from(node, section, name, entries);
    read_entry(node, complete, entries[name]);
    note_references(node, entries[name]);
  }
}

/// Takes over the entry that it is `like`. True when there is nothing to start from.
template <typename Map>
bool ModelsReader::start_from(const JsonNode& node, const std::string& section, const std::string& name,
                              Map& entries) {
  const bool is_known = entries.contains(name);
  if (!node.has("like")) return !is_known;
  const JsonNode like = node.at("like");
  if (is_known) fail_like(like, name);
  const auto model = entries.find(like.text());
  if (model == entries.end()) {
    like.fail(fmt::format("{} has no '{}' to be like", section, like.text()),
              known_names_hint(like.text(), keys_in(entries)));
  }
  entries.emplace(name, model->second);
  return false;
}

void ModelsReader::read_groups(const JsonNode& list, const std::string& section,
                               const std::vector<Entry*>& groups) {
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const JsonNode node = list.at(i);
    const std::string& name = node.object().at("name").text();
    const bool is_new = !named_.contains({section, name});
    const JsonNode labelled = claimed(node, section);
    const auto group = std::ranges::find(groups, name, &Entry::name);
    if (group == groups.end()) {
      labelled.at("name").fail(fmt::format("{} has no group '{}'", section, name),
                               known_names_hint(name, names_of(groups)));
    }
    if (labelled.has("like")) fail_like(labelled.at("like"), name);
    read_entry(labelled, is_new, **group);
  }
}

void ModelsReader::read_cold_tables(const JsonNode& list) {
  const auto table_keys = std::to_array<std::string>({"name", "title", "rows"});
  for (std::size_t i = 0; i < list.list().value().size(); ++i) {
    const JsonNode node = list.at(i);
    node.allow_keys(table_keys);
    claim_name(node, "cold_tables");
    models_.cold_tables.insert_or_assign(node.at("name").text(), read_cold_rows(node));
  }
}

/// `node` under the name that messages give it, its name taken.
JsonNode ModelsReader::claimed(const JsonNode& node, const std::string& section) {
  JsonNode labelled =
      node.labelled(fmt::format("entry '{}' of {}", node.object().at("name").text(), section));
  claim_name(labelled, section);
  return labelled;
}

void ModelsReader::claim_name(const JsonNode& node, const std::string& section) {
  check_name(node.at("name"));
  const std::pair named(section, node.at("name").text());
  if (!named_in_folder_.insert(named).second)
    node.at("name").fail(fmt::format("{} has '{}' twice", section, named.second), "keep one of them");
  named_.insert(named);
}

void ModelsReader::note_references(const JsonNode& node, const Entry& entry) {
  for (const WordRow& row : entry.table().words)
    if (!row.names.empty() && node.has("words") && node.at("words").has(row.key))
      references_.push_back({node.at("words").at(row.key).position(), std::string(row.key),
                             std::string(row.names), row.of(entry)});
}

void ModelsReader::require_names(const std::string& section, const std::vector<std::string>& names,
                                 const std::filesystem::path& folder) const {
  for (const std::string& name : names) {
    if (!named_.contains({section, name})) {
      throw DataError({folder.string(), 0, 0}, fmt::format("{} has no entry '{}'", section, name),
                      "use a complete folder of models");
    }
  }
}

Models ModelsReader::finished(const std::filesystem::path& folder) {
  require_names("hazards", names_of(hazards_of(models_)), folder);
  require_names("shared", names_of(shared_of(models_)), folder);
  require_names("scion_states", {"dormant", "leafless-evergreen", "leafy"}, folder);
  require_names("wraps", {"none"}, folder);
  require_names("covers", {"none"}, folder);
  for (const auto& [position, key, section, name] : references_) {
    if (named_.contains({section, name})) continue;
    std::vector<std::string> known;
    for (const auto& [of, other] : named_)
      if (of == section) known.push_back(other);
    throw DataError(position, fmt::format("{} names no '{}'", key, name), known_names_hint(name, known));
  }
  return std::move(models_);
}

}  // namespace graftcast
