#pragma once
// Sheets of labels for grafts: one HTML file to print, laid out in millimetres.

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "records/ledger.hpp"

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

/// Height of capitals that is read at arm's length [mm]: MIL-STD-1472F has 4.7 mm for labels seen from 0.5 to
/// 1 m (recalled); the 22 minutes of arc that ISO 9241-303 prefers are 4.5 mm at 0.7 m (as cited by others).
inline constexpr double arms_length_cap_mm = 4.7;

/// How an id is set on a label.
struct IdLetters {
  double cap_height_mm = 0;  ///< Of its capitals and figures.
  int lines = 1;             ///< More than one where it would else be too small for arm's length.
};

/// As large as fits, 12 mm at most: an id is never cut. Letters are taken as wide as bold sans-serif ones
/// get.
IdLetters id_letters(const SheetLayout& layout, std::string_view id);

/// Ids that are set smaller than `arms_length_cap_mm`, each once.
std::vector<std::string> ids_too_small(std::span<const GraftLabel> labels, const SheetLayout& layout);

/// Checks that at least one label fits on the page and that `first` is one of its places. Error: UsageError.
void check_layout(const SheetLayout& layout);

/// The sheets as self-contained HTML: no scripts, nothing is loaded. Names are shown as text, each isolated
/// in its direction of writing; what is too long for a label ends in an ellipsis, except for the id.
std::string label_sheet_html(std::span<const GraftLabel> labels, const SheetLayout& layout,
                             const std::string& site, const std::vector<std::string>& cautions);

}  // namespace graftcast
