#include "text/atomic_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <charconv>
#include <csignal>
#include <cstdio>
#include <optional>
#include <string>
#include <system_error>
#include <utility>

#include <fmt/format.h>

#include "graftcast/error.hpp"
#include "open_file.hpp"
#include "text/system_reason.hpp"
#include "text/tr.hpp"

namespace graftcast {

namespace {

[[noreturn]] void throw_write_error(const std::filesystem::path& file, int number) {
  const bool is_full = number == ENOSPC || number == EDQUOT || number == EFBIG;
  throw WriteError(file.string(), tr("cannot be written: {reason}", "reason"_a = system_reason(number)),
                   is_full ? tr("the old content stands; make room on the disk and try again")
                           : tr("the old content stands; check who may write to the folder"));
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
    throw WriteError(file.string(), tr("is a symbolic link"), tr("keep the file itself in the site folder"));
  }
  if (!S_ISREG(state.st_mode))
    throw WriteError(file.string(), tr("is not a plain file"), tr("move it out of the way"));
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
  if (flushed) return;
  throw WriteError(
      folder.string(), tr("cannot be flushed to the disk: {reason}", "reason"_a = system_reason(errno)),
      tr("what was written is in its place, but may not outlast a power cut; look before repeating"));
}

// Whether `mark`, as in `1234-0`, is of a process that is no more.
bool is_of_an_ended_process(std::string_view mark) {
  pid_t process = 0;
  int attempt = 0;
  const char* const end = mark.data() + mark.size();
  const auto [dash, fault] = std::from_chars(mark.data(), end, process);
  if (fault != std::errc() || dash == end || *dash != '-' || process <= 0) return false;
  const auto [rest, attempt_fault] = std::from_chars(dash + 1, end, attempt);
  return attempt_fault == std::errc() && rest == end && ::kill(process, 0) != 0 && errno == ESRCH;
}

// What makers of `target` left behind when they were killed. What cannot be removed is in nobody's way.
void clear_away_abandoned(const std::filesystem::path& target) {
  const std::string start = '.' + target.filename().string() + '.';
  std::error_code fault, ignored;
  for (std::filesystem::directory_iterator entry(folder_of(target), fault), end; !fault && entry != end;
       entry.increment(fault)) {
    const std::string name = entry->path().filename().string();
    if (name.starts_with(start) && is_of_an_ended_process(std::string_view(name).substr(start.size())))
      std::filesystem::remove_all(entry->path(), ignored);
  }
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

  void write(std::string_view content) { write_all(descriptor_.number(), content, target_); }

  void copy_from(const OpenFile& file) {
    std::array<char, std::size_t{1} << 16U> piece;
    while (const std::size_t got = file.read(piece.data(), piece.size()))
      write_all(descriptor_.number(), {piece.data(), got}, target_);
  }

  // Giving a file to its old owner is possible only to the superuser; for others it is the owner already or
  // cannot be. The permissions come second because a change of owner may clear some of them.
  void take_over_owner_and_permissions(const struct stat& old) const {
    if (::fchown(descriptor_.number(), old.st_uid, old.st_gid) != 0 && errno != EPERM)
      throw_write_error(target_, errno);
    constexpr mode_t permission_bits = 07777;
    if (::fchmod(descriptor_.number(), old.st_mode & permission_bits) != 0) throw_write_error(target_, errno);
  }

  void flush() {
    if (::fsync(descriptor_.number()) != 0 || !descriptor_.close()) throw_write_error(target_, errno);
  }

  void replace_target() {
    if (::rename(path_.c_str(), target_.c_str()) != 0) throw_write_error(target_, errno);
    renamed_ = true;
  }

  // Fails where the name is taken. A file system that cannot see to that is looked at instead.
  void become_target() {
    if (::renameat2(AT_FDCWD, path_.c_str(), AT_FDCWD, target_.c_str(), RENAME_NOREPLACE) == 0) {
      renamed_ = true;
      return;
    }
    if (errno != EINVAL && errno != ENOSYS) throw_write_error(target_, errno);
    if (state_of(target_)) throw_write_error(target_, EEXIST);
    replace_target();
  }

 private:
  // A name of its own for each process and attempt, so that what a crash left behind is never in the way.
  int create() {
    for (int attempt = 0;; ++attempt) {
      path_ = unfinished_name(target_, attempt);
      constexpr mode_t before_umask = 0666;
      const int number =
          ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, before_umask);
      if (number >= 0) return number;
      if (errno != EEXIST) throw_write_error(target_, errno);
    }
  }

  std::filesystem::path target_;
  std::filesystem::path path_;
  Descriptor descriptor_;
  bool renamed_ = false;
};

}  // namespace

std::filesystem::path unfinished_name(const std::filesystem::path& target, int attempt) {
  return folder_of(target) / fmt::format(".{}.{}-{}", target.filename().string(), ::getpid(), attempt);
}

void replace_file(const std::filesystem::path& file, std::string_view content) {
  const auto old = state_of(file);
  TemporaryFile temporary(file);
  temporary.write(content);
  if (old) temporary.take_over_owner_and_permissions(*old);
  temporary.flush();
  temporary.replace_target();
  clear_away_abandoned(file);
  flush_folder(folder_of(file));
}

void copy_file_durably(const std::filesystem::path& file, const std::filesystem::path& copy) {
  const OpenFile original(file, file.string());
  {
    TemporaryFile temporary(copy);
    temporary.copy_from(original);
    temporary.flush();
    temporary.become_target();
  }
  clear_away_abandoned(copy);
  flush_folder(folder_of(copy));
}

void make_folder(const std::filesystem::path& folder) {
  std::error_code fault;
  if (std::filesystem::is_directory(folder, fault)) return;
  const std::filesystem::path parent = folder_of(folder);
  if (parent != folder && parent != ".") make_folder(parent);
  std::filesystem::create_directory(folder, fault);
  if (fault || !std::filesystem::is_directory(folder, fault))
    throw_write_error(folder, fault ? fault.value() : EEXIST);
  flush_folder(parent);
}

void rename_folder(const std::filesystem::path& folder, const std::filesystem::path& name) {
  if (::rename(folder.c_str(), name.c_str()) != 0) throw_write_error(name, errno);
  clear_away_abandoned(name);
  flush_folder(folder_of(name));
}

bool remove_file(const std::filesystem::path& file) {
  if (::unlink(file.c_str()) != 0) {
    if (errno == ENOENT) return false;
    throw WriteError(file.string(), tr("cannot be removed: {reason}", "reason"_a = system_reason(errno)),
                     tr("it stands as it was; check who may write to the folder"));
  }
  flush_folder(folder_of(file));
  return true;
}

void require_inside(const std::filesystem::path& root, const std::filesystem::path& folder) {
  std::error_code fault, root_fault;
  const auto real = std::filesystem::weakly_canonical(folder, fault);
  const auto inner = real.lexically_relative(std::filesystem::weakly_canonical(root, root_fault));
  if (!fault && !root_fault && !inner.empty() && *inner.begin() != "..") return;
  throw WriteError(folder.string(),
                   fault || root_fault ? tr("cannot be looked at: {reason}",
                                            "reason"_a = system_reason(fault ? fault : root_fault))
                                       : tr("is a symbolic link that leads out of the site folder"),
                   tr("nothing was written; keep the folder itself in the site folder"));
}

}  // namespace graftcast
