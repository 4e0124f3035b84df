// Labels as HTML for print.

#include "report/label_sheet.hpp"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "page_markup.hpp"
#include "report/text_layout.hpp"
#include "text/tr.hpp"
#include "words/graft_words.hpp"

namespace graftcast {

namespace {

constexpr double cap_share = 0.7;  ///< Height of a capital in sizes of a sans-serif letter, about.
constexpr double greatest_cap_mm = 12;
constexpr double least_cap_mm = 1;
constexpr double id_height_share = 0.5;  ///< Of the label, for the id.
constexpr double id_line = 1.05;         ///< Height of its lines, in sizes of the letter.
constexpr double small_line = 1.25;
constexpr double cut_line_mm = 0.2;

/// A name that came from a file: shown as text, whatever its direction of writing.
std::string shown_name(std::string_view text) {
  return html_name(printable(text));
}

double left_over(double page, double margin, int count, double size, double gap) {
  return std::max(margin, (page - count * size - (count - 1) * gap) / 2);
}

double padding_mm(const SheetLayout& s) {
  return std::min(1.5, 0.06 * s.label_height);
}

/// What the id leaves for the lines below it.
double small_room_mm(const SheetLayout& s) {
  return s.label_height * (1 - id_height_share) - 2 * (padding_mm(s) + cut_line_mm);
}

/// Three lines where they can be read well, else two.
double small_letter_mm(const SheetLayout& s) {
  constexpr double well_read_mm = 2.8;
  const double three = small_room_mm(s) / (3 * small_line);
  if (three >= well_read_mm) return std::min(three, 3.6);
  return std::clamp(small_room_mm(s) / (2 * small_line), 1.2, well_read_mm);
}

/// Lines for scion and stock; the last line is that of method and date.
int lines_of_names(const SheetLayout& s) {
  const int lines = static_cast<int>(small_room_mm(s) / (small_letter_mm(s) * small_line) + 1e-6);
  return std::clamp(lines - 1, 1, 3);
}

/// Width of `letter` in sizes of the letter: the widest of the usual bold sans-serif faces (measured).
double advance_of(char letter) {
  constexpr std::string_view broad = "MWmw@%";
  constexpr std::string_view thin = "-.'!|/\\()[]{};iIjl";
  if (broad.find(letter) != std::string_view::npos) return 1.12;
  if (thin.find(letter) != std::string_view::npos) return 0.47;
  return letter >= '0' && letter <= '9' ? 0.7 : 0.86;
}

/// Widths of all letters of `id`, and that of its widest.
std::pair<double, double> advances_of(std::string_view id) {
  double sum = 0;
  double widest = 0;
  for (std::size_t at = 0; at < id.size();) {
    std::size_t end = at + 1;
    while (end < id.size() && (static_cast<unsigned char>(id[end]) & 0xC0U) == 0x80U) ++end;
    const bool is_ascii = static_cast<unsigned char>(id[at]) < 0x80U;
    const bool is_wide = display_width(id.substr(at, end - at)) > 1;
    const double advance = is_ascii ? advance_of(id[at]) : is_wide ? 1.3 : 1.12;
    sum += advance;
    widest = std::max(widest, advance);
    at = end;
  }
  return {sum, widest};
}

double cap_on_lines(const SheetLayout& s, std::string_view id, int lines) {
  const auto [sum, widest] = advances_of(id);
  // Lines are broken between letters, so each but the last may end short of its edge by one letter.
  const double advance = lines == 1 ? sum : sum / lines + widest;
  const double by_height = s.label_height * id_height_share / (id_line * lines);
  const double by_width =
      (s.label_width - 2 * (padding_mm(s) + cut_line_mm)) / std::max(advance, advance_of('0'));
  return std::clamp(std::min(by_height, by_width) * cap_share, least_cap_mm, greatest_cap_mm);
}

std::string style_sheet(const SheetLayout& s) {
  return fmt::format(
      "@page{{size:{0:.2f}mm {1:.2f}mm;margin:0}}\n"
      "html,body{{margin:0;padding:0;background:#fff;color:#000;font-family:Arial,\"Liberation "
      "Sans\",Helvetica,sans-serif}}\n"
      ".sheet{{position:relative;width:{0:.2f}mm;height:{1:.2f}mm;overflow:hidden;break-after:page}}\n"
      ".sheet:last-of-type{{break-after:auto}}\n"
      ".label{{position:absolute;box-sizing:border-box;width:{2:.2f}mm;height:{3:.2f}mm;padding:{4:.2f}mm;"
      "border:{7}mm dashed #767676;overflow:hidden;display:flex;flex-direction:column;"
      "justify-content:space-between}}\n"
      ".label p{{margin:0;overflow:hidden;white-space:nowrap;text-overflow:ellipsis;font-size:{5:.2f}mm;"
      "line-height:{8}}}\n"
      ".label .names{{white-space:normal;overflow-wrap:anywhere;display:-webkit-box;-webkit-box-orient:"
      "vertical;-webkit-line-clamp:{6}}}\n"
      ".label .id{{font-weight:700;line-height:{9};flex:none;white-space:normal;line-break:anywhere;"
      "text-overflow:clip}}\n"
      ".label .made{{display:flex;justify-content:space-between;gap:1mm}}\n"
      ".made span{{flex:none}}.made bdi{{overflow:hidden;text-overflow:ellipsis}}\n"
      ".note{{font-size:4mm;max-width:180mm;margin:5mm}}\n"
      "@media print{{.note{{display:none}}}}\n",
      s.page_width, s.page_height, s.label_width, s.label_height, padding_mm(s), small_letter_mm(s),
      lines_of_names(s), cut_line_mm, small_line, id_line);
}

std::string label_html(const GraftLabel& label, const SheetLayout& s, double left, double top) {
  const double letter_mm = id_letters(s, label.id).cap_height_mm / cap_share;
  return fmt::format(
      "<div class=\"label\" style=\"left:{:.2f}mm;top:{:.2f}mm\"><p class=\"id\" "
      "style=\"font-size:{:.2f}mm\">{}</p><p class=\"names\">{}</p><p class=\"made\">{}<span>{}</span></p>"
      "</div>\n",
      left, top, letter_mm, shown_name(label.id), shown_name(label.what), shown_name(label.method),
      html_text(label.date));
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
    const int line = place / columns;
    html += label_html(label, s, left + (place % columns) * (s.label_width + s.gap),
                       top + line * (s.label_height + s.gap));
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
    const std::string what = scion_on_stock_words(row.scion.empty() ? row.species : row.scion, row.stock);
    const int times = copies * (each_graft ? row.count : 1);
    labels.insert(labels.end(), static_cast<std::size_t>(times),
                  {row.id, what, row.method, day_text(row.grafted_on)});
  }
  return labels;
}

IdLetters id_letters(const SheetLayout& layout, std::string_view id) {
  IdLetters best{cap_on_lines(layout, id, 1), 1};
  for (const int lines : {2, 3}) {
    if (best.cap_height_mm >= arms_length_cap_mm) break;
    const double cap = cap_on_lines(layout, id, lines);
    if (cap > best.cap_height_mm) best = {cap, lines};
  }
  return best;
}

std::vector<std::string> ids_too_small(std::span<const GraftLabel> labels, const SheetLayout& layout) {
  std::vector<std::string> ids;
  for (const GraftLabel& label : labels) {
    if (id_letters(layout, label.id).cap_height_mm < arms_length_cap_mm &&
        (ids.empty() || ids.back() != label.id))
      ids.push_back(label.id);
  }
  return ids;
}

void check_layout(const SheetLayout& layout) {
  if (layout.columns() < 1 || layout.lines() < 1) {
    throw UsageError(
        tr("no label of {width:g} x {height:g} mm fits on a page of {page_width:g} x {page_height:g} mm",
           "width"_a = layout.label_width, "height"_a = layout.label_height,
           "page_width"_a = layout.page_width, "page_height"_a = layout.page_height),
        tr("give a smaller --size or --margin"));
  }
  const int places = layout.columns() * layout.lines();
  if (layout.first < 1 || layout.first > places) {
    throw UsageError(trn("a page has {n} label, so --from cannot be {place}",
                         "a page has {n} labels, so --from cannot be {place}", places, "n"_a = places,
                         "place"_a = layout.first),
                     tr("give 1 to {n}", "n"_a = places));
  }
}

std::string label_sheet_html(std::span<const GraftLabel> labels, const SheetLayout& layout,
                             const std::string& site, const std::vector<std::string>& cautions) {
  std::string html = fmt::format(
      "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
      "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
      "'unsafe-inline'\">\n"
      "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n",
      html_language());
  html += fmt::format("<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n",
                      html_text(tr("Labels: {site}", "site"_a = printable(site))), style_sheet(layout));
  html += fmt::format(
      "<div class=\"note\">\n<p>{}</p>\n",
      html_text(tr("Print at 100 %, without margins of the printer's own. These lines are not printed.")));
  for (const std::string& caution : cautions)
    html += fmt::format("<p>{}</p>\n", html_text(printable(caution)));
  return html + "</div>\n<main>\n" + sheets_html(labels, layout) + "</main>\n</body>\n</html>\n";
}

}  // namespace graftcast
