#pragma once
// A small HTTP server on this machine for tests: plays what it is told, request by request, byte by byte.

#include <chrono>
#include <functional>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

namespace graftcast::testing {

/// One request as it came.
struct SeenRequest {
  std::string target;  ///< `/weatherapi/...?lat=41.2`
  std::string head;    ///< All of it, to the blank line.
  /// Value of header `name` (in lower case), or empty.
  std::string header(std::string_view name) const;
};

/// What is sent back: pieces, with a pause before each but the first; then the connection is closed.
struct PlayedAnswer {
  std::vector<std::string> pieces;
  std::chrono::milliseconds pause{0};
};

/// A whole answer with its true length. `headers` are lines that each end in CRLF.
PlayedAnswer whole(int status, std::string_view body, std::string_view headers = "");
/// Bytes as they are.
PlayedAnswer raw(std::string bytes);
/// gzip of `plain`.
std::string gzipped(std::string_view plain);

/// Listens on 127.0.0.1 at a port of its own for as long as it lives. Answers one connection at a time.
class LoopbackServer {
 public:
  using Play = std::function<PlayedAnswer(const SeenRequest& request, std::size_t number)>;

  /// `play` is called in the server's own thread; `number` counts from 0.
  explicit LoopbackServer(Play play);
  /// Plays `answers` in turn, the last one ever after.
  explicit LoopbackServer(std::vector<PlayedAnswer> answers);
  ~LoopbackServer();
  LoopbackServer(const LoopbackServer&) = delete;
  LoopbackServer& operator=(const LoopbackServer&) = delete;

  int port() const { return port_; }
  std::string url(std::string_view target = "") const;
  std::vector<SeenRequest> seen() const;

 private:
  void serve();
  void answer(int connection);

  Play play_;
  int listener_ = -1;
  int port_ = 0;
  mutable std::mutex mutex_;
  std::vector<SeenRequest> seen_;
  std::thread thread_;
};

}  // namespace graftcast::testing
