#pragma once
// Writing a file so that a power cut at any moment leaves the old one or the new one.

#include <filesystem>
#include <string_view>

namespace graftcast {

/// Makes `content` the whole content of `file`: written to a temporary file in the same folder, flushed to
/// disk, renamed over the old file, the folder flushed. Keeps the permissions of a file that is there.
/// Temporary files that a killed process left beside it are cleared away.
/// Errors: WriteError when any step fails (the old file then stands and the temporary one is removed; only
/// where the folder cannot be flushed the new one stands, which the message says), and when `file` is a
/// symbolic link, a folder or a device: the rename would put a plain file in its place.
void replace_file(const std::filesystem::path& file, std::string_view content);

/// Makes `copy` a file with the content of `file`, in the same way, but only where there is nothing yet of
/// that name. Errors: OpenError when `file` cannot be read; WriteError.
void copy_file_durably(const std::filesystem::path& file, const std::filesystem::path& copy);

/// Makes folder `folder` and those above it where they are not there, and flushes their parents.
/// Error: WriteError.
void make_folder(const std::filesystem::path& folder);

/// A name beside `target` for what is to become it: what carries the number of a process that has ended is
/// cleared away by the next to make `target`.
std::filesystem::path unfinished_name(const std::filesystem::path& target, int attempt = 0);

/// Gives the folder `folder` another name beside it, and flushes the parent. Error: WriteError.
void rename_folder(const std::filesystem::path& folder, const std::filesystem::path& name);

/// Removes `file` and flushes its folder. False when it is not there. Error: WriteError.
bool remove_file(const std::filesystem::path& file);

/// Says where a symbolic link would lead what is written into `folder` out of `root`. Folders that are not
/// there yet are no links. Error: WriteError.
void require_inside(const std::filesystem::path& root, const std::filesystem::path& folder);

}  // namespace graftcast
