#include "loopback_server.hpp"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <sys/socket.h>
#include <unistd.h>
#include <zlib.h>

#include <array>
#include <stdexcept>

namespace graftcast::testing {

namespace {

/// Sends all of it; a client that has gone away ends it.
bool send_all(int connection, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t sent = ::send(connection, bytes.data(), bytes.size(), MSG_NOSIGNAL);
    if (sent <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(sent));
  }
  return true;
}

std::string read_head(int connection) {
  std::string head;
  std::array<char, 4096> piece{};
  while (head.find("\r\n\r\n") == std::string::npos && head.size() < (1U << 16U)) {
    const ssize_t got = ::recv(connection, piece.data(), piece.size(), 0);
    if (got <= 0) break;
    head.append(piece.data(), static_cast<std::size_t>(got));
  }
  return head;
}

SeenRequest request_of(const std::string& head) {
  const std::size_t from = head.find(' ');
  if (from == std::string::npos) return {"", head};
  return {head.substr(from + 1, head.find(' ', from + 1) - from - 1), head};
}

}  // namespace

std::string SeenRequest::header(std::string_view name) const {
  std::string lower = head;
  for (char& letter : lower) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  const std::string mark = "\r\n" + std::string(name) + ": ";
  const std::size_t at = lower.find(mark);
  if (at == std::string::npos) return {};
  return head.substr(at + mark.size(), head.find("\r\n", at + 2) - at - mark.size());
}

PlayedAnswer whole(int status, std::string_view body, std::string_view headers) {
  std::string text = "HTTP/1.1 " + std::to_string(status) + " Played\r\nConnection: close\r\n";
  text += headers;
  if (status != 304) text += "Content-Length: " + std::to_string(body.size()) + "\r\n";
  text += "\r\n";
  return raw(text.append(body));
}

PlayedAnswer raw(std::string bytes) {
  return {{std::move(bytes)}, std::chrono::milliseconds(0)};
}

std::string gzipped(std::string_view plain) {
  z_stream stream{};
  deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, 31, 8, Z_DEFAULT_STRATEGY);
  std::string packed(deflateBound(&stream, plain.size()), '\0');
  stream.next_in = const_cast<Bytef*>(reinterpret_cast<const Bytef*>(plain.data()));
  stream.avail_in = static_cast<uInt>(plain.size());
  stream.next_out = reinterpret_cast<Bytef*>(packed.data());
  stream.avail_out = static_cast<uInt>(packed.size());
  deflate(&stream, Z_FINISH);
  packed.resize(stream.total_out);
  deflateEnd(&stream);
  return packed;
}

LoopbackServer::LoopbackServer(std::vector<PlayedAnswer> answers)
    : LoopbackServer([answers = std::move(answers)](const SeenRequest&, std::size_t number) {
        return answers.at(std::min(number, answers.size() - 1));
      }) {}

LoopbackServer::LoopbackServer(Play play)
    : play_(std::move(play)), listener_(::socket(AF_INET, SOCK_STREAM, 0)) {
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  auto* const plain = reinterpret_cast<sockaddr*>(&address);
  socklen_t size = sizeof address;
  if (listener_ < 0 || ::bind(listener_, plain, size) != 0 || ::listen(listener_, 8) != 0 ||
      ::getsockname(listener_, plain, &size) != 0)
    throw std::runtime_error("no server on loopback");
  port_ = ntohs(address.sin_port);
  thread_ = std::thread([this] { serve(); });
}

LoopbackServer::~LoopbackServer() {
  ::shutdown(listener_, SHUT_RDWR);  // Wakes the thread that waits in accept.
  thread_.join();
  ::close(listener_);
}

std::string LoopbackServer::url(std::string_view target) const {
  return "http://127.0.0.1:" + std::to_string(port_) + std::string(target);
}

std::vector<SeenRequest> LoopbackServer::seen() const {
  const std::lock_guard lock(mutex_);
  return seen_;
}

void LoopbackServer::serve() {
  for (int connection = 0; (connection = ::accept(listener_, nullptr, nullptr)) >= 0;) {
    answer(connection);
    ::shutdown(connection, SHUT_RDWR);
    ::close(connection);
  }
}

void LoopbackServer::answer(int connection) {
  const SeenRequest request = request_of(read_head(connection));
  std::size_t number = 0;
  {
    const std::lock_guard lock(mutex_);
    number = seen_.size();
    seen_.push_back(request);
  }
  const PlayedAnswer played = play_(request, number);
  for (std::size_t k = 0; k < played.pieces.size(); ++k) {
    if (k > 0) std::this_thread::sleep_for(played.pause);
    if (!send_all(connection, played.pieces[k])) return;
  }
}

}  // namespace graftcast::testing
