// `models`: list, show and check species, methods, covers and the rest.

#include <memory>

#include <nlohmann/json.hpp>

#include "commands.hpp"
#include "graftcast/error.hpp"
#include "open_site.hpp"
#include "report/json_report.hpp"
#include "report/terminal_report.hpp"
#include "text/text.hpp"
#include "text/tr.hpp"
#include "values.hpp"

namespace graftcast::cli {

namespace {

struct ModelsOptions {
  std::string what = "list";
  std::vector<std::string> names;
};

std::vector<std::string> all_names(const Models& models) {
  std::vector<std::string> names;
  for (const ModelSection& section : sections_of(models))
    for (const auto& [name, entry] : section.entries) names.emplace_back(name);
  for (const auto& [name, rows] : models.cold_tables) names.push_back(name);
  return names;
}

Answer show(const std::string& name, const Models& models, const ReportBasis& basis,
            const GlobalOptions& global) {
  const auto text = model_entry_text(models, name, style_of(global));
  if (!text) {
    const std::string near = nearest_hint(name, all_names(models));
    throw UsageError(tr("the models hold nothing called {name}", "name"_a = shown(name)),
                     near.empty() ? tr("see 'graftcast models list'") : near);
  }
  return answered(
      global, basis, [&] { return models_json(models, basis, name); }, [&] { return *text; });
}

Answer list(const Models& models, const ReportBasis& basis, const GlobalOptions& global) {
  return answered(
      global, basis, [&] { return models_json(models, basis); },
      [&] { return models_list_text(models, style_of(global)); });
}

/// Loading is the check: it complains about the first entry that does not fit.
Answer check(const Models& models, const ReportBasis& basis, const GlobalOptions& global) {
  const auto own = global.site / "models";
  const std::string place = std::filesystem::exists(own)
                                ? tr("the published models and those of {own}", "own"_a = own.string())
                                : tr("the published models (the site has none of its own)");
  return answered(
      global, basis, [&] { return models_json(models, basis); },
      [&] {
        return done_text(tr("{count} entries are complete and in range: {place}.",
                            "count"_a = all_names(models).size(), "place"_a = place),
                         basis, style_of(global));
      });
}

Answer run(const ModelsOptions& options, const GlobalOptions& global) {
  const Models models = models_for(global.site);
  const ReportBasis basis = basis_of("models", global);
  if (options.what == "show") {
    if (options.names.size() != 1)
      throw UsageError(tr("'models show' takes one NAME"), tr("see 'graftcast models list'"));
    return show(options.names.front(), models, basis, global);
  }
  if (!options.names.empty())
    throw UsageError(tr("'models {what}' takes no NAME", "what"_a = options.what), "");
  return options.what == "list" ? list(models, basis, global) : check(models, basis, global);
}

}  // namespace

CommandSpec models_command() {
  const auto options = std::make_shared<ModelsOptions>();
  return {
      "models",
      tr("list, show and check species, methods, covers and the rest"),
      tr("Every number of the model stands in a file with its unit, range, source and grade: A published, B "
         "published but "
         "transferred or recalled, C judgement. A site may have files of its own in its folder models/, in "
         "the same "
         "layout; 'check' complains about the first entry there that does not fit."),
      {{"graftcast models list", tr("all names")},
       {"graftcast models show avocado", tr("every number of one, with its source")}},
      {},
      {{"ACTION", tr("list, show or check (default: list)"), false, false,
        [options](const std::string& text) {
          options->what = word_of("models", text, std::vector<std::string>{"list", "show", "check"});
        }},
       {"NAME", tr("what to show"), false, true,
        [options](const std::string& text) { options->names.push_back(text); }}},
      [options](const GlobalOptions& global) { return run(*options, global); }};
}

}  // namespace graftcast::cli
