// A session with the language server as a script, and what the server says to it.
#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "server/state.hpp"

namespace norma::test {

/// Plays messages to a server in this process: framed, read back, queued, taken up.
class Player {
 public:
  explicit Player(words::Date on = {2026, 11, 25},
                  const wording::Language& language = wording::english(),
                  live::OpenHost open_host = {});

  /// All of these bytes arrive; then the server does what is to do. What it has said since the last
  /// time, message by message.
  std::vector<server::Out> play(const std::string& bytes);
  [[nodiscard]] const server::State& state() const { return *state_; }

 private:
  std::vector<server::Out> said_;
  std::unique_ptr<server::State> state_;
};

std::string request(const std::string& id, const std::string& method, const server::Out& params);
std::string notification(const std::string& method, const server::Out& params);
/// `textDocument/didOpen` of a file with this text.
std::string opened(const std::filesystem::path& file, const std::string& text);

/// The script of a session as the bytes of each of its sections. Lines:
///
///   # what is meant
///   request 1 textDocument/hover       the lines below it that are set in are its parameters
///   notify initialized
///   answer norma.kit                   to what the server asked
///   open five.norma 1 [crlf] [bom]     the lines below it behind | are its text; without any, the
///                                      file's own
///   change five.norma 2 3:4-3:9        behind | what is put there
///   bytes "Content-Length: x\r\n\r\n"  as they are
///   ---                                the server answers all above
///
/// $ROOT is the address of the folder.
std::vector<std::string> sections_of(const std::string& script,
                                     const std::filesystem::path& folder);

} // namespace norma::test
