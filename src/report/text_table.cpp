#include "text_table.hpp"

#include <algorithm>
#include <numeric>

#include "report/text_layout.hpp"

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

std::size_t TextTable::columns_within(const std::vector<std::size_t>& widths, std::size_t between,
                                      std::size_t limit) const {
  std::size_t end = 0;
  for (std::size_t column = 0; column < widths.size(); ++column) {
    const std::size_t begin = column == 0 ? 0 : end + between;
    end = begin + widths[column];
    if (end <= limit || column == 0) continue;
    const bool worth_cutting = columns_[column].align == Align::left && begin + least_cut_column <= limit;
    return worth_cutting ? column + 1 : column;
  }
  return widths.size();
}

std::string TextTable::line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                            std::size_t between, std::size_t shown) const {
  std::string line;
  for (std::size_t column = 0; column < shown; ++column) {
    if (column > 0) line += std::string(between, ' ');
    line += columns_[column].align == Align::left ? padded_right(cells[column], widths[column])
                                                  : padded_left(cells[column], widths[column]);
  }
  return line.substr(0, line.find_last_not_of(' ') + 1);
}

std::string TextTable::text(const TerminalStyle& style) const {
  std::vector<std::size_t> widths = this->widths();
  const std::size_t limit = std::max(style.width, least_width);
  const std::size_t gaps = widths.size() - 1;
  const std::size_t wide = std::accumulate(widths.begin(), widths.end(), 2 * gaps);
  const std::size_t between = wide > limit ? 1 : 2;
  // A long name in front gives way, so that what is said of it is seen.
  if (wide > limit + gaps && columns_[0].align == Align::left)
    widths[0] = std::min(widths[0], std::max(limit / 3, least_cut_column));
  const std::size_t shown = columns_within(widths, between, limit);
  const auto cut = [&](std::vector<std::string> cells) {
    cells[0] = clipped(cells[0], widths[0], cut_mark(style));
    return clipped(line(cells, widths, between, shown), limit, cut_mark(style));
  };
  std::vector<std::string> headings;
  for (const Column& column : columns_) headings.push_back(column.heading);
  std::string text = painted(style, Tone::strong, cut(headings)) + '\n';
  for (const auto& row : rows_) text += cut(row) + '\n';
  return text;
}

}  // namespace graftcast
