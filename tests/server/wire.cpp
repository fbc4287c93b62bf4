// The server as a program runs it: one thread reads, one answers.
#include <doctest/doctest.h>

#include <condition_variable>
#include <deque>
#include <memory>
#include <mutex>
#include <thread>

#include "cli/run.hpp"
#include "server/server.hpp"
#include "session.hpp"

namespace norma::test {
namespace {

using server::Out;

/// Bytes from one thread to another.
class Pipe {
 public:
  void put(std::string_view bytes) {
    const std::lock_guard lock(mutex_);
    bytes_.insert(bytes_.end(), bytes.begin(), bytes.end());
    came_.notify_all();
  }
  void close() {
    const std::lock_guard lock(mutex_);
    closed_ = true;
    came_.notify_all();
  }
  std::size_t read(char* into, std::size_t room) {
    std::unique_lock lock(mutex_);
    came_.wait(lock, [&] { return closed_ || !bytes_.empty(); });
    std::size_t got = 0;
    for (; got < room && !bytes_.empty(); ++got) {
      into[got] = bytes_.front();
      bytes_.pop_front();
    }
    return got;
  }

 private:
  std::mutex mutex_;
  std::condition_variable came_;
  std::deque<char> bytes_;
  bool closed_ = false;
};

struct Running {
  std::shared_ptr<Pipe> in = std::make_shared<Pipe>();
  std::shared_ptr<Pipe> out = std::make_shared<Pipe>();
  int code = -1;
  std::thread thread;

  Running() {
    thread = std::thread([this] {
      const server::Wire wire{
          [from = in](char* into, std::size_t room) { return from->read(into, room); },
          [to = out](std::string_view bytes) {
            to->put(bytes);
            return true;
          }};
      code = cli::run({"serve", "--on", "2026-11-25"}, {{}, {}, {}, {}, {}, wire}).code;
      out->close();
    });
  }
  /// The rest of what it says, when it has ended.
  std::vector<Out> rest() {
    thread.join();
    std::vector<Out> all;
    const server::Wire wire{
        [from = out](char* into, std::size_t room) { return from->read(into, room); }, {}};
    server::FrameReader frames(wire);
    while (true) {
      const server::Frame frame = frames.next();
      const auto* body = std::get_if<std::string>(&frame);
      if (body == nullptr) return all;
      all.push_back(Out::parse(*body));
    }
  }
};

const Out empty = Out::object();

} // namespace

TEST_CASE("norma serve ends as it is told, and says whether it was told in time") {
  Running polite;
  polite.in->put(request("1", "initialize", {{"capabilities", empty}}) +
                 request("2", "shutdown", nullptr) + notification("exit", nullptr));
  const auto said = polite.rest();
  REQUIRE(said.size() == 2);
  CHECK(said[0]["result"]["serverInfo"]["name"] == "norma");
  CHECK(said[1]["id"] == 2);
  CHECK(polite.code == 0);

  Running hasty;
  hasty.in->put(notification("exit", nullptr));
  hasty.rest();
  CHECK(hasty.code == 1);

  Running cut_off;
  cut_off.in->put(request("1", "initialize", {{"capabilities", empty}}));
  cut_off.in->close();
  CHECK(cut_off.rest().size() == 1);
  CHECK(cut_off.code == 1);
}

TEST_CASE("many edits at once: what is told last is about the last version") {
  Running running;
  std::string bytes = request("1", "initialize", {{"capabilities", empty}});
  const std::string text = "norma 1\n\nprotocol p \"P\" {\n  for adults\n}\n";
  bytes += opened("/nowhere/p.norma", text);
  for (int version = 2; version < 200; ++version) {
    bytes +=
        notification("textDocument/didChange",
                     {{"textDocument", {{"uri", "file:///nowhere/p.norma"}, {"version", version}}},
                      {"contentChanges", Out::array({{{"text", version % 2 == 0 ? "x" : text}}})}});
  }
  running.in->put(bytes +
                  request("2", "textDocument/codeAction",
                          {{"textDocument", {{"uri", "file:///nowhere/p.norma"}}},
                           {"range", server::json_of(server::Range{})},
                           {"context", {{"diagnostics", Out::array()}}}}) +
                  request("3", "shutdown", nullptr) + notification("exit", nullptr));
  const auto said = running.rest();
  CHECK(running.code == 0);
  int last = 0;
  for (const Out& message : said) {
    if (message.value("method", "") != "textDocument/publishDiagnostics") continue;
    const int version = message["params"]["version"];
    CHECK(version >= last); // never one that is no longer there
    last = version;
  }
  CHECK(last == 199);
}

TEST_CASE("nobody takes the answers any more: it ends") {
  auto in = std::make_shared<Pipe>();
  in->put(request("1", "initialize", {{"capabilities", empty}}));
  const server::Wire wire{[in](char* into, std::size_t room) { return in->read(into, room); },
                          [](std::string_view) { return false; }};
  server::Settings settings;
  settings.on = [] { return words::Date{2026, 11, 25}; };
  CHECK(server::serve(wire, settings) == 1);
  in->close();
}

} // namespace norma::test
