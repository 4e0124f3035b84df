#include "line_reader.hpp"

#include <algorithm>

namespace graftcast {

namespace {

constexpr std::size_t block_bytes = 64U << 10U;

}  // namespace

/// Moves the rest to the front and reads behind it; false at the end of the source.
bool LineReader::read_more() {
  std::copy(rest().begin(), rest().end(), buffer_.begin());
  end_ -= begin_;
  begin_ = 0;
  if (end_ + block_bytes > buffer_.size()) buffer_.resize(std::max(2 * buffer_.size(), end_ + block_bytes));
  const std::size_t count = source_->read(buffer_.data() + end_, buffer_.size() - end_);
  end_ += count;
  return count > 0;
}

void LineReader::pass_mark() {
  if (rest().starts_with("\xEF\xBB\xBF")) begin_ += 3;
}

std::optional<std::string_view> LineReader::next() {
  if (buffer_.empty() && read_more()) pass_mark();
  std::size_t length = rest().find('\n');
  while (length == std::string_view::npos) {
    const std::size_t looked_at = end_ - begin_;
    if (looked_at > longest_line_bytes_ + 2) break;  // With an end of two bytes it would still be too long.
    if (!read_more()) {
      if (looked_at == 0) return std::nullopt;
      length = looked_at;
      break;
    }
    length = rest().find('\n', looked_at);
  }
  ++line_;
  std::string_view text = rest().substr(0, length);
  begin_ += std::min(text.size() + 1, end_ - begin_);
  if (text.ends_with('\r')) text.remove_suffix(1);
  if (text.size() > longest_line_bytes_)
    throw DataError({source_->name(), line_, 1}, "the line is longer than a mebibyte",
                    "check that this is a table of text");
  return text;
}

}  // namespace graftcast
