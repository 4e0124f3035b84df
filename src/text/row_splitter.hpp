#pragma once
// Splits one row of delimited text into its fields (RFC 4180, private to the layer).

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "text/delimited_rows.hpp"

namespace graftcast {

/// Follows the quotes of a row, piece by piece, to know whether it ends within a quoted field.
class QuoteScan {
 public:
  explicit QuoteScan(char delimiter) : delimiter_(delimiter) {}
  void pass(std::string_view piece);
  bool is_open() const noexcept { return state_ == At::inside_quotes; }
  /// Offset of the quotation mark that opened the quoted field last seen.
  std::size_t opening_offset() const noexcept { return opening_offset_; }

 private:
  enum class At { field_start, inside_quotes, after_quote, plain };
  void step(char letter);

  char delimiter_;
  At state_ = At::field_start;
  std::size_t offset_ = 0;
  std::size_t opening_offset_ = 0;
};

/// Splits rows; keeps its buffers from row to row, so that nothing is allocated once they are large enough.
class RowSplitter {
 public:
  struct Fault {
    std::size_t offset;
    std::string message;
    std::string hint;
  };

  /// Splits a complete row. The fields are views into `row` and into this splitter.
  std::optional<Fault> split(std::string_view row, char delimiter);
  const std::vector<Field>& fields() const noexcept { return fields_; }
  /// Offset in the row at which each field begins.
  const std::vector<std::size_t>& offsets() const noexcept { return offsets_; }

 private:
  std::size_t take_plain(std::string_view row, std::size_t begin, char delimiter);
  std::size_t take_quoted(std::string_view row, std::size_t begin);
  std::string_view without_doubled_quotes(std::string_view text);
  void add(std::size_t begin, std::string_view text);

  std::vector<Field> fields_;
  std::vector<std::size_t> offsets_;
  std::string
      unquoted_;  // Texts of fields with doubled quotes; as long as the row, so that views stay valid.
  std::size_t unquoted_used_ = 0;
  std::size_t line_start_ = 0;  // Offset at which the line of the row begins that the next field stands in.
};

}  // namespace graftcast
