// The page's address as strangers find it: over sockets.
#include "web/host.hpp"

#include <arpa/inet.h>
#include <doctest/doctest.h>
#include <fmt/core.h>
#include <netinet/in.h>
#include <poll.h>
#include <sys/socket.h>
#include <unistd.h>

#include <thread>

namespace norma::test {
namespace {

using namespace std::chrono_literals;
using Clock = std::chrono::steady_clock;

const std::string web_key = "00112233445566778899aabbccddeeff";

class Connection {
 public:
  explicit Connection(std::uint16_t port) : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
    sockaddr_in at{};
    at.sin_family = AF_INET;
    at.sin_port = htons(port);
    at.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
    REQUIRE(::connect(socket_, reinterpret_cast<const sockaddr*>(&at), sizeof at) == 0);
  }
  Connection(const Connection&) = delete;
  Connection& operator=(const Connection&) = delete;
  ~Connection() { ::close(socket_); }

  /// False where the other side has closed.
  bool send(std::string_view bytes) const {
    while (!bytes.empty()) {
      const ssize_t sent = ::send(socket_, bytes.data(), bytes.size(), MSG_NOSIGNAL);
      if (sent <= 0) return false;
      bytes.remove_prefix(static_cast<std::size_t>(sent));
    }
    return true;
  }
  /// What comes until `end` is in it, it is closed, or the time is over.
  std::string read(std::string_view end, std::chrono::milliseconds most = 10s) {
    const auto last = Clock::now() + most;
    while (got_.find(end) == std::string::npos && !closed_) {
      const auto left = std::chrono::ceil<std::chrono::milliseconds>(last - Clock::now());
      if (left.count() <= 0) break;
      pollfd wait{socket_, POLLIN, 0};
      if (::poll(&wait, 1, static_cast<int>(left.count())) <= 0) continue;
      char piece[4096];
      const ssize_t got = ::recv(socket_, piece, sizeof piece, 0);
      closed_ = got <= 0;
      if (got > 0) got_.append(piece, static_cast<std::size_t>(got));
    }
    return got_;
  }
  void forget() { got_.clear(); }
  /// All until it is closed.
  std::string rest(std::chrono::milliseconds most = 10s) { return read("\x01 no text \x01", most); }
  [[nodiscard]] bool closed() const { return closed_; }

 private:
  int socket_;
  std::string got_;
  bool closed_ = false;
};

struct Served {
  explicit Served(const web::Bounds& bounds = {}) {
    auto opened = web::open_host(site, 0, bounds);
    REQUIRE(std::holds_alternative<std::unique_ptr<live::Host>>(opened));
    host = std::move(std::get<std::unique_ptr<live::Host>>(opened));
    const std::string address = site.address();
    port = static_cast<std::uint16_t>(std::stoi(address.substr(address.find(':', 5) + 1)));
    show();
  }
  void show() {
    site.show(std::make_shared<const live::Shown>(fmt::format("text {}", ++shown), diag::Said(),
                                                  wording::english()));
  }
  [[nodiscard]] std::string request(std::string_view path, std::string_view method = "GET",
                                    std::string_view more = "") const {
    return fmt::format("{} {} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n{}\r\n", method, path, port, more);
  }
  [[nodiscard]] std::string page() const { return "/" + web_key + "/"; }
  /// The first line of the answer; "" where it is closed without one.
  [[nodiscard]] std::string answer(const std::string& request) const {
    Connection connection(port);
    connection.send(request);
    const std::string got = connection.read("\r\n\r\n");
    return got.substr(0, got.find("\r\n"));
  }
  [[nodiscard]] bool works() const { return answer(request(page())) == "HTTP/1.1 200 OK"; }

  live::Site site{web_key, wording::english()};
  std::unique_ptr<live::Host> host;
  std::uint16_t port = 0;
  int shown = 0;
};

} // namespace

TEST_CASE("the page comes to who has the key, and to nobody else") {
  const Served served;
  CHECK(served.works());
  const std::string forbidden = "HTTP/1.1 403 Forbidden";
  CHECK(served.answer(served.request("/")) == forbidden);
  CHECK(served.answer(served.request("/00112233445566778899aabbccddeefe/")) == forbidden);
  CHECK(served.answer(served.request("/%30" + web_key.substr(1) + "/")) == forbidden);
  CHECK(served.answer(served.request("/x/../" + web_key + "/")) == forbidden);
  CHECK(served.answer(served.request("/../../etc/passwd")) == forbidden);
  CHECK(served.answer(served.request(served.page() + "../../etc/passwd")) ==
        "HTTP/1.1 404 Not Found");
  CHECK(served.answer(served.request(served.page() + "%2e%2e%2fetc%2fpasswd")) ==
        "HTTP/1.1 404 Not Found");
  CHECK(served.answer(served.request(served.page(), "GET", "Origin: http://evil.example\r\n")) ==
        forbidden);
  CHECK(served.answer(served.request(served.page(), "GET", "Sec-Fetch-Site: cross-site\r\n")) ==
        forbidden);
  CHECK(served.answer("GET " + served.page() + " HTTP/1.1\r\nHost: evil.example\r\n\r\n") ==
        forbidden);
  CHECK(served.answer("GET " + served.page() + " HTTP/1.0\r\n\r\n") == forbidden);
}

TEST_CASE("nothing is taken: no method that changes, no body") {
  const Served served;
  for (const char* method : {"POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"}) {
    CAPTURE(method);
    CHECK(served.answer(served.request(served.page(), method, "Content-Length: 3\r\n")) ==
          "HTTP/1.1 405 Method Not Allowed");
  }
  // A body that never ends is not waited for.
  Connection connection(served.port);
  connection.send(served.request(served.page(), "POST", "Content-Length: 999999999999\r\n"));
  CHECK(connection.read("\r\n\r\n").starts_with("HTTP/1.1 405"));
  connection.rest();
  CHECK(connection.closed());
  // HEAD has the headers alone.
  Connection head(served.port);
  head.send(served.request(served.page(), "HEAD"));
  const std::string got = head.rest(3s);
  CHECK(got.starts_with("HTTP/1.1 200"));
  CHECK(got.ends_with("\r\n\r\n"));
  CHECK(served.works());
}

TEST_CASE("huge and broken headers end what they stand in, and nothing else") {
  const Served served;
  const std::string huge(2000000, 'x');
  for (const std::string& bytes :
       {"GET /" + huge + " HTTP/1.1\r\n\r\n",
        served.request(served.page(), "GET", "X: " + huge + "\r\n"),
        served.request(served.page(), "GET", huge + "\r\n"), huge,
        std::string("\x00\x01\x02\r\n\r\n", 7), std::string("GET\r\n\r\n"),
        std::string("GET / HTTP/9.9\r\n\r\n"),
        "GET " + served.page() + " HTTP/1.1\r\nHost: a\r\nHost: b\r\n\r\n"}) {
    Connection connection(served.port);
    connection.send(bytes);
    const std::string got = connection.rest(4s);
    CAPTURE(bytes.substr(0, 60));
    CHECK(got.find(" 200 ") == std::string::npos);
    CHECK(got.size() < 2000);
  }
  std::string many;
  for (int i = 0; i < 100000; ++i)
    many += fmt::format("X-{}: y\r\n", i);
  const std::string answered = served.answer(served.request(served.page(), "GET", many));
  CHECK(answered.find(" 200 ") == std::string::npos);
  CHECK(served.works());
}

TEST_CASE("two hundred connections that say nothing are let go, and the page comes") {
  web::Bounds bounds;
  bounds.silence = 1s;
  const Served served(bounds);
  std::vector<std::unique_ptr<Connection>> all;
  for (int i = 0; i < 200; ++i) {
    all.push_back(std::make_unique<Connection>(served.port));
    if (i % 2 == 0) all.back()->send("GET /" + web_key + "/ HT");
  }
  Connection last(served.port);
  last.send(served.request(served.page()));
  CHECK(last.read("\r\n\r\n", 30s).starts_with("HTTP/1.1 200"));
}

TEST_CASE("who asks a byte at a time is let go") {
  web::Bounds bounds;
  bounds.asking = 1s;
  const Served served(bounds);
  Connection slow(served.port);
  const auto begin = Clock::now();
  bool open = true;
  const std::string request = served.request(served.page(), "GET", "X: " + std::string(500, 'y'));
  for (std::size_t i = 0; open && i < request.size() && Clock::now() - begin < 8s; ++i) {
    open = slow.send(request.substr(i, 1));
    slow.read("\r\n\r\n", 50ms);
    open = open && !slow.closed();
  }
  CHECK_FALSE(open);
  CHECK(Clock::now() - begin < 5s);
  CHECK(served.works());
}

TEST_CASE("a stream tells each state as it comes, and says now and then that it is there") {
  web::Bounds bounds;
  bounds.beat = 300ms;
  Served served(bounds);
  Connection stream(served.port);
  stream.send(served.request(served.page() + "events"));
  const std::string first = stream.read("\n\n");
  CHECK(first.starts_with("HTTP/1.1 200"));
  CHECK(first.find("Content-Type: text/event-stream") != std::string::npos);
  CHECK(first.find("\"title\":\"text 1\"") != std::string::npos);
  stream.forget();
  const auto begin = Clock::now();
  served.show();
  CHECK(stream.read("\"title\":\"text 2\"").find("\"text 2\"") != std::string::npos);
  CHECK(Clock::now() - begin < 200ms);
  stream.forget();
  CHECK(stream.read(": \n\n").find(": \n\n") != std::string::npos);
  // It ends with the page.
  served.host.reset();
  stream.rest();
  CHECK(stream.closed());
}

TEST_CASE("streams are few, and one that nobody reads any more makes room") {
  web::Bounds bounds;
  bounds.streams = 4;
  bounds.beat = 200ms;
  const Served served(bounds);
  const std::string events = served.request(served.page() + "events");
  std::vector<std::unique_ptr<Connection>> all;
  for (int i = 0; i < 4; ++i) {
    all.push_back(std::make_unique<Connection>(served.port));
    all.back()->send(events);
    CHECK(all.back()->read("\n\n").starts_with("HTTP/1.1 200"));
  }
  CHECK(served.answer(events) == "HTTP/1.1 503 Service Unavailable");
  CHECK(served.works());
  all.clear();
  std::string answer;
  for (int i = 0; i < 50 && answer != "HTTP/1.1 200 OK"; ++i) {
    std::this_thread::sleep_for(100ms);
    answer = served.answer(events);
  }
  CHECK(answer == "HTTP/1.1 200 OK");
}

TEST_CASE("it listens on the loopback alone, and says where it cannot") {
  const Served served;
  live::Site other(web_key, wording::english());
  const auto again = web::open_host(other, served.port);
  REQUIRE(std::holds_alternative<std::string>(again));
  CHECK(std::get<std::string>(again) == "Address already in use");
  // From /proc/net/tcp (proc(5)): the local address of who listens at this port, 127.0.0.1 in hex.
  std::FILE* file = std::fopen("/proc/net/tcp", "r");
  REQUIRE(file != nullptr);
  std::string text(1000000, '\0');
  text.resize(std::fread(text.data(), 1, text.size(), file));
  std::fclose(file);
  CHECK(text.find(fmt::format(" 0100007F:{:04X} 00000000:0000 0A ", served.port)) !=
        std::string::npos);
  CHECK(text.find(fmt::format(" 00000000:{:04X} 00000000:0000 0A ", served.port)) ==
        std::string::npos);
}

} // namespace norma::test
