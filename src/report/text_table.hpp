#pragma once
// A table of text columns (private to the layer).

#include <cstdint>
#include <string>
#include <vector>

#include "graftcast/terminal_style.hpp"

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
  /// is narrow). Lines are cut at the style's width.
  std::string text(const TerminalStyle& style) const;

 private:
  std::vector<std::size_t> widths() const;
  std::string line(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                   std::size_t between) const;

  std::vector<Column> columns_;
  std::vector<std::vector<std::string>> rows_;
};

}  // namespace graftcast
