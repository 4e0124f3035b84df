// One request against a server on this machine that plays every kind of trouble.

#include <gmock/gmock.h>

#include <chrono>
#include <cstdlib>
#include <fstream>

#include "loopback_server.hpp"
#include "services_cases.hpp"
#include "temporary_folder.hpp"
#include "weather/http_fetch.hpp"

namespace graftcast {
namespace {

using testing::gzipped;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::LoopbackServer;
using testing::PlayedAnswer;
using testing::raw;
using testing::whole;

HttpRequest request_to(const std::string& url) {
  return {url, "graftcast/test (grower@example.org)", "application/json", ""};
}

HttpLimits brief() {
  HttpLimits limits;
  limits.time = std::chrono::milliseconds(400);
  return limits;
}

TEST(HttpGet, BringsStatusHeadersAndBody) {
  const LoopbackServer server({whole(200, "{\"a\":1}", "Expires: Wed, 29 Oct 2025 01:43:37 GMT\r\n")});
  const HttpOutcome outcome = http_get(request_to(server.url("/x?lat=1")));
  EXPECT_EQ(outcome.fault, FetchFault::none) << outcome.reason;
  EXPECT_EQ(outcome.answer.status, 200);
  EXPECT_EQ(outcome.answer.body, "{\"a\":1}");
  EXPECT_EQ(outcome.answer.header("expires"), "Wed, 29 Oct 2025 01:43:37 GMT");
  EXPECT_EQ(server.seen().at(0).target, "/x?lat=1");
  EXPECT_EQ(server.seen().at(0).header("user-agent"), "graftcast/test (grower@example.org)");
  EXPECT_EQ(server.seen().at(0).header("accept"), "application/json");
  EXPECT_EQ(server.seen().at(0).header("accept-encoding"), "gzip");
  EXPECT_EQ(server.seen().at(0).header("if-modified-since"), "");
}

TEST(HttpGet, EchoesLastModifiedAndBrings304) {
  const LoopbackServer server({whole(304, "")});
  HttpRequest request = request_to(server.url());
  request.if_modified_since = "Fri, 01 Jan 2100 00:00:00 GMT";
  const HttpOutcome outcome = http_get(request);
  EXPECT_EQ(outcome.fault, FetchFault::none) << outcome.reason;
  EXPECT_EQ(outcome.answer.status, 304);
  EXPECT_EQ(server.seen().at(0).header("if-modified-since"), request.if_modified_since);
}

TEST(HttpGet, NoHeaderCanBeSmuggledIn) {
  const LoopbackServer server({whole(200, "x")});
  HttpRequest request = request_to(server.url());
  request.if_modified_since = "x\r\nEvil: yes";
  http_get(request);
  EXPECT_EQ(server.seen().at(0).header("evil"), "");
  request.user_agent = "x\r\nEvil: yes";
  EXPECT_EQ(http_get(request).fault, FetchFault::refused);
}

TEST(HttpGet, UnpacksGzip) {
  const std::string text(100'000, 'x');
  const LoopbackServer server({whole(200, gzipped(text), "Content-Encoding: gzip\r\n")});
  const HttpOutcome outcome = http_get(request_to(server.url()));
  EXPECT_EQ(outcome.fault, FetchFault::none) << outcome.reason;
  EXPECT_EQ(outcome.answer.body, text);
}

TEST(HttpGet, AsksNothingWithoutSayingWho) {
  const LoopbackServer server({whole(200, "x")});
  HttpRequest request = request_to(server.url());
  request.user_agent = " ";
  EXPECT_EQ(http_get(request).fault, FetchFault::refused);
  EXPECT_TRUE(server.seen().empty());
}

TEST(HttpGet, AsksOnlyHttpsAndThisMachine) {
  for (const char* const url :
       {"http://example.org/", "http://127.0.0.1.example.org/", "http://localhost@example.org/",
        "http://u:p@127.0.0.1/", "ftp://127.0.0.1/", "file:///etc/hostname", "gopher://127.0.0.1/",
        "127.0.0.1/", "", "http://", "http://localhost.example.org/", "//example.org"})
    EXPECT_EQ(http_get(request_to(url)).fault, FetchFault::refused) << url;
}

TEST(HttpGet, FollowsThreeRedirectsAndNoMore) {
  const auto hops_then_answer = [](std::size_t hops) {
    return [hops](const testing::SeenRequest&, std::size_t number) {
      return number < hops ? whole(302, "", "Location: /next\r\n") : whole(200, "there");
    };
  };
  const LoopbackServer three(hops_then_answer(3));
  EXPECT_EQ(http_get(request_to(three.url("/first"))).answer.body, "there");
  EXPECT_EQ(three.seen().back().target, "/next");
  const LoopbackServer loop({whole(301, "", "Location: /again\r\n")});
  EXPECT_EQ(http_get(request_to(loop.url())).fault, FetchFault::redirected);
  EXPECT_EQ(loop.seen().size(), 4U);
}

TEST(HttpGet, NeverFollowsToHttpOrToOtherSchemes) {
  for (const char* const target :
       {"http://example.org/", "file:///etc/hostname", "ftp://127.0.0.1/", "http://x@127.0.0.1/"}) {
    const LoopbackServer server({whole(302, "", std::string("Location: ") + target + "\r\n")});
    const HttpOutcome outcome = http_get(request_to(server.url()));
    EXPECT_EQ(outcome.fault, FetchFault::redirected) << target;
    EXPECT_THAT(outcome.reason, HasSubstr("away from https"));
  }
}

TEST(HttpGet, GivesUpOnASlowTrickle) {
  PlayedAnswer trickle{{"HTTP/1.1 200 OK\r\nContent-Length: 1000\r\n\r\n"}, std::chrono::milliseconds(30)};
  for (int k = 0; k < 40; ++k) trickle.pieces.emplace_back("x");
  const LoopbackServer server({trickle});
  const HttpOutcome outcome = http_get(request_to(server.url()), brief());
  EXPECT_EQ(outcome.fault, FetchFault::timed_out) << outcome.reason;
}

TEST(HttpGet, TheTimeLimitSpansRedirects) {
  const PlayedAnswer slow{
      {"HTTP/1.1 302 Found\r\n", "Location: /next\r\nContent-Length: 0\r\nConnection: close\r\n\r\n"},
      std::chrono::milliseconds(180)};
  const LoopbackServer server({slow});
  EXPECT_EQ(http_get(request_to(server.url()), brief()).fault, FetchFault::timed_out);
}

TEST(HttpGet, KnowsACutConnection) {
  const LoopbackServer server({raw("HTTP/1.1 200 OK\r\nContent-Length: 1000\r\n\r\nhalf"), raw(""),
                               raw("HTTP/1.1 200 OK\r\nTransfer-Encoding: chunked\r\n\r\n10\r\nhalf"),
                               raw("HTTP/1.1 20")});
  for (int k = 0; k < 4; ++k) {
    const FetchFault fault = http_get(request_to(server.url()), brief()).fault;
    EXPECT_THAT(fault, ::testing::AnyOf(FetchFault::unreachable, FetchFault::garbled)) << k;
  }
}

TEST(HttpGet, TakesNoMoreThanTheLengthThatIsToldNorLessWithoutSayingSo) {
  const LoopbackServer server(
      {raw("HTTP/1.1 200 OK\r\nContent-Length: 4\r\nConnection: close\r\n\r\n{\"a\":1}"),
       raw("HTTP/1.1 200 OK\r\nContent-Length: -1\r\n\r\n{}")});
  EXPECT_EQ(http_get(request_to(server.url())).answer.body, "{\"a\"");
  EXPECT_NE(http_get(request_to(server.url()), brief()).fault, FetchFault::none);
}

TEST(HttpGet, StopsAtSixteenMebibytes) {
  const std::string large(std::size_t{17} << 20U, 'x');
  const LoopbackServer told({whole(200, large)});
  EXPECT_EQ(http_get(request_to(told.url())).fault, FetchFault::too_large);
  const LoopbackServer untold({raw("HTTP/1.1 200 OK\r\nConnection: close\r\n\r\n" + large)});
  EXPECT_EQ(http_get(request_to(untold.url())).fault, FetchFault::too_large);
  const std::string just_right(std::size_t{16} << 20U, 'x');
  const LoopbackServer full({whole(200, just_right)});
  EXPECT_EQ(http_get(request_to(full.url())).answer.body.size(), just_right.size());
}

TEST(HttpGet, StopsAGzipBomb) {
  const std::string bomb = gzipped(std::string(std::size_t{64} << 20U, '\0'));
  ASSERT_LT(bomb.size(), 200'000U);
  const LoopbackServer server({whole(200, bomb, "Content-Encoding: gzip\r\n")});
  const HttpOutcome outcome = http_get(request_to(server.url()));
  EXPECT_EQ(outcome.fault, FetchFault::too_large) << outcome.reason;
}

TEST(HttpGet, StopsEndlessHeaders) {
  std::string head = "HTTP/1.1 200 OK\r\n";
  for (int k = 0; k < 2000; ++k) head += "X-Many: " + std::string(80, 'x') + "\r\n";
  const LoopbackServer server({raw(head + "Content-Length: 0\r\n\r\n")});
  EXPECT_NE(http_get(request_to(server.url())).fault, FetchFault::none);
}

TEST(HttpGet, RefusesWhatIsNotHttpOrNotGzip) {
  const LoopbackServer server(
      {raw("220 mail.example.org ESMTP\r\n"), whole(200, "not gzip at all", "Content-Encoding: gzip\r\n")});
  EXPECT_THAT(http_get(request_to(server.url()), brief()).fault,
              ::testing::AnyOf(FetchFault::garbled, FetchFault::unreachable));
  EXPECT_EQ(http_get(request_to(server.url()), brief()).fault, FetchFault::garbled);
}

TEST(HttpGet, SaysWhenNobodyListens) {
  std::string url;
  {
    const LoopbackServer gone({whole(200, "x")});
    url = gone.url();
  }
  EXPECT_EQ(http_get(request_to(url), brief()).fault, FetchFault::unreachable);
}

TEST(HttpGet, HttpsToAServerThatSpeaksNoneFails) {
  const LoopbackServer server({whole(200, "x")});
  const HttpOutcome outcome =
      http_get(request_to("https://127.0.0.1:" + std::to_string(server.port()) + "/"), brief());
  EXPECT_NE(outcome.fault, FetchFault::none);
  EXPECT_THAT(outcome.answer.body, IsEmpty());
}

/// openssl's own test server with a certificate that nobody signed, as long as it lives.
class SelfSignedServer {
 public:
  SelfSignedServer() {
    const std::string key = (folder_.path() / "key.pem").string();
    const std::string certificate = (folder_.path() / "cert.pem").string();
    ready_ =
        run("openssl req -x509 -newkey rsa:2048 -nodes -days 1 -subj /CN=127.0.0.1 -addext "
            "subjectAltName=IP:127.0.0.1 -keyout " +
            key + " -out " + certificate);
    if (!ready_) return;
    const std::string pid_file = (folder_.path() / "pid").string();
    run("openssl s_server -www -accept 127.0.0.1:" + std::to_string(port_) + " -key " + key + " -cert " +
        certificate + " & echo $! >" + pid_file);
    std::ifstream(pid_file) >> pid_;
  }
  ~SelfSignedServer() {
    if (pid_ > 0) static_cast<void>(run("kill " + std::to_string(pid_)));
  }
  SelfSignedServer(const SelfSignedServer&) = delete;
  SelfSignedServer& operator=(const SelfSignedServer&) = delete;
  bool is_ready() const { return ready_ && pid_ > 0; }
  std::string url() const { return "https://127.0.0.1:" + std::to_string(port_) + "/"; }

 private:
  static int free_port() {
    const LoopbackServer brief_one({whole(200, "x")});
    return brief_one.port();
  }
  bool run(const std::string& command) const {
    return std::system(("{ " + command + "; } >/dev/null 2>&1 </dev/null").c_str()) == 0;
  }

  testing::TemporaryFolder folder_;
  int port_ = free_port();
  bool ready_ = false;
  long pid_ = 0;
};

TEST(HttpGet, DistrustsACertificateThatNobodySigned) {
  const SelfSignedServer server;
  if (!server.is_ready()) GTEST_SKIP() << "skipped: openssl is not installed";
  HttpOutcome outcome;
  for (int k = 0; k < 50; ++k) {
    outcome = http_get(request_to(server.url()));
    if (outcome.fault != FetchFault::unreachable) break;  // It takes a moment to listen.
    std::this_thread::sleep_for(std::chrono::milliseconds(20));
  }
  EXPECT_EQ(outcome.fault, FetchFault::untrusted) << outcome.reason;
}

TEST(HttpDate, IsReadOrRefused) {
  EXPECT_EQ(parse_http_date("Wed, 29 Oct 2025 01:43:37 GMT"), testing::at("2025-10-29T01:43:37Z"));
  EXPECT_EQ(parse_http_date("soon"), std::nullopt);
  EXPECT_EQ(parse_http_date(""), std::nullopt);
}

}  // namespace
}  // namespace graftcast
