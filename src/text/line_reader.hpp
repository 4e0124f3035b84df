#pragma once
// Lines of a byte source (private to the layer).

#include <memory>
#include <optional>
#include <string_view>
#include <vector>

#include "line_source.hpp"

namespace graftcast {

/// Holds some lines at a time, so that memory does not grow with the file; a byte-order mark in front is
/// passed over.
class LineReader {
 public:
  /// A line longer than `longest_line_bytes` is an error.
  LineReader(std::unique_ptr<CheckedByteSource> source, std::size_t longest_line_bytes)
      : source_(std::move(source)), longest_line_bytes_(longest_line_bytes) {}

  /// The next line without its end (LF or CRLF), or nothing. Valid until the next call. Errors: those of the
  /// source; DataError for a line that is too long.
  std::optional<std::string_view> next();
  /// Number of the line given last, from 1 on.
  std::size_t line() const { return line_; }

 private:
  std::string_view rest() const { return {buffer_.data() + begin_, end_ - begin_}; }
  bool read_more();
  void pass_mark();

  std::unique_ptr<CheckedByteSource> source_;
  std::size_t longest_line_bytes_;
  std::vector<char> buffer_;
  std::size_t begin_ = 0, end_ = 0;  ///< What of the buffer has not been given yet.
  std::size_t line_ = 0;
};

}  // namespace graftcast
