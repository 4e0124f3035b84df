// What was lost this season on the page, and why.

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/graft_words.hpp"
#include "words/why_words.hpp"

namespace graftcast {

namespace {

std::string culprit_sentence(const GraftWhy& graft, const TerminalStyle& style) {
  if (!graft.explained || graft.shares.empty())
    return tr(
        "The weather does not explain this: it loses {loss} of such grafts. Look at the fit, the wood, "
        "the bandage, pests and disease.",
        "loss"_a = percent_words(graft.loss));
  const CulpritShare& first = graft.shares.front();
  return tr("First of all {culprit} ({share}): {fact}.", "culprit"_a = culprit_words(first.culprit),
            "share"_a = percent_words(first.share), "fact"_a = culprit_fact_words(first.fact, style.units));
}

std::string saving_words(const GraftWhy& graft, const PageBasis& page) {
  if (!graft.explained || graft.would_have_saved.empty()) return {};
  const SavingAction& action = graft.would_have_saved.front();
  return tr("What would have saved it: {act}, by {day} at the latest; {after} of such grafts are then lost.",
            "act"_a = act_words(action.act),
            "day"_a = day_words(page.basis.clock->day_of(action.by), page.today()),
            "after"_a = percent_words(action.p_after));
}

std::string loss_item(const GraftWhy& graft, const PageBasis& page) {
  const std::string kind = kind_words(marked(Part::name, graft.species), marked(Part::name, graft.method));
  const std::string lost =
      tr("{id}, {kind}: {lost} of {all} lost by {day}.", "id"_a = marked(Part::strong_name, graft.id),
         "kind"_a = kind, "lost"_a = graft.lost, "all"_a = graft.count,
         "day"_a = day_words(page.basis.clock->day_of(graft.until), page.today()));
  return fmt::format("<li>{} {} {}\n", html_marked(lost), html_sentence(culprit_sentence(graft, page.style)),
                     html_sentence(saving_words(graft, page)));
}

std::string change_item(const PracticeChange& change) {
  return fmt::format("<li>{}\n",
                     html_sentence(tr("{act}: would have saved {saved:.1f} of them",
                                      "act"_a = act_words(change.act), "saved"_a = change.saved)));
}

}  // namespace

std::string losses_section(const PageBasis& page) {
  if (!page.content.losses || page.content.losses->grafts.empty()) return {};
  const WhyLosses& losses = *page.content.losses;
  std::string html =
      fmt::format("<section aria-labelledby=\"lost\"><h2 id=\"lost\">{}</h2>\n<ul>\n",
                  html_sentence(tr("Lost in the season {season}, and why", "season"_a = losses.season)));
  for (const GraftWhy& graft : losses.grafts) html += loss_item(graft, page);
  html += "</ul>\n";
  if (!losses.changes.empty()) {
    html += fmt::format("<h3>{}</h3>\n<ul>\n", html_sentence(tr("What would have saved most")));
    for (const PracticeChange& change : losses.changes) html += change_item(change);
    html += "</ul>\n";
  }
  return html + "</section>\n";
}

}  // namespace graftcast
