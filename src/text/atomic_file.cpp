#include "graftcast/atomic_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "graftcast/error.hpp"

namespace graftcast {

namespace {

[[noreturn]] void throw_write_error(const std::filesystem::path& file, int number) {
  const bool is_full = number == ENOSPC || number == EDQUOT || number == EFBIG;
  throw WriteError(file.string(), "cannot be written: " + std::generic_category().message(number),
                   is_full ? "the old content stands; make room on the disk and try again"
                           : "the old content stands; check who may write to the folder");
}

// A descriptor that is closed when it goes out of scope.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() { close(); }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;

  int number() const { return number_; }
  bool close() { return number_ < 0 || ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

std::filesystem::path folder_of(const std::filesystem::path& file) {
  return file.has_parent_path() ? file.parent_path() : std::filesystem::path(".");
}

// State of the file that is to be replaced; nothing when it is not there.
std::optional<struct stat> state_of(const std::filesystem::path& file) {
  struct stat state {};
  if (::lstat(file.c_str(), &state) != 0) {
    if (errno == ENOENT) return std::nullopt;
    throw_write_error(file, errno);
  }
  if (S_ISLNK(state.st_mode)) {
    throw WriteError(file.string(), "is a symbolic link", "keep the file itself in the site folder");
  }
  if (!S_ISREG(state.st_mode))
    throw WriteError(file.string(), "is not a plain file", "move it out of the way");
  return state;
}

void write_all(int descriptor, std::string_view content, const std::filesystem::path& file) {
  while (!content.empty()) {
    const ssize_t count = ::write(descriptor, content.data(), content.size());
    if (count >= 0)
      content.remove_prefix(static_cast<std::size_t>(count));
    else if (errno != EINTR)
      throw_write_error(file, errno);
  }
}

void flush_folder(const std::filesystem::path& folder) {
  const Descriptor handle(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // Some file systems cannot flush a folder (EINVAL); their renames are as durable as they get.
  const bool flushed = handle.number() >= 0 && (::fsync(handle.number()) == 0 || errno == EINVAL);
  if (!flushed) throw_write_error(folder, errno);
}

// The temporary file beside `target`; removed again unless it took its place.
class TemporaryFile {
 public:
  explicit TemporaryFile(const std::filesystem::path& target) : target_(target), descriptor_(create()) {}
  ~TemporaryFile() {
    if (!renamed_) ::unlink(path_.c_str());
  }
  TemporaryFile(const TemporaryFile&) = delete;
  TemporaryFile& operator=(const TemporaryFile&) = delete;

  void write(std::string_view content, const std::optional<struct stat>& old) {
    write_all(descriptor_.number(), content, target_);
    if (old) take_over_owner_and_permissions(*old);
    if (::fsync(descriptor_.number()) != 0 || !descriptor_.close()) throw_write_error(target_, errno);
  }

  void rename_to_target() {
    if (::rename(path_.c_str(), target_.c_str()) != 0) throw_write_error(target_, errno);
    renamed_ = true;
  }

 private:
  // A name of its own for each process and attempt, so that what a crash left behind is never in the way.
  int create() {
    for (int attempt = 0;; ++attempt) {
      path_ = folder_of(target_) / fmt::format(".{}.{}-{}", target_.filename().string(), ::getpid(), attempt);
      constexpr mode_t before_umask = 0666;
      const int number =
          ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, before_umask);
      if (number >= 0) return number;
      if (errno != EEXIST) throw_write_error(target_, errno);
    }
  }

  void take_over_owner_and_permissions(const struct stat& old) const {
    // Giving a file to its old owner is possible only to the superuser; for others it is the owner already or
    // cannot be. The permissions come second because a change of owner may clear some of them.
    if (::fchown(descriptor_.number(), old.st_uid, old.st_gid) != 0 && errno != EPERM)
      throw_write_error(target_, errno);
    constexpr mode_t permission_bits = 07777;
    if (::fchmod(descriptor_.number(), old.st_mode & permission_bits) != 0) throw_write_error(target_, errno);
  }

  std::filesystem::path target_;
  std::filesystem::path path_;
  Descriptor descriptor_;
  bool renamed_ = false;
};

}  // namespace

void replace_file(const std::filesystem::path& file, std::string_view content) {
  const auto old = state_of(file);
  TemporaryFile temporary(file);
  temporary.write(content, old);
  temporary.rename_to_target();
  flush_folder(folder_of(file));
}

void make_folder(const std::filesystem::path& folder) {
  std::error_code fault;
  if (std::filesystem::is_directory(folder, fault)) return;
  const std::filesystem::path parent = folder_of(folder);
  if (parent != folder && parent != ".") make_folder(parent);
  std::filesystem::create_directory(folder, fault);
  if (fault || !std::filesystem::is_directory(folder))
    throw_write_error(folder, fault ? fault.value() : EEXIST);
  flush_folder(parent);
}

}  // namespace graftcast
