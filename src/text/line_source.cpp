#include "line_source.hpp"

#include <zlib.h>

#include <algorithm>

#include "encoding.hpp"
#include "open_file.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

class MemorySource final : public CheckedByteSource {
 public:
  MemorySource(std::string_view text, const std::string& name) : CheckedByteSource(name), rest_(text) {}

 private:
  std::size_t fill(char* buffer, std::size_t size) override {
    const std::size_t count = rest_.copy(buffer, size);
    rest_.remove_prefix(count);
    return count;
  }

  std::string_view rest_;
};

// zlib passes plain files through and inflates those that begin with gzip's magic number.
class FileSource final : public CheckedByteSource {
 public:
  FileSource(const std::filesystem::path& path, const std::string& name) : CheckedByteSource(name) {
    OpenFile file(path, name);
    stream_.reset(gzdopen(file.release(), "rb"));
    if (!stream_) throw OpenError(name, tr("cannot be opened: {reason}", "reason"_a = tr("out of memory")));
    gzbuffer(stream_.get(), buffer_bytes);
  }

 private:
  static constexpr unsigned buffer_bytes = 256U << 10U;

  struct Closer {
    void operator()(gzFile stream) const { gzclose_r(stream); }
  };

  std::size_t fill(char* buffer, std::size_t size) override {
    const int count = gzread(stream_.get(), buffer, static_cast<unsigned>(size));
    int fault = Z_OK;
    const char* text = gzerror(stream_.get(), &fault);
    if (fault == Z_ERRNO) throw OpenError(name(), tr("cannot be read: {reason}", "reason"_a = text));
    // Z_BUF_ERROR is how zlib says that a gzip file ends too early.
    if (count < 0 || fault == Z_BUF_ERROR) {
      throw DataError(position(), tr("the gzip data is damaged or cut short"), tr("fetch the file again"));
    }
    return static_cast<std::size_t>(count);
  }

  std::unique_ptr<gzFile_s, Closer> stream_;
};

}  // namespace

int CheckedByteSource::read(char* buffer, int size) {
  if (ended_ || size <= 0) return 0;
  const auto wanted = static_cast<std::size_t>(size);
  std::size_t count = fill_completely(buffer, wanted);
  check({buffer, count});
  advance({buffer, count});
  if (count < wanted) {
    ended_ = true;
    if (bytes_in_line_ > 0) buffer[count++] = '\n';
  }
  return static_cast<int>(count);
}

std::size_t CheckedByteSource::fill_completely(char* buffer, std::size_t size) {
  std::size_t filled = 0;
  while (filled < size) {
    const std::size_t count = fill(buffer + filled, size - filled);
    if (count == 0) break;
    filled += count;
  }
  return filled;
}

void CheckedByteSource::check(std::string_view block) {
  if (!begun_ && looks_like_utf16(block)) throw utf16_error(name_);
  begun_ = true;
  const std::size_t nul = block.find('\0');
  if (nul == std::string_view::npos) return;
  advance(block.substr(0, nul));
  throw nul_error(position());
}

void CheckedByteSource::advance(std::string_view block) {
  const std::size_t last_break = block.rfind('\n');
  if (last_break == std::string_view::npos) {
    bytes_in_line_ += block.size();
    return;
  }
  lines_before_ += static_cast<std::size_t>(std::count(block.begin(), block.end(), '\n'));
  bytes_in_line_ = block.size() - last_break - 1;
}

std::unique_ptr<io::ByteSourceBase> file_source(const std::filesystem::path& path, const std::string& name) {
  return std::make_unique<FileSource>(path, name);
}

std::unique_ptr<io::ByteSourceBase> memory_source(std::string_view text, const std::string& name) {
  return std::make_unique<MemorySource>(text, name);
}

}  // namespace graftcast
