#include "session.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <sstream>
#include <utility>

#include "server/uri.hpp"
#include "support/support.hpp"

namespace norma::test {

using server::In;
using server::Out;

Player::Player(words::Date on, const wording::Language& language, live::OpenHost open_host) {
  server::Settings settings;
  settings.on = [on] { return on; };
  settings.language = &language;
  settings.open_host = std::move(open_host);
  state_ = std::make_unique<server::State>(
      settings, [this](const Out& message) { said_.push_back(message); });
}

std::vector<Out> Player::play(const std::string& bytes) {
  said_.clear();
  std::size_t at = 0;
  server::Wire wire;
  wire.read = [&](char* into, std::size_t room) {
    // In pieces, as a pipe gives them.
    const std::size_t got = std::min({room, bytes.size() - at, std::size_t{1000}});
    bytes.copy(into, got, at);
    at += got;
    return got;
  };
  server::FrameReader frames(wire);
  server::Desk desk;
  while (true) {
    server::Read read = server::read_in(frames.next());
    const auto* end = std::get_if<server::Ended>(&read);
    if (end != nullptr && !end->lost) break; // of this section
    const bool lost = end != nullptr;
    desk.put(std::move(read));
    if (lost) break;
  }
  while (!state_->ended() && (!desk.empty() || state_->has_work())) {
    if (desk.empty()) {
      state_->work(desk.begin_own_work());
      continue;
    }
    server::Desk::Taken next = desk.take();
    state_->take(std::move(next.message), next.cancel);
  }
  return std::exchange(said_, {});
}

namespace {

Out id_of(const std::string& id) {
  const bool number = !id.empty() && id.find_first_not_of("0123456789") == std::string::npos;
  return number ? Out(std::stoi(id)) : Out(id);
}

} // namespace

std::string request(const std::string& id, const std::string& method, const Out& params) {
  return server::framed(server::written(
      {{"jsonrpc", "2.0"}, {"id", id_of(id)}, {"method", method}, {"params", params}}));
}

std::string notification(const std::string& method, const Out& params) {
  return server::framed(
      server::written({{"jsonrpc", "2.0"}, {"method", method}, {"params", params}}));
}

std::string opened(const std::filesystem::path& file, const std::string& text) {
  return notification("textDocument/didOpen",
                      {{"textDocument",
                        {{"uri", server::uri_of(file.string())},
                         {"languageId", file.extension() == ".norma" ? "norma" : "yaml"},
                         {"version", 1},
                         {"text", text}}}});
}

namespace {

class Script {
 public:
  Script(const std::string& script, const std::filesystem::path& folder)
      : folder_(folder), uri_(server::uri_of(folder.string())) {
    std::istringstream in(script);
    for (std::string line; std::getline(in, line);)
      lines_.push_back(line);
  }

  std::vector<std::string> sections() {
    std::vector<std::string> out{""};
    while (at_ < lines_.size()) {
      const std::string line = lines_[at_++];
      CAPTURE(line);
      if (line.empty() || line.starts_with("#")) continue;
      if (line == "---") {
        out.emplace_back();
        continue;
      }
      out.back() += message(line);
    }
    if (out.back().empty()) out.pop_back();
    return out;
  }

 private:
  std::string message(const std::string& line) {
    std::istringstream words(line);
    std::string kind;
    std::string first;
    words >> kind;
    if (kind == "bytes") return escaped(line.substr(line.find('"') + 1));
    words >> first;
    if (kind == "request") {
      std::string method;
      words >> method;
      return request(first, method, parameters());
    }
    if (kind == "notify") return notification(first, parameters());
    if (kind == "answer") {
      return server::framed(
          server::written({{"jsonrpc", "2.0"}, {"id", id_of(first)}, {"result", parameters()}}));
    }
    int version = 0;
    words >> version;
    if (kind == "open") return open(first, version, line);
    REQUIRE_MESSAGE(kind == "change", "no such line of a script");
    std::string range;
    words >> range;
    Out change = {{"text", text().value_or("")}};
    if (!range.empty()) {
      unsigned at[4] = {};
      REQUIRE(std::sscanf(range.c_str(), "%u:%u-%u:%u", &at[0], &at[1], &at[2], &at[3]) == 4);
      change["range"] = {{"start", {{"line", at[0]}, {"character", at[1]}}},
                         {"end", {{"line", at[2]}, {"character", at[3]}}}};
    }
    return notification("textDocument/didChange",
                        {{"textDocument", {{"uri", uri_ + "/" + first}, {"version", version}}},
                         {"contentChanges", Out::array({change})}});
  }

  std::string open(const std::string& file, int version, const std::string& line) {
    std::string bytes;
    if (const auto given = text())
      bytes = *given;
    else
      bytes = read_file(folder_ / file);
    if (line.find(" crlf") != std::string::npos) {
      std::string lines;
      for (const char c : bytes) {
        if (c == '\n') lines += '\r';
        lines += c;
      }
      bytes = lines;
    }
    if (line.find(" bom") != std::string::npos) bytes = "\xef\xbb\xbf" + bytes;
    return notification("textDocument/didOpen",
                        {{"textDocument",
                          {{"uri", file.find(':') == std::string::npos ? uri_ + "/" + file : file},
                           {"languageId", file.ends_with(".yaml") ? "yaml" : "norma"},
                           {"version", version},
                           {"text", bytes}}}});
  }

  /// The lines behind |; nothing where there are none.
  std::optional<std::string> text() {
    std::optional<std::string> out;
    for (; at_ < lines_.size() && lines_[at_].starts_with("|"); ++at_) {
      if (out)
        *out += "\n";
      else
        out = "";
      const std::string& line = lines_[at_];
      *out += line.substr(std::min<std::size_t>(2, line.size()));
    }
    return out;
  }

  Out parameters() {
    std::string json;
    for (; at_ < lines_.size() && lines_[at_].starts_with("  "); ++at_)
      json += lines_[at_] + "\n";
    if (json.empty()) return Out::object();
    for (std::size_t i = json.find("$ROOT"); i != std::string::npos; i = json.find("$ROOT", i))
      json.replace(i, 5, uri_);
    CAPTURE(json);
    Out out = Out::parse(json, nullptr, false);
    REQUIRE_FALSE(out.is_discarded());
    return out;
  }

  static std::string escaped(std::string_view text) {
    std::string out;
    for (std::size_t i = 0; i < text.size() && text[i] != '"'; ++i) {
      if (text[i] != '\\') {
        out += text[i];
        continue;
      }
      ++i;
      out += text[i] == 'r' ? '\r' : text[i] == 'n' ? '\n' : text[i];
    }
    return out;
  }

  std::filesystem::path folder_;
  std::string uri_;
  std::vector<std::string> lines_;
  std::size_t at_ = 0;
};

} // namespace

std::vector<std::string> sections_of(const std::string& script,
                                     const std::filesystem::path& folder) {
  return Script(script, folder).sections();
}

} // namespace norma::test
