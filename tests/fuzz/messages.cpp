// Bytes as a stream of messages to the language server: parted, read as JSON, queued, answered.
#include <algorithm>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "server/desk.hpp"
#include "server/state.hpp"

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace norma;
  const std::string bytes(reinterpret_cast<const char*>(data), size);
  std::size_t at = 0;
  server::Wire wire;
  wire.read = [&](char* into, std::size_t room) {
    const std::size_t got = std::min(room, bytes.size() - at);
    bytes.copy(into, got, at);
    at += got;
    return got;
  };
  server::Settings settings;
  settings.on = [] { return words::Date{2026, 11, 25}; };
  std::size_t answers = 0;
  server::State state(settings, [&](const server::Out& message) {
    require(message["jsonrpc"] == "2.0");
    // What is written can be read.
    require(!server::In::parse(server::written(message), nullptr, false).is_discarded());
    ++answers;
  });
  server::FrameReader frames(wire);
  std::size_t asked = 0;
  while (!state.ended()) {
    server::Desk desk;
    server::Read read = server::read_in(frames.next());
    const auto* message = std::get_if<server::Incoming>(&read);
    if (message != nullptr && message->id && !message->method.empty() &&
        message->method != "$/cancelRequest")
      ++asked;
    desk.put(std::move(read));
    while (!desk.empty()) {
      server::Desk::Taken next = desk.take();
      state.take(std::move(next.message), next.cancel);
    }
    while (state.has_work())
      state.work(desk.begin_own_work());
  }
  require(answers >= asked); // each request has its answer
  return 0;
}
