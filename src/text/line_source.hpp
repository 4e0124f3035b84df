#pragma once
// Where the lines of a delimited text come from: a file (plain or gzip) or memory (private to the layer).

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include <libfccp/csv.h>

#include "graftcast/error.hpp"

namespace graftcast {

/// A byte source for io::LineReader that refuses what is not single-byte text and always ends with a line
/// end. LineReader needs three things of it: each read filled completely unless the end is reached, no NUL
/// byte (its lines end with one), and a final line end (without it, a byte left over in its buffer can be
/// taken for one).
class CheckedByteSource : public io::ByteSourceBase {
 public:
  explicit CheckedByteSource(std::string name) : name_(std::move(name)) {}
  /// Errors: OpenError, DataError (UTF-16, NUL byte, damaged gzip).
  int read(char* buffer, int size) final;

 protected:
  const std::string& name() const noexcept { return name_; }
  Position position() const { return {name_, lines_before_ + 1, bytes_in_line_ + 1}; }

 private:
  /// Up to `size` bytes; 0 only at the end.
  virtual std::size_t fill(char* buffer, std::size_t size) = 0;
  std::size_t fill_completely(char* buffer, std::size_t size);
  void check(std::string_view block);
  void advance(std::string_view block);

  std::string name_;
  std::size_t lines_before_ = 0;
  std::size_t bytes_in_line_ = 0;
  bool begun_ = false;
  bool ended_ = false;
};

std::unique_ptr<io::ByteSourceBase> file_source(const std::filesystem::path& path, const std::string& name);
std::unique_ptr<io::ByteSourceBase> memory_source(std::string_view text, const std::string& name);

}  // namespace graftcast
