#pragma once
// Where the lines of a delimited text come from: a file (plain or gzip) or memory (private to the layer).

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>

#include "graftcast/error.hpp"

namespace graftcast {

/// Bytes from somewhere, refused where they are no text of single bytes: no NUL, no UTF-16.
class CheckedByteSource {
 public:
  explicit CheckedByteSource(std::string name) : name_(std::move(name)) {}
  virtual ~CheckedByteSource() = default;
  CheckedByteSource(const CheckedByteSource&) = delete;
  CheckedByteSource& operator=(const CheckedByteSource&) = delete;

  /// Fills `buffer` completely unless the end is reached; 0 there. Errors: OpenError, DataError (UTF-16, NUL
  /// byte, damaged gzip).
  std::size_t read(char* buffer, std::size_t size);
  const std::string& name() const noexcept { return name_; }

 protected:
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
};

std::unique_ptr<CheckedByteSource> file_source(const std::filesystem::path& path, const std::string& name);
std::unique_ptr<CheckedByteSource> memory_source(std::string_view text, const std::string& name);

}  // namespace graftcast
