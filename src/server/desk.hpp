// Where messages wait. One thread reads them in, another takes them up; what is no longer wanted is
// called off while it is worked on.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <mutex>
#include <optional>
#include <string>
#include <variant>

#include "server/framing.hpp"
#include "server/json.hpp"
#include "workspace/cancel.hpp"

namespace norma::server {

/// A message that was read.
struct Incoming {
  std::string method; // "" of an answer
  std::optional<In> id;
  In params;
  In result;              // of an answer
  bool cancelled = false; // nobody waits for it any more
  std::size_t size = 0;
};
/// One that is none: JSON that cannot be read, or something else than a request.
struct Unreadable {
  Broken why = Broken::json;
  bool no_request = false; // JSON, but not of JSON-RPC
};
using Read = std::variant<Incoming, Unreadable, Ended>;

/// The message in a frame.
Read read_in(const Frame& frame);

class Desk {
 public:
  /// Waits while too much lies there. `$/cancelRequest` calls off what it names; an edit calls off
  /// what norma does of its own accord.
  void put(Read message);

  /// A message, and what calls it off until the next one is taken.
  struct Taken {
    Read message;
    workspace::Cancel cancel;
  };
  /// Waits for the next one.
  Taken take();
  [[nodiscard]] bool empty() const;
  /// The same for what norma does of its own accord: an edit calls it off.
  workspace::Cancel begin_own_work();

 private:
  static constexpr std::size_t most_messages = 1000;
  static constexpr std::size_t most_bytes = longest_body;
  void call_off(const In& id);
  void begin(std::optional<In> id);

  mutable std::mutex mutex_;
  std::condition_variable came_;
  std::condition_variable went_;
  std::deque<Read> waiting_;
  std::size_t bytes_ = 0;
  std::optional<In> current_; // id of the request that is worked on; nothing: norma's own work
  workspace::Cancel cancel_;
};

} // namespace norma::server
