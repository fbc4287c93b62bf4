// Requests held against what they must agree with: tidy, check, and the text they are about.
#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <random>

#include "server/uri.hpp"
#include "session.hpp"
#include "session/documents.hpp"
#include "session/session.hpp"
#include "support/shipped.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

using server::Encoding;
using server::Out;

/// A player with this folder open.
void open_folder(Player& player, const fs::path& folder) {
  player.play(
      request("1", "initialize",
              {{"rootUri", server::uri_of(folder.string())}, {"capabilities", Out::object()}}));
}

/// What is answered to a request; its findings and messages are let go.
Out answer(Player& player, const std::string& method, const Out& params) {
  Out found;
  int answers = 0;
  for (const Out& message : player.play(request("7", method, params))) {
    if (!message.contains("id") || message.contains("method")) continue;
    CHECK(message["id"] == 7);
    found = message;
    ++answers;
  }
  CHECK(answers == 1);
  return found;
}

Out about(const std::string& uri) { return {{"textDocument", {{"uri", uri}}}}; }
Out at(const std::string& uri, const std::string& text, std::size_t offset) {
  Out out = about(uri);
  out["position"] = server::json_of(server::Lines(text).at(offset, Encoding::utf16));
  return out;
}

server::Range range_of(const Out& json) {
  const server::In in = server::In::parse(json.dump());
  const auto range = server::range_in(&in);
  REQUIRE(range);
  return *range;
}

/// Edits as an editor makes them: all places are those of the text before.
std::string edited(const std::string& text, const Out& edits) {
  std::vector<std::pair<server::Range, std::string>> all;
  for (const Out& edit : edits)
    all.emplace_back(range_of(edit["range"]), edit["newText"].get<std::string>());
  std::sort(all.begin(), all.end());
  const server::Lines lines(text);
  std::string out = text;
  for (auto it = all.rbegin(); it != all.rend(); ++it) {
    const std::size_t begin = lines.offset(it->first.start, Encoding::utf16);
    const std::size_t end = lines.offset(it->first.end, Encoding::utf16);
    out.replace(begin, end - begin, it->second);
  }
  return out;
}

/// All ranges anywhere in an answer lie in the text, and are the right way round.
void check_ranges(const Out& json, std::size_t lines) {
  if (json.is_object() && json.contains("start") && json.contains("end")) {
    const server::Range range = range_of(json);
    CHECK(range.start <= range.end);
    CHECK(range.end.line < lines);
    return;
  }
  if (!json.is_structured()) return;
  for (const Out& inner : json)
    check_ranges(inner, lines);
}

/// The codes of all findings about a folder of texts.
std::multiset<std::string> codes_of(const fs::path& folder,
                                    const std::map<std::string, std::string>& texts) {
  session::Request wanted;
  for (const auto& [path, text] : texts) {
    wanted.protocols.push_back(path);
    wanted.overlays.push_back({path, text});
  }
  wanted.on = {2026, 11, 25};
  wanted.root = folder.string();
  wanted.scene = false;
  session::Session run;
  run.run(text::DiskFiles(), wanted);
  std::multiset<std::string> out;
  for (const diag::Diagnostic& d : run.report().findings.all())
    out.insert(std::string(d.definition->code));
  return out;
}

} // namespace

TEST_CASE("what people read is in their language, findings and titles alike") {
  Player player({2026, 11, 25}, wording::german());
  open_folder(player, root() / "protocols");
  const fs::path file = root() / "protocols/none.norma";
  player.play(
      opened(file, "norma 1\nprotocol p \"P\" { for adults\n view a \"A\" { ratio 1/2 } }\n"));
  Out params = about(server::uri_of(file.string()));
  params["range"] = server::json_of(server::Range{{2, 0}, {2, 99}});
  const Out actions = answer(player, "textDocument/codeAction", params)["result"];
  REQUIRE(actions.size() == 1);
  CHECK(actions[0]["title"] == "1:2 statt 1/2 schreiben");
  CHECK(actions[0]["diagnostics"][0]["message"].get<std::string>().find("\nAbhilfe: ") !=
        std::string::npos);
  const Out refused = answer(player, "textDocument/rhubarb", Out::object());
  CHECK(refused["error"]["message"] == "norma kennt textDocument/rhubarb nicht");
}

TEST_CASE("formatting is what tidy does, whatever blanks stand there") {
  std::mt19937 random(7);
  for (const fs::path& file : shipped_protocols()) {
    CAPTURE(file.filename().string());
    const std::string uri = server::uri_of(file.string());
    const std::string shipped = read_file(file);
    for (const bool crlf : {false, true}) {
      std::string text;
      for (const char c : shipped) {
        if (c == ' ' && random() % 3 == 0) text += "  ";
        if (c == '\n' && crlf) text += '\r';
        if (c == '\n' && random() % 5 == 0) text += " \n"; // a line more, or blanks at its end
        text += c;
      }
      Player player;
      open_folder(player, root() / "protocols");
      player.play(opened(file, text));
      const Out reply = answer(player, "textDocument/formatting", about(uri));
      const auto tidy = session::tidy(text::DiskFiles(), file.string(), {{file.string(), text}});
      REQUIRE(tidy->made.has_value() == !reply["result"].is_null());
      if (tidy->made) CHECK(edited(text, reply["result"]) == *tidy->made);
    }
  }
}

TEST_CASE("whatever is asked wherever: one answer, and its places lie in the text") {
  std::mt19937 random(11);
  for (const fs::path& file : shipped_protocols()) {
    CAPTURE(file.filename().string());
    const std::string uri = server::uri_of(file.string());
    Player player;
    open_folder(player, root() / "protocols");
    // Half a file, cut anywhere; the other half upside down.
    std::string text = read_file(file);
    text.resize(text.size() / 2 + random() % (text.size() / 2));
    while (!text.empty() && (static_cast<unsigned char>(text.back()) & 0x80u) != 0)
      text.pop_back();
    player.play(opened(file, text));
    const std::size_t lines = server::Lines(text).count();
    for (int i = 0; i < 25; ++i) {
      const Out place = at(uri, text, random() % (text.size() + 1));
      CAPTURE(place.dump());
      for (const char* method :
           {"textDocument/hover", "textDocument/completion", "textDocument/prepareRename"}) {
        const Out reply = answer(player, method, place);
        CHECK(reply.contains("result"));
        check_ranges(reply, lines);
      }
      answer(player, "textDocument/definition", place); // may lie in a base
      Out selected = about(uri);
      selected["positions"] = Out::array({place["position"]});
      check_ranges(answer(player, "textDocument/selectionRange", selected), lines);
    }
    for (const char* method : {"textDocument/documentSymbol", "textDocument/foldingRange",
                               "textDocument/semanticTokens/full"})
      check_ranges(answer(player, method, about(uri)), lines);
  }
}

TEST_CASE("a view or a series that is renamed is found as before, in all that build on it") {
  const fs::path folder = root() / "protocols";
  // All shipped protocols together: some build on others.
  std::map<std::string, std::string> texts;
  for (const fs::path& file : shipped_protocols())
    texts[file.string()] = read_file(file);
  const fs::path quarry = folder / "quarry/orthodontic.norma";
  texts[quarry.string()] = read_file(quarry);
  const auto before = codes_of(folder, texts);
  std::size_t renamed = 0;
  std::size_t across = 0;
  for (const auto& shipped : texts) {
    const std::string& path = shipped.first;
    CAPTURE(path);
    Player player;
    open_folder(player, folder);
    player.play(opened(path, shipped.second));
    std::vector<Out> symbols;
    const Out outline =
        answer(player, "textDocument/documentSymbol", about(server::uri_of(path)))["result"];
    for (const Out& protocol : outline) {
      if (!protocol.contains("children")) continue;
      for (const Out& one : protocol["children"])
        symbols.push_back(one);
    }
    std::set<std::string> done;
    for (const Out& symbol : symbols) {
      if (symbol["kind"] != 5 && symbol["kind"] != 18) continue; // a view, a series
      const server::Range place = range_of(symbol["selectionRange"]);
      Out params = about(server::uri_of(path));
      params["position"] = server::json_of(place.start);
      params["newName"] = "renamed_by_test";
      const Out reply = answer(player, "textDocument/rename", params);
      CAPTURE(symbol["name"].get<std::string>());
      REQUIRE(reply.contains("result"));
      auto now = texts;
      for (const auto& [uri, edits] : reply["result"]["changes"].items()) {
        const std::string edited_path = *server::path_of(uri);
        REQUIRE(now.count(edited_path) == 1);
        now[edited_path] = edited(now[edited_path], edits);
        if (edited_path != path) ++across;
      }
      CHECK(now != texts);
      CHECK(codes_of(folder, now) == before);
      if (++renamed % 4 == 0) break; // a few of each file
    }
  }
  CHECK(renamed > 20);
  CHECK(across > 0);
}

} // namespace norma::test
