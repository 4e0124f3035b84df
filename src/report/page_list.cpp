// This morning's list on the page; printed, a sheet to tick off.

#include <algorithm>

#include <fmt/format.h>

#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "report/text_layout.hpp"
#include "terminal_parts.hpp"

namespace graftcast {

namespace {

constexpr int due_within_days = 7;

std::string range_in_brackets(const GraftMorning& graft, const PageBasis& page) {
  const std::string range = percent_range_words(page.style, graft.risk.low, graft.risk.high);
  return range.ends_with('%') ? fmt::format(" ({})", range) : std::string{};
}

std::string by_words(const GraftMorning& graft, const PageBasis& page) {
  return graft.act_by
             ? fmt::format(", by {}", moment_words(*page.basis.clock, *graft.act_by, page.basis.as_of))
             : std::string{};
}

std::string undo_words_of(const GraftMorning& graft, const PageBasis& page) {
  if (!graft.advice.temporary) return {};
  return graft.advice.undo_from
             ? fmt::format("; undo it from {}",
                           moment_words(*page.basis.clock, *graft.advice.undo_from, page.basis.as_of))
             : fmt::format("; needed for all of these {}",
                           counted(static_cast<std::size_t>(graft.horizon_days), "day"));
}

std::string to_do(const GraftMorning& graft, const PageBasis& page) {
  const bool helpless = graft.advice.text.empty();
  if (helpless && graft.urgency == Urgency::watch) return {};
  return fmt::format(
      "<p class=\"do\">{}{}.</p>\n",
      html_sentence(as_sentence(helpless ? "nothing that may be done helps" : graft.advice.text)),
      html_sentence(by_words(graft, page)));
}

std::string risk_line(const GraftMorning& graft, const PageBasis& page) {
  std::string words = fmt::format("Risk {}{}", percent_words(graft.risk.p), range_in_brackets(graft, page));
  const auto action = std::ranges::find(graft.actions, graft.advice.action, &ActionOutcome::action);
  if (!graft.advice.action.empty() && action != graft.actions.end())
    words += fmt::format(", then {}", percent_words(action->p_after));
  words += undo_words_of(graft, page) + '.';
  if (graft.alive < 0.9) words += fmt::format(" It lives with a chance of {}.", percent_words(graft.alive));
  return "<p>" + html_sentence(words) + "</p>\n";
}

std::string identity_line(const GraftMorning& graft) {
  return fmt::format("<p class=\"q\">{}; {} old, {}.</p>\n", html_identity(graft), age_words(graft.age_days),
                     stage_name(graft.stage));
}

std::string because(const GraftMorning& graft) {
  if (graft.reasons.empty()) return {};
  return "<p class=\"q\">" + html_sentence(as_sentence(fmt::format("{}", fmt::join(graft.reasons, "; ")))) +
         ".</p>\n";
}

std::string entry(std::size_t index, const PageBasis& page) {
  const GraftMorning& graft = page.content.morning.grafts[index];
  const std::string_view urgency = urgency_name(graft.urgency);
  return fmt::format(
      "<li class=\"{0}\"><input type=\"checkbox\" class=\"tick\" id=\"t{1}\" aria-label=\"{2} done\">"
      "<div><h3><label for=\"t{1}\"><span class=\"u\">{0}</span> {3}</label></h3>\n{4}{5}{6}{7}"
      "<p class=\"pen\">seen, done: </p><p class=\"screen\"><a class=\"big\" href=\"#{8}\">Charts and "
      "notes<span class=\"q\">&nbsp;{3}</span></a></p></div></li>\n",
      urgency, index, html_sentence(graft.id), html_name(graft.id), to_do(graft, page),
      risk_line(graft, page), identity_line(graft), because(graft), card_id(index));
}

/// Dates of the union that fall within the week.
std::string due_of(const GraftSince& graft, const PageBasis& page) {
  const LocalDay today = page.today();
  std::vector<std::string> due;
  const auto take = [&](const char* what, const DateBand& date) {
    if (date.median && *date.median >= today && *date.median <= today + std::chrono::days(due_within_days))
      due.push_back(fmt::format("{} about {}", what, day_words(*date.median, today)));
  };
  take("bridged", graft.bridged_on);
  take(graft.bagged ? "drinking, so that the bag can be opened," : "drinking", graft.drinking_from);
  take("slit the wrap", graft.slit_wrap_from);
  take("buds move", graft.buds_expected);
  return due.empty() ? std::string{}
                     : fmt::format("<li>{}: {}\n", html_name(graft.id), html_sentence(listed(due)));
}

std::string due_list(const PageBasis& page) {
  std::string items;
  for (const GraftMorning& graft : page.content.morning.grafts)
    if (const GraftSince* since = since_of(page.content, graft.id)) items += due_of(*since, page);
  return items.empty() ? std::string{} : "<h3>Coming this week</h3><ul>\n" + items + "</ul>\n";
}

std::string left_alone(const PageBasis& page) {
  const auto& grafts = page.content.morning.grafts;
  std::string links;
  for (std::size_t i = 0; i < grafts.size(); ++i) {
    if (grafts[i].urgency == Urgency::leave)
      links += fmt::format(R"(<li><a class="big" href="#{}">{}</a>)", card_id(i), html_name(grafts[i].id));
  }
  if (links.empty()) return {};
  return fmt::format(
      "<h3>Leave alone: nothing to do in {}</h3><ul class=\"links\">{}</ul>\n",
      counted(static_cast<std::size_t>(std::ranges::count(grafts, Urgency::leave, &GraftMorning::urgency)),
              "row"),
      links);
}

}  // namespace

std::string as_sentence(std::string words) {
  if (!words.empty() && words.front() >= 'a' && words.front() <= 'z')
    words.front() = static_cast<char>(words.front() - 'a' + 'A');
  return words;
}

std::string html_identity(const GraftMorning& graft) {
  std::string html;
  if (!graft.scion.empty()) html += html_long_name(graft.scion);
  if (!graft.rootstock.empty()) html += (html.empty() ? "on " : " on ") + html_long_name(graft.rootstock);
  html += fmt::format("{}{} {}", html.empty() ? "" : ", ", html_name(graft.species), html_name(graft.method));
  if (graft.count != 1) html += ", " + counted(static_cast<std::size_t>(graft.count), "graft");
  if (!graft.spot.empty()) html += ", " + html_name(graft.spot);
  return html;
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
  std::string html = "<section aria-labelledby=\"list\"><h2 id=\"list\">This morning</h2>\n";
  if (grafts.empty()) {
    return html +
           "<p>No graft is open: none had been made by then, or all are noted as taken or "
           "dead.</p></section>\n";
  }
  for (const std::string& caution : page.content.heat) {
    html += fmt::format("<p class=\"warn{}\">{}</p>\n", &caution == &page.content.heat.front() ? " hot" : "",
                        html_sentence(caution));
  }
  std::string entries;
  for (std::size_t i = 0; i < grafts.size(); ++i)
    if (grafts[i].urgency != Urgency::leave) entries += entry(i, page);
  if (!entries.empty()) {
    html += fmt::format(
        "<p class=\"q\">Risk: of loss to weather in {}, in brackets its range over the ensemble.</p>\n",
        counted(static_cast<std::size_t>(grafts.front().horizon_days), "day"));
  }
  html += entries.empty() ? std::string("<p>Nothing to do this morning.</p>\n")
                          : "<ol class=\"list\">\n" + entries + "</ol>\n";
  return html + due_list(page) + left_alone(page) + "</section>\n";
}

}  // namespace graftcast
