#pragma once
// One exception type per kind of failure. Every one carries where it happened, what is wrong and what would
// be right; `cli` is the one place that catches them and turns the kind into an exit code.

#include <cstddef>
#include <stdexcept>
#include <string>

namespace graftcast {

/// Where in an input something stands. `line` and `column` count from 1; 0 means "not known" or "whole file".
struct Position {
  std::string file;
  std::size_t line = 0;
  std::size_t column = 0;
};

/// `file:line:column` with the parts that are known; empty when there is no file.
std::string to_string(const Position& position);

/// Base of every error the library throws. `what()` is `file:line:column: message; hint`.
class Error : public std::runtime_error {
 public:
  Error(Position position, std::string message, std::string hint);

  const Position& position() const noexcept { return position_; }
  const std::string& message() const noexcept { return message_; }
  const std::string& hint() const noexcept { return hint_; }
  /// Short stable word for scripts, for example `bad-data`.
  virtual const char* kind() const noexcept = 0;
  /// Process exit code of this kind (sysexits where one fits).
  virtual int exit_code() const noexcept = 0;

 private:
  Position position_;
  std::string message_;
  std::string hint_;
};

/// The command line asked for something that does not exist or does not fit together. Exit code 2.
class UsageError final : public Error {
 public:
  explicit UsageError(std::string message, std::string hint = {})
      : Error({}, std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "usage"; }
  int exit_code() const noexcept override { return 2; }
};

/// A file's content is wrong. Exit code 65.
class DataError final : public Error {
 public:
  DataError(Position position, std::string message, std::string hint = {})
      : Error(std::move(position), std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "bad-data"; }
  int exit_code() const noexcept override { return 65; }
};

/// A number handed to a function lies outside the range the function is valid for. Exit code 65.
class RangeError final : public Error {
 public:
  explicit RangeError(std::string message, std::string hint = {})
      : Error({}, std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "out-of-range"; }
  int exit_code() const noexcept override { return 65; }
};

/// A file or folder cannot be opened or read. Exit code 66.
class OpenError final : public Error {
 public:
  OpenError(std::string file, std::string message, std::string hint = {})
      : Error({std::move(file), 0, 0}, std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "cannot-open"; }
  int exit_code() const noexcept override { return 66; }
};

/// A service on the network cannot be reached or refuses. Exit code 69.
class ServiceError final : public Error {
 public:
  explicit ServiceError(std::string message, std::string hint = {})
      : Error({}, std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "unreachable"; }
  int exit_code() const noexcept override { return 69; }
};

/// A write did not reach the disk; the old file stands. Exit code 74.
class WriteError final : public Error {
 public:
  WriteError(std::string file, std::string message, std::string hint = {})
      : Error({std::move(file), 0, 0}, std::move(message), std::move(hint)) {}
  const char* kind() const noexcept override { return "write-failed"; }
  int exit_code() const noexcept override { return 74; }
};

}  // namespace graftcast
