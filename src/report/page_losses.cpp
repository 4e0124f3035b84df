// What was lost this season on the page, and why.

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "words/act_words.hpp"

namespace graftcast {

namespace {

std::string cause_words(const GraftWhy& graft) {
  if (!graft.explained || graft.shares.empty()) {
    return fmt::format(
        "The weather does not explain this: it loses {} of such grafts. Look at the fit, the wood, "
        "the bandage, pests and disease.",
        percent_words(graft.loss));
  }
  const CauseShare& first = graft.shares.front();
  return fmt::format("First of all {} ({}): {}.", cause_title(first.cause), percent_words(first.share),
                     first.fact);
}

std::string saving_words(const GraftWhy& graft, const PageBasis& page) {
  if (!graft.explained || graft.would_have_saved.empty()) return {};
  const SavingAction& action = graft.would_have_saved.front();
  return fmt::format("What would have saved it: {}, by {} at the latest; {} of such grafts are then lost.",
                     act_words(action.act), day_words(page.basis.clock->day_of(action.by), page.today()),
                     percent_words(action.p_after));
}

std::string loss_item(const GraftWhy& graft, const PageBasis& page) {
  return fmt::format("<li><b>{}</b>, {} {}: {} of {} lost by {}. {} {}\n", html_name(graft.id),
                     html_name(graft.species), html_name(graft.method), graft.lost, graft.count,
                     day_words(page.basis.clock->day_of(graft.until), page.today()),
                     html_sentence(cause_words(graft)), html_sentence(saving_words(graft, page)));
}

std::string change_item(const PracticeChange& change) {
  return fmt::format("<li>{}: would have saved {:.1f} of them\n", html_sentence(act_words(change.act)),
                     change.saved);
}

}  // namespace

std::string losses_section(const PageBasis& page) {
  if (!page.content.losses || page.content.losses->grafts.empty()) return {};
  const WhyLosses& losses = *page.content.losses;
  std::string html = fmt::format(
      "<section aria-labelledby=\"lost\"><h2 id=\"lost\">Lost in the season {}, and why</h2>\n<ul>\n",
      html_text(losses.season));
  for (const GraftWhy& graft : losses.grafts) html += loss_item(graft, page);
  html += "</ul>\n";
  if (!losses.changes.empty()) {
    html += "<h3>What would have saved most</h3>\n<ul>\n";
    for (const PracticeChange& change : losses.changes) html += change_item(change);
    html += "</ul>\n";
  }
  return html + "</section>\n";
}

}  // namespace graftcast
