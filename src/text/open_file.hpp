#pragma once
// A file opened for reading (private to the layer).

#include <filesystem>
#include <string>

namespace graftcast {

/// Owns a descriptor open for reading.
/// Errors of the constructor and of `read`: OpenError (absent, folder, no permission, read fault).
class OpenFile {
 public:
  OpenFile(const std::filesystem::path& path, std::string shown_name);
  ~OpenFile();
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;

  const std::string& name() const noexcept { return name_; }
  /// Reads up to `size` bytes; 0 only at the end.
  std::size_t read(char* buffer, std::size_t size) const;
  /// Gives the descriptor away; the caller closes it.
  int release() noexcept;

 private:
  std::string name_;
  int descriptor_ = -1;
};

}  // namespace graftcast
