#pragma once
// gzip in memory (private to the layer).

#include <string>
#include <string_view>

namespace graftcast {

std::string gzip_compressed(std::string_view plain);
/// Error: DataError naming `name` when the bytes are no complete gzip, or hold more than `limit_bytes`.
std::string gzip_expanded(std::string_view bytes, std::size_t limit_bytes, const std::string& name);

}  // namespace graftcast
