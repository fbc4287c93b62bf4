// Messages of JSON-RPC as they stand in a stream: a header with the length, a blank line, the body.
// What comes in is a stranger's: header and body are bounded.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <variant>

#include "server/wire.hpp"

namespace norma::server {

inline constexpr std::size_t longest_header = 8192;
/// A file of 16 MB, each byte of it escaped in JSON, does not fit; such a file is refused anyhow.
inline constexpr std::size_t longest_body = 64u * 1024u * 1024u;
/// More values than any message of an editor has, and deeper: each of them costs memory.
inline constexpr std::size_t most_values = 500000;
inline constexpr std::size_t deepest_value = 64;

/// A message that cannot be taken; what follows it can.
enum class Broken { header, too_long, json };
/// No more messages: the stream has ended, in the middle of one or not, or its next header is so
/// long that nobody knows where it stops.
struct Ended {
  bool lost = false; // by such a header
};

using Frame = std::variant<std::string, Broken, Ended>;

class FrameReader {
 public:
  explicit FrameReader(const Wire& wire) : wire_(wire) {}

  /// The body of the next message. Keeps no more than one message.
  Frame next();

 private:
  bool fill();
  bool skip(std::size_t bytes);
  /// The header without its blank line; nothing where the stream ends before that.
  enum class Header { whole, ended, too_long };
  Header header(std::string& into);

  const Wire& wire_;
  std::string room_;
  std::size_t at_ = 0;
};

/// Can this JSON be read at no great cost: is it nested no deeper, and has it no more values? (Is
/// it JSON at all, whoever reads it says.)
bool is_bounded(std::string_view json);

/// A body with its header.
std::string framed(std::string_view body);

} // namespace norma::server
