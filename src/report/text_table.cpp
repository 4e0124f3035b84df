#include "text_table.hpp"

#include <algorithm>
#include <numeric>

#include "graftcast/text_layout.hpp"

namespace graftcast {

std::vector<std::size_t> TextTable::widths() const {
  std::vector<std::size_t> widths;
  for (std::size_t column = 0; column < columns_.size(); ++column) {
    std::size_t widest = display_width(columns_[column].heading);
    for (const auto& row : rows_) widest = std::max(widest, display_width(row[column]));
    widths.push_back(widest);
  }
  return widths;
}

std::string TextTable::line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                            std::size_t between) const {
  std::string line;
  for (std::size_t column = 0; column < columns_.size(); ++column) {
    if (column > 0) line += std::string(between, ' ');
    line += columns_[column].align == Align::left ? padded_right(cells[column], widths[column])
                                                  : padded_left(cells[column], widths[column]);
  }
  return line.substr(0, line.find_last_not_of(' ') + 1);
}

std::string TextTable::text(const TerminalStyle& style) const {
  const std::vector<std::size_t> widths = this->widths();
  const std::size_t wide = std::accumulate(widths.begin(), widths.end(), 2 * (widths.size() - 1));
  const std::size_t between = wide > style.width ? 1 : 2;
  const std::size_t limit = std::max(style.width, least_width);
  std::vector<std::string> headings;
  for (const Column& column : columns_) headings.push_back(column.heading);
  std::string text =
      painted(style, Tone::strong, clipped(line(headings, widths, between), limit, cut_mark(style))) + '\n';
  for (const auto& row : rows_) text += clipped(line(row, widths, between), limit, cut_mark(style)) + '\n';
  return text;
}

}  // namespace graftcast
