#pragma once
// Sections of the page (private to the layer).

#include <string>

#include "report/page.hpp"

namespace graftcast {

/// What the sections share.
struct PageBasis {
  const PageContent& content;
  const ReportBasis& basis;
  const TerminalStyle& style;
  LocalDay today() const { return basis.clock->day_of(basis.as_of); }
};

/// This morning's list, a box to tick for each thing to do; what is due this week; the rows left alone.
std::string list_section(const PageBasis& page);
/// Who gets the covers at hand; empty without a plan.
std::string plan_section(const PageBasis& page);
/// The season's losses and what would have saved them; empty where they were not asked for.
std::string losses_section(const PageBasis& page);
/// Work on stock and shoot that is due, a box to tick for each; empty where nothing is.
std::string due_section(const PageBasis& page);
/// The coming mornings for grafting; empty where they were not asked for.
std::string weeks_section(const PageBasis& page);
/// A card a graft: charts, dates, buttons for notes.
std::string card_section(const PageBasis& page);
/// Work to be noted of a graft: that of the act that is advised, and what the owner alone does.
struct NotableWork {
  std::vector<EventNote> advised, own;
};
/// Buttons that make the text of notes on `grafts` (an id, or `*`), of which `count` are open.
std::string note_buttons(std::string_view grafts, int count, const NotableWork& work);
/// The text of notes, to copy or send.
std::string notes_section(const PageBasis& page);
/// Cautions, what limits the answer, whose data it rests on.
std::string closing_section(const PageBasis& page);

/// With a capital at its beginning.
std::string as_sentence(std::string words);

/// Where the card of the graft at `index` of the morning's list is: `g7`. Never from a name.
std::string card_id(std::size_t index);

/// The graft `id` of `since`, or nullptr.
const GraftSince* since_of(const PageContent& content, std::string_view id);

/// What a graft is, for html_marked: `Sanguinelli on Carrizo, citrus chip, 6 grafts, east-tables`.
std::string marked_identity(const GraftMorning& graft);

/// The sentences that the script puts together, as data for it.
std::string script_words();

}  // namespace graftcast
