#include "server/server.hpp"

#include <memory>
#include <thread>
#include <utility>

#include "server/state.hpp"

namespace norma::server {
namespace {

void read_all(const Wire& wire, Desk& desk) {
  FrameReader frames(wire);
  while (true) {
    Read read = read_in(frames.next());
    const bool last = std::holds_alternative<Ended>(read);
    const auto* message = std::get_if<Incoming>(&read);
    const bool leaves = message != nullptr && message->method == "exit";
    desk.put(std::move(read));
    if (last || leaves) return;
  }
}

} // namespace

int serve(const Wire& wire, const Settings& settings) {
  bool written = true;
  State state(settings, [&](const Out& message) {
    written = written && wire.write(framed(server::written(message)));
  });
  // Where nobody takes answers any more, the reader may still wait for bytes that never come: it
  // holds what it needs.
  const auto desk = std::make_shared<Desk>();
  std::thread reader([wire, desk] { read_all(wire, *desk); });
  while (!state.ended() && written) {
    if (desk->empty() && state.has_work()) {
      state.work(desk->begin_own_work());
      continue;
    }
    Desk::Taken next = desk->take();
    state.take(std::move(next.message), next.cancel);
  }
  if (!state.ended()) {
    reader.detach();
    return 1;
  }
  reader.join();
  return *state.ended();
}

} // namespace norma::server
