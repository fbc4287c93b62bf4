// How messages are parted, and what becomes of a stranger's bytes.
#include <doctest/doctest.h>

#include <algorithm>
#include <string>
#include <vector>

#include "server/desk.hpp"
#include "server/documents.hpp"
#include "server/position.hpp"
#include "server/uri.hpp"

namespace norma::test {
namespace {

using namespace server;

std::vector<Frame> frames_of(const std::string& bytes, std::size_t piece) {
  std::size_t at = 0;
  Wire wire;
  wire.read = [&](char* into, std::size_t room) {
    const std::size_t got = std::min({room, bytes.size() - at, piece});
    bytes.copy(into, got, at);
    at += got;
    return got;
  };
  FrameReader reader(wire);
  std::vector<Frame> out;
  do
    out.push_back(reader.next());
  while (!std::holds_alternative<Ended>(out.back()));
  return out;
}

bool is_broken(const Frame& frame, Broken how) {
  const auto* broken = std::get_if<Broken>(&frame);
  return broken != nullptr && *broken == how;
}

} // namespace

TEST_CASE("a message is the same however it is cut into pieces") {
  const std::string bytes =
      framed("{\"a\":1}") + "content-LENGTH :  4\r\nX: y\r\n\r\nnull" + framed("");
  for (const std::size_t piece : {1u, 2u, 7u, 1000u}) {
    CAPTURE(piece);
    const auto frames = frames_of(bytes, piece);
    REQUIRE(frames.size() == 4);
    CHECK(std::get<std::string>(frames[0]) == "{\"a\":1}");
    CHECK(std::get<std::string>(frames[1]) == "null");
    CHECK(std::get<std::string>(frames[2]).empty());
  }
}

TEST_CASE("a header that gives no length, or two, is told; what follows is read") {
  for (const std::string header :
       {"Content-Type: x\r\n\r\n", "Content-Length: -1\r\n\r\n", "Content-Length: 1e3\r\n\r\n",
        "Content-Length: 1\r\nContent-Length: 2\r\n\r\n", "no colon\r\n\r\n", "\r\n\r\n",
        "Content-Length: 99999999999999999999\r\n\r\n"}) {
    CAPTURE(header);
    const auto frames = frames_of(header + framed("{}"), 3);
    REQUIRE(frames.size() == 3);
    CHECK(is_broken(frames[0], Broken::header));
    CHECK(std::get<std::string>(frames[1]) == "{}");
  }
}

TEST_CASE("a header without end stops the reading, a body that is cut off too") {
  const auto endless = frames_of(std::string(3 * longest_header, 'x'), 1000);
  REQUIRE(endless.size() == 1);
  CHECK(std::get<Ended>(endless[0]).lost);
  const auto cut = frames_of("Content-Length: 10\r\n\r\n12345", 1000);
  REQUIRE(cut.size() == 1);
  CHECK_FALSE(std::get<Ended>(cut[0]).lost);
}

TEST_CASE("a body that is too long is passed over, and takes no room") {
  const std::size_t length = longest_body + 1;
  std::string head = "Content-Length: " + std::to_string(length) + "\r\n\r\n";
  const std::string tail = framed("{}");
  std::size_t at = 0;
  Wire wire;
  wire.read = [&](char* into, std::size_t room) -> std::size_t {
    std::size_t got = 0;
    for (; got < room && at < head.size() + length + tail.size(); ++got, ++at) {
      into[got] = at < head.size()            ? head[at]
                  : at < head.size() + length ? 'x'
                                              : tail[at - head.size() - length];
    }
    return got;
  };
  FrameReader reader(wire);
  CHECK(is_broken(reader.next(), Broken::too_long));
  CHECK(std::get<std::string>(reader.next()) == "{}");
}

TEST_CASE("JSON that would cost much memory is refused before it is read") {
  CHECK(is_bounded("{\"a\":[1,2,{\"b\":\"[[[[,,,,\"}]}"));
  CHECK(is_bounded(std::string(deepest_value, '[')));
  CHECK_FALSE(is_bounded(std::string(deepest_value + 1, '[')));
  std::string many = "[";
  for (std::size_t i = 0; i < most_values + 10; ++i)
    many += "1,";
  CHECK_FALSE(is_bounded(many));
  CHECK(is_bounded("\"" + std::string(most_values + 10, ',') + "\""));
  const auto deep = std::get<Unreadable>(read_in(Frame(std::string(1000, '['))));
  CHECK(deep.why == Broken::too_long);
}

TEST_CASE("what is no request is told") {
  const auto reads = [](const std::string& body) { return read_in(Frame(body)); };
  CHECK_FALSE(std::get<Unreadable>(reads("{")).no_request);
  CHECK_FALSE(std::get<Unreadable>(reads("\"\\ud800\"")).no_request); // half a pair
  for (const std::string body :
       {"[]", "1", "{}", R"({"jsonrpc":"1.0","id":1,"method":"x"})", R"({"jsonrpc":"2.0"})",
        R"({"jsonrpc":"2.0","id":{},"method":"x"})", R"({"jsonrpc":"2.0","id":1,"method":2})",
        R"({"jsonrpc":"2.0","id":1.5,"method":"x"})", R"({"jsonrpc":"2.0","method":""})"}) {
    CAPTURE(body);
    const Read read = reads(body);
    REQUIRE(std::holds_alternative<Unreadable>(read));
    CHECK(std::get<Unreadable>(read).no_request);
  }
  CHECK(std::get<Incoming>(reads(R"({"jsonrpc":"2.0","id":"a","method":"x"})")).method == "x");
}

TEST_CASE("a request that waits is called off by its id, and only that one") {
  Desk desk;
  const auto put = [&](const std::string& body) { desk.put(read_in(Frame(body))); };
  put(R"({"jsonrpc":"2.0","id":1,"method":"a"})");
  put(R"({"jsonrpc":"2.0","id":"1","method":"b"})");
  put(R"({"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":1}})");
  CHECK(std::get<Incoming>(desk.take().message).cancelled);
  const Desk::Taken second = desk.take();
  CHECK_FALSE(std::get<Incoming>(second.message).cancelled);
  CHECK_FALSE(second.cancel.cancelled());
  put(R"({"jsonrpc":"2.0","method":"$/cancelRequest","params":{"id":"1"}})");
  CHECK(second.cancel.cancelled()); // while it is worked on
  CHECK(desk.empty());
}

TEST_CASE("an edit calls off what norma does of its own accord, a request does not") {
  Desk desk;
  const workspace::Cancel own = desk.begin_own_work();
  desk.put(read_in(Frame(R"({"jsonrpc":"2.0","id":1,"method":"textDocument/hover"})")));
  CHECK_FALSE(own.cancelled());
  desk.put(read_in(Frame(R"({"jsonrpc":"2.0","method":"textDocument/didChange"})")));
  CHECK(own.cancelled());
  CHECK(desk.begin_own_work().cancelled()); // it still waits
}

TEST_CASE("places in a line are counted in units of the encoding") {
  // A tooth in Chinese (one unit, three bytes), a camera outside of the basic plane (two units,
  // four bytes): counted by hand from the tables of Unicode 15, chapter 3.9.
  const std::string text = "a\xe7\x89\x99"
                           "b\xf0\x9f\x93\xb7"
                           "c\r\nd\re\n";
  const Lines lines(text);
  REQUIRE(lines.count() == 4);
  CHECK(lines.at(8, Encoding::utf16) == Position{0, 3}); // in the middle of the camera
  CHECK(lines.at(9, Encoding::utf16) == Position{0, 5});
  CHECK(lines.at(9, Encoding::utf8) == Position{0, 9});
  CHECK(lines.offset({0, 5}, Encoding::utf16) == 9);
  CHECK(lines.offset({0, 4}, Encoding::utf16) == 5);   // in the middle of the pair: its start
  CHECK(lines.offset({0, 3}, Encoding::utf8) == 1);    // in the middle of the tooth
  CHECK(lines.offset({0, 99}, Encoding::utf16) == 10); // before CR LF
  CHECK(lines.offset({1, 1}, Encoding::utf16) == 13);
  CHECK(lines.offset({2, 0}, Encoding::utf16) == 14);
  CHECK(lines.at(14, Encoding::utf16) == Position{2, 0});
  CHECK(lines.offset({9, 9}, Encoding::utf16) == text.size());
  CHECK(lines.at(999, Encoding::utf16) == Position{3, 0});
  // A byte order mark of a file on the disk is not shown; in an editor's text it is a character.
  const std::string marked = "\xef\xbb\xbfnorma";
  CHECK(Lines(marked, true).at(3, Encoding::utf16) == Position{0, 0});
  CHECK(Lines(marked).at(3, Encoding::utf16) == Position{0, 1});
}

TEST_CASE("a long line is counted as a short one is") {
  std::string line;
  std::vector<std::pair<std::size_t, std::uint32_t>> places;
  std::uint32_t units = 0;
  for (int i = 0; i < 3000; ++i) {
    places.emplace_back(line.size(), units);
    line += i % 7 == 0 ? "\xf0\x9f\x93\xb7" : i % 5 == 0 ? "\xe7\x89\x99" : "x";
    units += i % 7 == 0 ? 2 : 1;
  }
  const std::string text = "first\n" + line;
  const Lines lines(text);
  for (const auto& [offset, character] : places) {
    CHECK(lines.at(offset + 6, Encoding::utf16) == Position{1, character});
    CHECK(lines.offset({1, character}, Encoding::utf16) == offset + 6);
    CHECK(lines.at(offset + 6, Encoding::utf8) == Position{1, static_cast<std::uint32_t>(offset)});
  }
}

TEST_CASE("addresses of files") {
  CHECK(path_of("file:///a/b%20c%C3%A9.norma") == "/a/b c\xc3\xa9.norma");
  CHECK(path_of("file://localhost/a/../b") == "/b");
  for (const char* none : {"file://host/a", "https://a/b", "untitled:1", "file:///a%0",
                           "file:///a%00", "file:///a%zz", ""}) {
    CAPTURE(none);
    CHECK_FALSE(path_of(none));
  }
  const std::string odd = "/a b/\xc3\xa9%#?.norma";
  CHECK(path_of(uri_of(odd)) == odd);
}

TEST_CASE("changes are made one after the other, and not without end") {
  const auto text = std::make_shared<const Text>("one\r\ntwo\n");
  const auto now =
      changed(text, {{Range{{0, 3}, {1, 0}}, " "}, {Range{{0, 7}, {0, 4}}, "2"}}, Encoding::utf16);
  CHECK(now->bytes == "one 2\n");
  const auto large = std::make_shared<const Text>(std::string(1 << 20, 'x'));
  const std::vector<Change> many(5000, Change{Range{{0, 0}, {0, 0}}, "y"});
  CHECK(changed(large, many, Encoding::utf16) == nullptr);
}

} // namespace norma::test
