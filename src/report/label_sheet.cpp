// Labels as HTML for print.

#include "graftcast/label_sheet.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "graftcast/text_layout.hpp"

namespace graftcast {

namespace {

constexpr double cap_share = 0.7;       ///< Height of a capital in sizes of a sans-serif letter, about.
constexpr double advance_share = 0.68;  ///< Width of a bold capital or figure, on the safe side.
constexpr double greatest_cap_mm = 12;
constexpr double id_height_share = 0.45;  ///< Of the label, for the id.
constexpr double padding_mm = 1.5;

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char letter : text) {
    switch (letter) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        safe += letter;
    }
  }
  return safe;
}

/// A name that came from a file: shown as text, whatever its direction of writing.
std::string shown_name(std::string_view text) {
  return fmt::format("<bdi>{}</bdi>", escaped(printable(text)));
}

double left_over(double page, double margin, int count, double size, double gap) {
  return std::max(margin, (page - count * size - (count - 1) * gap) / 2);
}

std::string style_sheet(const SheetLayout& s) {
  const double small_mm = std::clamp(s.label_height * 0.1, 2.2, 3.6);
  return fmt::format(
      "@page{{size:{0:.2f}mm {1:.2f}mm;margin:0}}\n"
      "html,body{{margin:0;padding:0;background:#fff;color:#000;font-family:sans-serif}}\n"
      ".sheet{{position:relative;width:{0:.2f}mm;height:{1:.2f}mm;overflow:hidden;break-after:page}}\n"
      ".sheet:last-of-type{{break-after:auto}}\n"
      ".label{{position:absolute;box-sizing:border-box;width:{2:.2f}mm;height:{3:.2f}mm;padding:{4}mm;"
      "border:.2mm dashed #767676;overflow:hidden;display:flex;flex-direction:column;"
      "justify-content:space-between}}\n"
      ".label p{{margin:0;overflow:hidden;white-space:nowrap;text-overflow:ellipsis;font-size:{5:.2f}mm;"
      "line-height:1.25}}\n"
      ".label .id{{font-weight:700;line-height:1.05;flex:none}}\n"
      ".note{{font-size:4mm;max-width:180mm;margin:5mm}}\n"
      "@media print{{.note{{display:none}}}}\n",
      s.page_width, s.page_height, s.label_width, s.label_height, padding_mm, small_mm);
}

std::string label_html(const GraftLabel& label, const SheetLayout& s, double left, double top) {
  const double letter_mm = id_cap_height_mm(s, display_width(label.id)) / cap_share;
  std::string html = fmt::format("<div class=\"label\" style=\"left:{:.2f}mm;top:{:.2f}mm\">", left, top);
  html += fmt::format("<p class=\"id\" style=\"font-size:{:.2f}mm\">{}</p>", letter_mm, shown_name(label.id));
  html += fmt::format("<p>{}</p><p>{} <span>{}</span></p></div>\n", shown_name(label.what),
                      shown_name(label.method), escaped(label.date));
  return html;
}

std::string sheets_html(std::span<const GraftLabel> labels, const SheetLayout& s) {
  const int columns = s.columns();
  const int places = columns * s.lines();
  const double left = left_over(s.page_width, s.margin, columns, s.label_width, s.gap);
  const double top = left_over(s.page_height, s.margin, s.lines(), s.label_height, s.gap);
  std::string html = "<section class=\"sheet\">\n";
  int place = s.first - 1;
  for (const GraftLabel& label : labels) {
    if (place == places) {
      html += "</section>\n<section class=\"sheet\">\n";
      place = 0;
    }
    html += label_html(label, s, left + (place % columns) * (s.label_width + s.gap),
                       top + (place / columns) * (s.label_height + s.gap));
    ++place;
  }
  return html + "</section>\n";
}

}  // namespace

int SheetLayout::columns() const {
  return static_cast<int>(std::floor((page_width - 2 * margin + gap + 1e-9) / (label_width + gap)));
}

int SheetLayout::lines() const {
  return static_cast<int>(std::floor((page_height - 2 * margin + gap + 1e-9) / (label_height + gap)));
}

std::vector<GraftLabel> graft_labels(std::span<const GraftRow> rows, bool each_graft, int copies) {
  std::vector<GraftLabel> labels;
  for (const GraftRow& row : rows) {
    std::string what = row.scion.empty() ? row.species : row.scion;
    if (!row.stock.empty()) what += " on " + row.stock;
    const int times = copies * (each_graft ? row.count : 1);
    labels.insert(labels.end(), static_cast<std::size_t>(times),
                  {row.id, what, row.method, day_text(row.grafted_on)});
  }
  return labels;
}

double id_cap_height_mm(const SheetLayout& layout, std::size_t letters) {
  const double by_height = layout.label_height * id_height_share / 1.05 * cap_share;
  const double width = layout.label_width - 2 * padding_mm - 0.4;
  const double by_width =
      width / (static_cast<double>(std::max<std::size_t>(letters, 1)) * advance_share) * cap_share;
  return std::max(2.0, std::min({greatest_cap_mm, by_height, by_width}));
}

void check_layout(const SheetLayout& layout) {
  if (layout.columns() < 1 || layout.lines() < 1)
    throw UsageError(
        fmt::format("no label of {:g} x {:g} mm fits on a page of {:g} x {:g} mm", layout.label_width,
                    layout.label_height, layout.page_width, layout.page_height),
        "give a smaller --size or --margin");
  const int places = layout.columns() * layout.lines();
  if (layout.first < 1 || layout.first > places)
    throw UsageError(fmt::format("a page has {} labels, so --from cannot be {}", places, layout.first),
                     fmt::format("give 1 to {}", places));
}

std::string label_sheet_html(std::span<const GraftLabel> labels, const SheetLayout& layout,
                             const std::string& site, const std::vector<std::string>& cautions) {
  std::string html =
      "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n";
  html += fmt::format("<title>Labels: {}</title>\n<style>\n{}</style>\n</head>\n<body>\n",
                      escaped(printable(site)), style_sheet(layout));
  html += "<div class=\"note\">\n<p>Print at 100 %, without margins of the printer's own. Not printed:</p>\n";
  for (const std::string& caution : cautions) html += fmt::format("<p>{}</p>\n", escaped(printable(caution)));
  return html + "</div>\n<main>\n" + sheets_html(labels, layout) + "</main>\n</body>\n</html>\n";
}

}  // namespace graftcast
