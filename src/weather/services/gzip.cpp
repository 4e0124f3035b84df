#include "services/gzip.hpp"

#include <array>
#include <memory>
#include <new>

#include <zlib.h>

#include "graftcast/error.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

constexpr int gzip_window = 15 + 16;  // Largest window, gzip head and tail.

Bytef* bytes_of(std::string_view text) {
  // zlib does not write to its input, but its interface of old takes it without const.
  return const_cast<Bytef*>(reinterpret_cast<const Bytef*>(text.data()));
}

struct InflateEnd {
  void operator()(z_stream* stream) const { inflateEnd(stream); }
};

}  // namespace

std::string gzip_compressed(std::string_view plain) {
  z_stream stream{};
  constexpr int usual_memory = 8;
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, gzip_window, usual_memory, Z_DEFAULT_STRATEGY) !=
      Z_OK)
    throw std::bad_alloc();
  std::string packed(deflateBound(&stream, plain.size()), '\0');
  stream.next_in = bytes_of(plain);
  stream.avail_in = static_cast<uInt>(plain.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  deflate(&stream, Z_FINISH);  // The bound leaves room for all of it.
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

std::string gzip_expanded(std::string_view bytes, std::size_t limit_bytes, const std::string& name) {
  z_stream stream{};
  if (inflateInit2(&stream, gzip_window) != Z_OK) throw std::bad_alloc();
  const std::unique_ptr<z_stream, InflateEnd> end(&stream);
  stream.next_in = bytes_of(bytes);
  stream.avail_in = static_cast<uInt>(bytes.size());
  std::string plain;
  std::array<char, 1U << 16U> piece{};
  for (int code = Z_OK; code != Z_STREAM_END;) {
    stream.next_out = reinterpret_cast<Bytef*>(piece.data());
    stream.avail_out = static_cast<uInt>(piece.size());
    code = inflate(&stream, Z_NO_FLUSH);
    if (code != Z_OK && code != Z_STREAM_END)
      throw DataError({name, 0, 0}, tr("not a complete gzip file"),
                      tr("delete it; it will be fetched again"));
    plain.append(piece.data(), piece.size() - stream.avail_out);
    if (plain.size() > limit_bytes) throw DataError({name, 0, 0}, tr("larger than an answer may be"));
  }
  return plain;
}

}  // namespace graftcast
