// A card of one graft: charts under each other, dates, buttons for notes.

#include <algorithm>

#include <fmt/format.h>

#include "page_figures.hpp"
#include "page_hours.hpp"
#include "page_markup.hpp"
#include "page_sections.hpp"
#include "report/figures.hpp"

namespace graftcast {

namespace {

std::string band_html(const DateBand& band, LocalDay today) {
  if (!band.median) {
    return band.p10 ? fmt::format("not before {}", day_words(*band.p10, today))
                    : fmt::format("not within {} days", page_outlook_days);
  }
  std::string words = day_words(*band.median, today);
  if (band.p10 && band.p90 && *band.p10 != *band.p90)
    words += fmt::format(" ({} to {})", day_words(*band.p10, today), day_words(*band.p90, today));
  return words;
}

std::string dates(const GraftSince& graft, const PageBasis& page) {
  std::string html = "<dl>";
  const auto row = [&](std::string_view what, const std::string& words) {
    html += fmt::format("<dt>{}</dt><dd>{}</dd>\n", what, html_sentence(words));
  };
  const LocalDay today = page.today();
  row("bridged", band_html(graft.bridged_on, today));
  row("drinking", band_html(graft.drinking_from, today));
  if (graft.bagged) row("open the bag from", band_html(graft.vent_bag_from, today));
  row("slit the wrap from", band_html(graft.slit_wrap_from, today));
  row("buds move", band_html(graft.buds_expected, today));
  row("so far", fmt::format("{}: {}; alive {}, will take {}", graft.verdict, graft.verdict_text,
                            percent_words(graft.alive), percent_words(graft.still_to_take)));
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
  return fmt::format("<div class=\"charts\"{} data-label=\"Hour on the charts of {}\">\n{}{}{}</div>\n",
                     hours.attributes(graft, days), html_sentence(graft.id), heat_figure(of),
                     water_figure(of), healing_figure(of));
}

std::vector<EventNote> advised_notes(const GraftMorning& graft) {
  const auto act = std::ranges::find(graft.actions, graft.advice.action, &ActionOutcome::action);
  return act == graft.actions.end() ? std::vector<EventNote>{} : act->notes;
}

std::string card(std::size_t index, const PageBasis& page, PageHours& hours) {
  const GraftMorning& graft = page.content.morning.grafts[index];
  const GraftSince* since = since_of(page.content, graft.id);
  return fmt::format(
      "<article class=\"card\" id=\"{0}\" aria-labelledby=\"h{1}\"><h3 id=\"h{1}\">{2}</h3><p "
      "class=\"q\">{3}</p>\n{4}{5}{6}"
      "</article>\n",
      card_id(index), index, html_long_name(graft.id), html_identity(graft),
      note_buttons(graft.id, graft.count, advised_notes(graft)),
      since == nullptr ? std::string{} : charts(*since, page, hours),
      since == nullptr ? std::string{} : dates(*since, page));
}

}  // namespace

std::string card_section(const PageBasis& page) {
  if (page.content.morning.grafts.empty()) return {};
  std::string html =
      "<section class=\"charts\" aria-labelledby=\"grafts\"><h2 id=\"grafts\">Graft by graft</h2>\n<p "
      "class=\"q\">Solid: up to now. "
      "Dashed, on the shaded ground: coming. A dotted upright: the forecast ends there, and other weather "
      "stands in. Ticks "
      "under a chart mark its hard days by their date. Charts show the hottest hour and the end of each day; "
      "an "
      "hour read out is the mean of what may be, so the hottest one can stay below the day's.</p>\n<div "
      "class=\"cards\">\n";
  PageHours hours(page);
  for (std::size_t i = 0; i < page.content.morning.grafts.size(); ++i) html += card(i, page, hours);
  return html + "</div>\n" + hours.shared() + "</section>\n";
}

}  // namespace graftcast
