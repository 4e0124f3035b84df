#pragma once
// Sheets of labels for grafts: one HTML file to print, laid out in millimetres.

#include <span>
#include <string>
#include <vector>

#include "graftcast/ledger.hpp"

namespace graftcast {

/// Measures of a sheet, all in mm.
struct SheetLayout {
  double page_width = 210, page_height = 297;
  double label_width = 60, label_height = 30;
  double margin = 8;  ///< At each edge of the page, at least; what is left over is shared by both sides.
  double gap = 3;
  int first = 1;  ///< Place on the first page that is still free, from 1, along the lines.

  int columns() const;
  int lines() const;
};

/// What stands on one label.
struct GraftLabel {
  std::string id, what, method, date;
};

/// One label a row, or one for each graft of it; each `copies` times.
std::vector<GraftLabel> graft_labels(std::span<const GraftRow> rows, bool each_graft, int copies);

/// Height of the capitals of an id of `letters` letters on such a label [mm]: as large as fits, 12 at most.
double id_cap_height_mm(const SheetLayout& layout, std::size_t letters);

/// Checks that at least one label fits on the page and that `first` is one of its places. Error: UsageError.
void check_layout(const SheetLayout& layout);

/// The sheets as self-contained HTML: no scripts, nothing is loaded. Names are shown as text, each isolated
/// in its direction of writing and clipped at the label's edge.
std::string label_sheet_html(std::span<const GraftLabel> labels, const SheetLayout& layout,
                             const std::string& site, const std::vector<std::string>& cautions);

}  // namespace graftcast
