#pragma once
// A table of text columns (private to the layer).

#include <cstdint>
#include <string>
#include <vector>

#include "report/terminal_style.hpp"

namespace graftcast {

enum class Align : std::uint8_t { left, right };

class TextTable {
 public:
  struct Column {
    std::string heading;
    Align align = Align::left;
  };

  explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}

  /// One cell a column.
  void add(std::vector<std::string> cells) { rows_.push_back(std::move(cells)); }

  /// Headings, then rows; columns are as wide as their widest cell, two blanks apart (one where the terminal
  /// is narrow). Where that is too wide a long name in the first column is cut, a text in the last one that
  /// is seen too, and what has no room for more than a stump is left out: a cut figure would be another.
  std::string text(const TerminalStyle& style) const;

 private:
  static constexpr std::size_t least_cut_column = 8;

  std::vector<std::size_t> widths() const;
  /// How many columns are shown.
  std::size_t columns_within(const std::vector<std::size_t>& widths, std::size_t between,
                             std::size_t limit) const;
  std::string line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                   std::size_t between, std::size_t shown) const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace graftcast
