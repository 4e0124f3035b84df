// This morning's list on the page; printed, a sheet to tick off.

#include <algorithm>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"
#include "text/tr.hpp"
#include "words/act_words.hpp"
#include "words/count_words.hpp"
#include "words/graft_words.hpp"
#include "words/reason_words.hpp"
#include "words/state_words.hpp"
#include "words/urgency_words.hpp"

namespace graftcast {

namespace {

constexpr int due_within_days = 7;

std::string to_do(const GraftMorning& graft, const PageBasis& page) {
  const bool helpless = graft.advice.act.is_none();
  if (helpless && graft.urgency == Urgency::watch) return {};
  const std::string act =
      as_sentence(helpless ? tr("nothing that may be done helps") : act_words(graft.advice.act));
  const std::string words =
      graft.act_by ? tr("{act}, by {moment}.", "act"_a = act,
                        "moment"_a = moment_words(*page.basis.clock, *graft.act_by, page.basis.as_of))
                   : tr("{act}.", "act"_a = act);
  return fmt::format("<p class=\"do\">{}</p>\n", html_sentence(words));
}

std::string risk_words(const GraftMorning& graft, const PageBasis& page) {
  const std::string risk = percent_words(graft.risk.p);
  if (are_alike_in_percent(graft.risk.low, graft.risk.high)) return tr("Risk {risk}", "risk"_a = risk);
  return tr("Risk {risk} ({range})", "risk"_a = risk,
            "range"_a = percent_range_words(page.style, graft.risk.low, graft.risk.high));
}

/// Risk now, and with what is advised.
std::string both_risks_words(const GraftMorning& graft, const PageBasis& page) {
  const ActOutcome* act = graft.advised();
  if (act == nullptr) return risk_words(graft, page);
  return tr("{risk}, then {after}", "risk"_a = risk_words(graft, page),
            "after"_a = percent_words(act->p_after));
}

std::string risk_line(const GraftMorning& graft, const PageBasis& page) {
  const std::string risk = both_risks_words(graft, page);
  std::string words;
  if (!graft.advice.temporary) {
    words = tr("{risk}.", "risk"_a = risk);
  } else if (graft.advice.undo_from) {
    words = tr("{risk}; undo it from {moment}.", "risk"_a = risk,
               "moment"_a = moment_words(*page.basis.clock, *graft.advice.undo_from, page.basis.as_of));
  } else {
    words = tr("{risk}; needed for all of these {days}.", "risk"_a = risk,
               "days"_a = days_words(static_cast<std::size_t>(graft.horizon_days)));
  }
  if (graft.alive < 0.9)
    words += ' ' + tr("It lives with a chance of {chance}.", "chance"_a = percent_words(graft.alive));
  return "<p>" + html_sentence(words) + "</p>\n";
}

std::string identity_line(const GraftMorning& graft) {
  return fmt::format(
      "<p class=\"q\">{}</p>\n",
      html_marked(tr("{identity}; {age} old, {stage}.", "identity"_a = marked_identity(graft),
                     "age"_a = age_words(graft.age_days), "stage"_a = stage_words(graft.stage))));
}

std::string because(const GraftMorning& graft, const PageBasis& page) {
  if (graft.reasons.empty()) return {};
  return "<p class=\"q\">" +
         html_sentence(as_sentence(with_semicolons(reasons_words(graft.reasons, page.style.units)))) +
         ".</p>\n";
}

std::string entry(std::size_t index, const PageBasis& page) {
  const GraftMorning& graft = page.content.morning.grafts[index];
  return fmt::format(
      "<li class=\"{0}\"><input type=\"checkbox\" class=\"tick\" id=\"t{1}\" aria-label=\"{2}\">"
      "<div><h3><label for=\"t{1}\"><span class=\"u\">{9}</span> {3}</label></h3>\n{4}{5}{6}{7}"
      "<p class=\"pen\">{10} </p><p class=\"screen\"><a class=\"big\" href=\"#{8}\">{11}"
      "<span class=\"q\">&nbsp;{3}</span></a></p></div></li>\n",
      urgency_name(graft.urgency), index, html_sentence(tr("{id} done", "id"_a = graft.id)),
      html_name(graft.id), to_do(graft, page), risk_line(graft, page), identity_line(graft),
      because(graft, page), card_id(index), html_sentence(urgency_words(graft.urgency)),
      html_sentence(tr("seen, done:")), html_sentence(tr("Charts and notes")));
}

/// Dates of the union that fall within the week.
std::string due_of(const GraftSince& graft, const PageBasis& page) {
  const LocalDay today = page.today();
  const auto is_due = [&](const DateBand& date) {
    return date.median && *date.median >= today && *date.median <= today + std::chrono::days(due_within_days);
  };
  const auto day = [&](const DateBand& date) { return day_words(*date.median, today); };
  std::vector<std::string> due;
  if (is_due(graft.bridged_on)) due.push_back(tr("bridged about {day}", "day"_a = day(graft.bridged_on)));
  if (is_due(graft.drinking_from))
    due.push_back(graft.bagged ? tr("drinking, so that the bag can be opened, about {day}",
                                    "day"_a = day(graft.drinking_from))
                               : tr("drinking about {day}", "day"_a = day(graft.drinking_from)));
  if (is_due(graft.slit_wrap_from))
    due.push_back(tr("slit the wrap about {day}", "day"_a = day(graft.slit_wrap_from)));
  if (is_due(graft.buds_expected))
    due.push_back(tr("buds move about {day}", "day"_a = day(graft.buds_expected)));
  if (due.empty()) return {};
  return "<li>" +
         html_marked(tr("{id}: {work}", "id"_a = marked(Part::name, graft.id), "work"_a = listed(due))) +
         '\n';
}

std::string due_list(const PageBasis& page) {
  std::string items;
  for (const GraftMorning& graft : page.content.morning.grafts)
    if (const GraftSince* since = since_of(page.content, graft.id)) items += due_of(*since, page);
  return items.empty()
             ? std::string{}
             : fmt::format("<h3>{}</h3><ul>\n{}</ul>\n", html_sentence(tr("Coming this week")), items);
}

std::string left_alone(const PageBasis& page) {
  const auto& grafts = page.content.morning.grafts;
  std::string links;
  for (std::size_t i = 0; i < grafts.size(); ++i) {
    if (grafts[i].urgency == Urgency::leave)
      links += fmt::format(R"(<li><a class="big" href="#{}">{}</a>)", card_id(i), html_name(grafts[i].id));
  }
  if (links.empty()) return {};
  const auto rows = std::ranges::count(grafts, Urgency::leave, &GraftMorning::urgency);
  return fmt::format("<h3>{}</h3><ul class=\"links\">{}</ul>\n",
                     html_sentence(trn("Leave alone: nothing to do in {n} row",
                                       "Leave alone: nothing to do in {n} rows", rows, "n"_a = rows)),
                     links);
}

}  // namespace

std::string as_sentence(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

std::string marked_identity(const GraftMorning& graft) {
  const auto long_name = [](const std::string& name) {
    return name.empty() ? std::string{} : marked(Part::long_name, name);
  };
  std::vector<std::string> parts;
  if (!graft.scion.empty() || !graft.stock.empty())
    parts.push_back(scion_on_stock_words(long_name(graft.scion), long_name(graft.stock)));
  parts.push_back(kind_words(marked(Part::name, graft.species), marked(Part::name, graft.method)));
  if (graft.count != 1) parts.push_back(grafts_words(static_cast<std::size_t>(graft.count)));
  if (!graft.spot.empty()) parts.push_back(marked(Part::name, graft.spot));
  return with_commas(parts);
}

std::string card_id(std::size_t index) {
  return fmt::format("g{}", index);
}

const GraftSince* since_of(const PageContent& content, std::string_view id) {
  const auto found = std::ranges::find(content.since.grafts, id, &GraftSince::id);
  return found == content.since.grafts.end() ? nullptr : &*found;
}

std::string list_section(const PageBasis& page) {
  const auto& grafts = page.content.morning.grafts;
  std::string html = fmt::format("<section aria-labelledby=\"list\"><h2 id=\"list\">{}</h2>\n",
                                 html_sentence(tr("This morning")));
  if (grafts.empty()) {
    return html + fmt::format("<p>{}</p></section>\n",
                              html_sentence(tr("No graft is open: none had been made by then, or all are "
                                               "noted as taken or dead.")));
  }
  for (const std::string& caution : page.content.heat) {
    html += fmt::format("<p class=\"warn{}\">{}</p>\n", &caution == &page.content.heat.front() ? " hot" : "",
                        html_sentence(caution));
  }
  std::string entries;
  for (std::size_t i = 0; i < grafts.size(); ++i)
    if (grafts[i].urgency != Urgency::leave) entries += entry(i, page);
  if (!entries.empty()) {
    const int days = grafts.front().horizon_days;
    html += fmt::format(
        "<p class=\"q\">{}</p>\n",
        html_sentence(trn("Risk: of loss to weather in {n} day, in brackets its range over the ensemble.",
                          "Risk: of loss to weather in {n} days, in brackets its range over the ensemble.",
                          days, "n"_a = days)));
  }
  html += entries.empty() ? fmt::format("<p>{}</p>\n", html_sentence(tr("Nothing to do this morning.")))
                          : "<ol class=\"list\">\n" + entries + "</ol>\n";
  return html + due_list(page) + left_alone(page) + "</section>\n";
}

}  // namespace graftcast
