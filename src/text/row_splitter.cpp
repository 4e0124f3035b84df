#include "row_splitter.hpp"
#include "text/tr.hpp"

namespace graftcast {

void QuoteScan::pass(std::string_view piece) {
  for (const char letter : piece) {
    step(letter);
    ++offset_;
  }
}

void QuoteScan::step(char letter) {
  const bool is_quote = letter == '"';
  if (state_ == At::inside_quotes) {
    if (is_quote) state_ = At::after_quote;
  } else if (is_quote && state_ == At::field_start) {
    state_ = At::inside_quotes;
    opening_offset_ = offset_;
  } else if (is_quote && state_ == At::after_quote) {
    state_ = At::inside_quotes;  // A doubled quote within the field.
  } else {
    state_ = letter == delimiter_ ? At::field_start : At::plain;
  }
}

std::optional<RowSplitter::Fault> RowSplitter::split(std::string_view row, char delimiter) {
  fields_.clear();
  offsets_.clear();
  unquoted_used_ = 0;
  line_start_ = 0;
  for (std::size_t begin = 0;; ++begin) {
    const bool quoted = begin < row.size() && row[begin] == '"';
    begin = quoted ? take_quoted(row, begin) : take_plain(row, begin, delimiter);
    if (begin >= row.size()) return std::nullopt;
    if (row[begin] == '\r')
      return Fault{begin, tr("a carriage return stands within the line"), tr("end lines with LF or CRLF")};
    if (row[begin] != delimiter) {
      return Fault{begin, tr("text follows the closing quotation mark of a field"),
                   tr("double the quotes inside a field")};
    }
  }
}

// Returns the offset of what ends the field.
std::size_t RowSplitter::take_plain(std::string_view row, std::size_t begin, char delimiter) {
  std::size_t end = begin;
  while (end < row.size() && row[end] != delimiter && row[end] != '\r') ++end;
  add(begin, row.substr(begin, end - begin));
  return end;
}

std::size_t RowSplitter::take_quoted(std::string_view row, std::size_t begin) {
  bool has_doubled = false;
  std::size_t end = row.find('"', begin + 1);
  while (end + 1 < row.size() && row[end + 1] == '"') {
    has_doubled = true;
    end = row.find('"', end + 2);
  }
  const std::string_view text = row.substr(begin + 1, end - begin - 1);
  if (has_doubled && unquoted_.size() < row.size()) unquoted_.resize(row.size());
  add(begin, has_doubled ? without_doubled_quotes(text) : text);
  const std::size_t line_break = text.rfind('\n');
  if (line_break != std::string_view::npos) line_start_ = begin + 1 + line_break + 1;
  return end + 1;
}

std::string_view RowSplitter::without_doubled_quotes(std::string_view text) {
  const std::size_t begin = unquoted_used_;
  for (std::size_t k = 0; k < text.size(); ++k) {
    unquoted_[unquoted_used_++] = text[k];
    if (text[k] == '"') ++k;
  }
  return std::string_view(unquoted_).substr(begin, unquoted_used_ - begin);
}

void RowSplitter::add(std::size_t begin, std::string_view text) {
  fields_.push_back({text, begin - line_start_ + 1});
  offsets_.push_back(begin);
}

}  // namespace graftcast
