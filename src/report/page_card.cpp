// A card of one graft: charts under each other, dates, buttons for notes.

#include <algorithm>

#include <fmt/format.h>

#include "page_figures.hpp"
#include "page_hours.hpp"
#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"
#include "text/tr.hpp"
#include "words/verdict_words.hpp"

namespace graftcast {

namespace {

std::string band_words(const DateBand& band, LocalDay today) {
  if (!band.median) {
    return band.p10 ? tr("not before {day}", "day"_a = day_words(*band.p10, today))
                    : trn("not within {n} day", "not within {n} days", page_outlook_days,
                          "n"_a = page_outlook_days);
  }
  std::string median = day_words(*band.median, today);
  if (!band.p10 || !band.p90 || *band.p10 == *band.p90) return median;
  return tr("{day} ({from} to {to})", "day"_a = median, "from"_a = day_words(*band.p10, today),
            "to"_a = day_words(*band.p90, today));
}

std::string dates(const GraftSince& graft, const PageBasis& page) {
  std::string html = "<dl>";
  const auto row = [&](const std::string& what, const std::string& words) {
    html += fmt::format("<dt>{}</dt><dd>{}</dd>\n", html_sentence(what), html_sentence(words));
  };
  const LocalDay today = page.today();
  row(trc("date of a union", "bridged"), band_words(graft.bridged_on, today));
  row(trc("date of a union", "drinking"), band_words(graft.drinking_from, today));
  if (graft.bagged) row(tr("open the bag from"), band_words(graft.vent_bag_from, today));
  row(tr("slit the wrap from"), band_words(graft.slit_wrap_from, today));
  row(tr("buds move"), band_words(graft.buds_expected, today));
  row(tr("so far"),
      tr("{verdict}: {reason}; alive {alive}, will take {take}", "verdict"_a = verdict_word(graft.verdict()),
         "reason"_a = ground_words(graft.ground), "alive"_a = percent_words(graft.alive),
         "take"_a = percent_words(graft.still_to_take)));
  return html + "</dl>\n";
}

std::optional<LocalDay> forecast_until(const PageBasis& page) {
  const auto& until = page.basis.weather.forecast_until;
  if (!until) return std::nullopt;
  return page.basis.clock->day_of(*until);
}

std::string charts(const GraftSince& graft, const PageBasis& page, PageHours& hours) {
  const auto levels = page.content.levels.find(graft.id);
  if (levels == page.content.levels.end() || graft.days.empty()) return {};
  const std::vector<ChartDay> days = chart_days(graft, levels->second, page.today());
  const ChartedGraft of{graft, levels->second, days, page.today(), forecast_until(page), page.style};
  return fmt::format("<div class=\"charts\"{} data-label=\"{}\">\n{}{}{}</div>\n",
                     hours.attributes(graft, days),
                     html_sentence(tr("Hour on the charts of {id}", "id"_a = graft.id)), heat_figure(of),
                     water_figure(of), healing_figure(of));
}

std::vector<EventNote> advised_notes(const GraftMorning& graft) {
  const ActOutcome* act = graft.advised();
  return act == nullptr ? std::vector<EventNote>{} : act->notes;
}

std::string card(std::size_t index, const PageBasis& page, PageHours& hours) {
  const GraftMorning& graft = page.content.morning.grafts[index];
  const GraftSince* since = since_of(page.content, graft.id);
  return fmt::format(
      "<article class=\"card\" id=\"{0}\" aria-labelledby=\"h{1}\"><h3 id=\"h{1}\">{2}</h3><p "
      "class=\"q\">{3}</p>\n{4}{5}{6}"
      "</article>\n",
      card_id(index), index, html_long_name(graft.id), html_marked(marked_identity(graft)),
      note_buttons(graft.id, graft.count, {advised_notes(graft), page.content.own_work}),
      since == nullptr ? std::string{} : charts(*since, page, hours),
      since == nullptr ? std::string{} : dates(*since, page));
}

}  // namespace

std::string card_section(const PageBasis& page) {
  if (page.content.morning.grafts.empty()) return {};
  std::string html = fmt::format(
      "<section class=\"charts\" aria-labelledby=\"grafts\"><h2 id=\"grafts\">{}</h2>\n<p "
      "class=\"q\">{}</p>\n<div class=\"cards\">\n",
      html_sentence(tr("Graft by graft")),
      html_sentence(
          tr("Solid: up to now. Dashed, on the shaded ground: coming. A dotted upright: the forecast ends "
             "there, and other weather stands in. Ticks under a chart mark its hard days by their date. "
             "Charts show the hottest hour and the end of each day; an hour read out is the mean of what may "
             "be, so the hottest one can stay below the day's.")));
  PageHours hours(page);
  for (std::size_t i = 0; i < page.content.morning.grafts.size(); ++i) html += card(i, page, hours);
  return html + "</div>\n" + hours.shared() + "</section>\n";
}

}  // namespace graftcast
