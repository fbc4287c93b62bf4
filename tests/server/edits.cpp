// Whatever is typed: what the server says of a text is what `norma check` says of it.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <iterator>
#include <random>
#include <set>
#include <sstream>

#include "cli/run.hpp"
#include "diag/catalogue.hpp"
#include "server/uri.hpp"
#include "session.hpp"
#include "support/shipped.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

using server::Out;
using Found = std::multiset<std::string>;

fs::path folder() { return root() / "protocols"; }
constexpr const char* kit = "kits/chair_3.yaml";

/// `norma check` of this text under the name of a file: the lines about that file.
Found by_check(const fs::path& file, const std::string& text) {
  const cli::Outcome run =
      cli::run({"check", "--on", "2026-11-25", "--root", folder().string(), "--kit",
                (folder() / kit).string(), "--format", "lines", "-", "--stdin-name", file.string()},
               {[&] { return text::ReadResult(text); }});
  Found out;
  std::istringstream in(run.out);
  for (std::string line; std::getline(in, line);) {
    if (!line.starts_with(file.string() + ":")) continue;
    line.erase(0, file.string().size() + 1);
    // place: severity: code name: what
    const std::size_t severity = line.find(": ");
    const std::size_t code = line.find(": ", severity + 2);
    out.insert(line.substr(0, severity) + " " + line.substr(code + 2));
  }
  return out;
}

/// The findings that were published last about a file, in the same form.
Found by_server(const std::vector<Out>& said, const std::string& uri, const Found& before) {
  Found out = before;
  for (const Out& message : said) {
    if (message.value("method", "") != "textDocument/publishDiagnostics") continue;
    const Out& params = message["params"];
    if (params["uri"] != uri) continue;
    out.clear();
    for (const Out& d : params["diagnostics"]) {
      const std::string code = d["code"];
      std::string what = d["message"];
      what = what.substr(0, what.find('\n'));
      out.insert(fmt::format("{}:{} {} {}: {}", d["range"]["start"]["line"].get<int>() + 1,
                             d["range"]["start"]["character"].get<int>() + 1, code,
                             diag::catalogue::find(code)->name, what));
    }
  }
  return out;
}

std::string joined(const Found& lines) {
  std::string out;
  for (const std::string& line : lines)
    out += line + "\n";
  return out;
}

void start(Player& player, const fs::path& top, const Out& options) {
  player.play(request("1", "initialize",
                      {{"rootUri", server::uri_of(top.string())},
                       {"capabilities", Out::object()},
                       {"initializationOptions", options}}) +
              notification("initialized", Out::object()));
}

/// Bytes before a place are counted as lines and units of UTF-16.
Out position(const std::string& text, std::size_t offset) {
  const server::Lines lines(text);
  return server::json_of(lines.at(offset, server::Encoding::utf16));
}

/// An edit as people make them, or as nobody does: a piece taken out, put in, or doubled.
struct Typed {
  std::size_t begin, end;
  std::string text;
};

std::size_t character_begin(const std::string& text, std::size_t at) {
  while (at > 0 && at < text.size() && (static_cast<unsigned char>(text[at]) & 0xc0u) == 0x80u)
    --at;
  return at;
}

Typed drawn(const std::string& text, std::mt19937& random) {
  static const char* const pieces[] = {"}",
                                       "{",
                                       "\n",
                                       "\r\n",
                                       " ",
                                       ",",
                                       "mirror",
                                       "\"",
                                       "#",
                                       "1:2",
                                       "22",
                                       "f/32",
                                       "no",
                                       "also",
                                       "=",
                                       "\xe7\x89\x99",
                                       "view x \"X\" { }",
                                       "\xc3\xa9",
                                       "ratio 1:2"};
  const auto below = [&](std::size_t n) { return n == 0 ? 0 : random() % n; };
  const std::size_t begin = character_begin(text, below(text.size() + 1));
  const std::size_t end =
      character_begin(text, std::min(text.size(), begin + below(3) * below(40)));
  if (below(3) == 0) return {begin, std::max(begin, end), ""};
  if (below(4) == 0) return {begin, begin, text.substr(begin, std::max(begin, end) - begin)};
  return {begin, std::max(begin, end), pieces[below(std::size(pieces))]};
}

} // namespace

TEST_CASE("random edits of every shipped protocol give the findings of a fresh check") {
  std::mt19937 random(20261127);
  std::size_t compared = 0;
  std::size_t found = 0;
  for (const fs::path& file : shipped_protocols()) {
    CAPTURE(file.filename().string());
    const std::string uri = server::uri_of(file.string());
    Player player;
    start(player, folder(), {{"norma", {{"kit", kit}}}});
    std::string text = read_file(file);
    Found now = by_server(player.play(opened(file, text)), uri, {});
    CHECK(joined(now) == joined(by_check(file, text)));
    const std::string as_shipped = text;
    for (int i = 0; i < 12; ++i) {
      CAPTURE(i);
      const Typed typed = drawn(text, random);
      const Out range = {{"start", position(text, typed.begin)},
                         {"end", position(text, typed.end)}};
      // From time to time it is mended as a whole.
      const bool mended = i % 5 == 4;
      Out change = {{"text", mended ? as_shipped : typed.text}};
      if (!mended) change["range"] = range;
      if (mended)
        text = as_shipped;
      else
        text.replace(typed.begin, typed.end - typed.begin, typed.text);
      now =
          by_server(player.play(notification("textDocument/didChange",
                                             {{"textDocument", {{"uri", uri}, {"version", i + 2}}},
                                              {"contentChanges", Out::array({change})}})),
                    uri, now);
      const Found fresh = by_check(file, text);
      CAPTURE(text);
      CHECK(joined(now) == joined(fresh));
      ++compared;
      found += fresh.size();
    }
  }
  CHECK(compared > 100);
  CHECK(found > 500);
}

TEST_CASE("a base that changes on the disk is looked at in what builds on it") {
  const Folder place;
  const auto write_base = [&](const std::string& view) {
    write_file(place.path() / "base.norma", "norma 1\n\nprotocol base \"Base\" {\n  for adults\n"
                                            "  sensor 36 x 24 mm\n  view " +
                                                view + " \"A view\" { ratio 1:2 }\n}\n");
  };
  write_base("front");
  Player player;
  start(player, place.path(), Out::object());
  const std::filesystem::path child = place.path() / "child.norma";
  const std::string uri = server::uri_of(child.string());
  Found now = by_server(
      player.play(opened(child, "norma 1\n\nprotocol child \"Child\" {\n"
                                "  builds on base from \"base.norma\"\n  series s = front\n}\n")),
      uri, {});
  CHECK(now.empty());
  const auto changed_on_disk = [&] {
    return by_server(
        player.play(notification(
            "workspace/didChangeWatchedFiles",
            {{"changes",
              Out::array({{{"uri", server::uri_of((place.path() / "base.norma").string())},
                           {"type", 2}}})}})),
        uri, now);
  };
  write_base("back");
  now = changed_on_disk();
  CHECK(joined(now).find("there is no view `front`") != std::string::npos);
  write_base("front");
  CHECK(changed_on_disk().empty());
  // What stands in the base itself is told there, and taken back when it is mended, though nobody
  // has the base open.
  const std::string base = server::uri_of((place.path() / "base.norma").string());
  const auto told_of_base = [&] {
    return by_server(
        player.play(notification("workspace/didChangeWatchedFiles",
                                 {{"changes", Out::array({{{"uri", base}, {"type", 2}}})}})),
        base, {"nothing was told"});
  };
  write_base("front \"A\" { raito 1:2 }\n  view other");
  CHECK(joined(told_of_base()).find("`raito` is not a word") != std::string::npos);
  write_base("front");
  CHECK(told_of_base().empty());
}

TEST_CASE("an edit of a base is looked at in what builds on it, and in nothing else") {
  const Folder place;
  const auto write = [&](const std::string& name, const std::string& text) {
    write_file(place.path() / name, text);
  };
  const std::string head = "norma 1\n\nprotocol base \"Base\" {\n  for adults\n";
  write("base.norma", head + "  view front \"Front\" { ratio 1:2 }\n}\n");
  write("child.norma",
        "norma 1\n\nprotocol child \"Child\" {\n  builds on base from \"base.norma\"\n"
        "  change view front because \"small\" { ratio 1:1 }\n}\n");
  write("other.norma", "norma 1\n\nprotocol other \"Other\" {\n  for adults\n}\n");
  Player player;
  start(player, place.path(), Out::object());
  const auto path = [&](const char* name) { return place.path() / name; };
  for (const char* name : {"child.norma", "other.norma", "base.norma"})
    player.play(opened(path(name), read_file(path(name))));
  const std::size_t looked_at = player.state().looked_at();
  const workspace::Counters before = player.state().counters();
  const auto change = [&](const char* name, const std::string& text) {
    return player.play(notification(
        "textDocument/didChange",
        {{"textDocument", {{"uri", server::uri_of(path(name).string())}, {"version", 2}}},
         {"contentChanges", Out::array({{{"text", text}}})}}));
  };
  const auto said = change("base.norma", head + "  view back \"Back\" { ratio 1:2 }\n}\n");
  CHECK(player.state().looked_at() - looked_at == 2); // the base and the one that builds on it
  const workspace::Counters work = player.state().counters() - before;
  CHECK(work.parsed == 1);
  CHECK(work.checked == 2);
  // The view that the child changes is gone: it says so without having been touched.
  bool told = false;
  for (const Out& message : said) {
    if (message["params"]["uri"] == server::uri_of(path("child.norma").string()))
      told = message["params"]["diagnostics"].dump().find("no view `front`") != std::string::npos ||
             !message["params"]["diagnostics"].empty();
  }
  CHECK(told);
  const std::size_t again = player.state().looked_at();
  change("other.norma", "norma 1\n");
  CHECK(player.state().looked_at() - again == 1);
}

} // namespace norma::test
