#pragma once
// Writing a file so that a power cut at any moment leaves the old one or the new one.

#include <filesystem>
#include <string_view>

namespace graftcast {

/// Makes `content` the whole content of `file`: written to a temporary file in the same folder, flushed to
/// disk, renamed over the old file, the folder flushed. Keeps the permissions of a file that is there.
/// Errors: WriteError when any step fails (the old file then stands and the temporary one is removed), and
/// when `file` is a symbolic link, a folder or a device: the rename would put a plain file in its place.
void replace_file(const std::filesystem::path& file, std::string_view content);

/// Makes folder `folder` and those above it where they are not there, and flushes their parents.
/// Error: WriteError.
void make_folder(const std::filesystem::path& folder);

}  // namespace graftcast
