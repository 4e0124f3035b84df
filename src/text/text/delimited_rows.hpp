#pragma once
// Rows of delimited text (RFC 4180 quoting; comma, semicolon or tab), streamed one at a time.

#include <cstddef>
#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "graftcast/error.hpp"

namespace graftcast {

/// One field of a row: its text without quotes, and the column (counted in bytes from 1) where it begins.
struct Field {
  std::string_view text;
  std::size_t column = 1;
};

/// Streams the rows of a delimited text file. Memory use does not grow with the file.
///
/// Accepts UTF-8 with or without a byte-order mark, LF or CRLF ends, and quoted fields that hold the
/// delimiter, doubled quotes or line breaks. Blank rows are passed over. gzip input is recognised by its
/// first bytes. Errors: OpenError when the file cannot be read or is a folder; DataError (with line and
/// column) on UTF-16, on a NUL byte, on a quote that is never closed, and on a line longer than one mebibyte.
class DelimitedRows {
 public:
  /// Opens `path`; `shown_name` is what messages call it (default: the path). Delimiter 0 means: decide from
  /// the first non-blank line (the most frequent of tab, semicolon and comma outside quotes).
  explicit DelimitedRows(const std::filesystem::path& path, char delimiter = ',',
                         std::string shown_name = {});
  /// Reads from memory, for tests, fuzzers and standard input. `text` must outlive the reader.
  static DelimitedRows from_memory(std::string_view text, char delimiter, std::string shown_name);
  ~DelimitedRows();
  DelimitedRows(DelimitedRows&&) noexcept;
  DelimitedRows& operator=(DelimitedRows&&) noexcept;

  /// Moves to the next row; false at the end. Fields are views into the reader and live until the next call.
  bool next();
  const std::vector<Field>& fields() const;
  /// The row's unsplit text (without the line end).
  std::string_view raw() const;
  /// Line number (from 1) on which the current row begins.
  std::size_t line() const;
  char delimiter() const;
  const std::string& name() const;
  /// Position of field `index` of the current row, or of the row's end when there is no such field.
  Position position(std::size_t index) const;

 private:
  struct State;
  explicit DelimitedRows(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

/// `text` as one RFC 4180 field: quoted only when it holds a comma, a quote or a line break, or has blanks at
/// its ends.
std::string quoted_field(std::string_view text);

}  // namespace graftcast
