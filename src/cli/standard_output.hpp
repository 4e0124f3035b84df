#pragma once
// Writing the answer.

#include <string_view>

namespace graftcast::cli {

/// Writes all of `text` to standard output. False when the reader has gone away (a broken pipe), which is no
/// fault. Error: WriteError when it cannot be written or flushed, as on a full disk.
bool write_answer(std::string_view text);

/// A broken pipe shall be an error of write, not the end of the process.
void ignore_broken_pipes();

}  // namespace graftcast::cli
