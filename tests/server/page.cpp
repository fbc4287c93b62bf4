// The picture of the protocol under work: what an editor is told of it, and what is on its address.
#include <doctest/doctest.h>

#include "server/uri.hpp"
#include "session.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

using server::Out;

/// Listens nowhere; shows what it would answer.
class Listening {
 public:
  live::OpenHost opener() {
    return [this](live::Site& site, std::uint16_t) {
      ++opened;
      site_ = &site;
      site.listens_at(4711);
      return std::variant<std::unique_ptr<live::Host>, std::string>(std::make_unique<live::Host>());
    };
  }
  [[nodiscard]] std::string state() const { return site_->event().text; }
  int opened = 0;

 private:
  live::Site* site_ = nullptr;
};

fs::path five() { return root() / "protocols/five.norma"; }

void start(Player& player, bool shows_documents) {
  Out params = {{"rootUri", server::uri_of((root() / "protocols").string())},
                {"capabilities", {{"window", {{"showDocument", {{"support", shows_documents}}}}}}},
                {"initializationOptions", {{"kit", "kits/chair_3.yaml"}}}};
  player.play(request("1", "initialize", params));
}

/// The last message of a kind; null where there is none.
Out of_method(const std::vector<Out>& all, std::string_view method) {
  Out found;
  for (const Out& message : all) {
    if (message.contains("method") && message["method"] == method) found = message;
  }
  return found;
}
Out answer_in(const std::vector<Out>& all) {
  for (const Out& message : all) {
    if (message.contains("id") && !message.contains("method")) return message;
  }
  return {};
}

std::string changed(int version, const std::string& text) {
  return notification(
      "textDocument/didChange",
      {{"textDocument", {{"uri", server::uri_of(five().string())}, {"version", version}}},
       {"contentChanges", Out::array({{{"text", text}}})}});
}

} // namespace

TEST_CASE("an editor that asks for the page is told of each edit, and asks for views") {
  Player player;
  start(player, false);
  const std::string text = read_file(five());
  CHECK(of_method(player.play(opened(five(), text)), "norma/state").is_null()); // nobody looks
  const auto first = player.play(request("2", "norma/page", Out::object()));
  const std::string html = answer_in(first)["result"]["html"];
  CHECK(html.starts_with("<!doctype html>"));
  const Out state = of_method(first, "norma/state")["params"]["state"];
  CHECK(state["views"].size() == 5);
  CHECK(state["about"].get<std::string>().find("Chair 3, full set") != std::string::npos);

  std::string edited = text;
  edited.replace(edited.find("facial 12 to 17, 42 to 47"), 9, "facial 13");
  const auto next = player.play(changed(2, edited));
  const Out now = of_method(next, "norma/state")["params"]["state"];
  CHECK(now["changed"]["view"] == 3);
  CHECK(now["revision"].get<int>() > state["revision"].get<int>());
  const Out view = answer_in(player.play(request("3", "norma/view", {{"view", 3}})))["result"];
  CHECK(view["name"] == "right");
  CHECK(view["revision"] == now["revision"]);
  CHECK(view["finder"].get<std::string>().starts_with("<svg "));
  CHECK(answer_in(player.play(request("4", "norma/view", {{"view", 5}})))["result"].is_null());
  CHECK(answer_in(player.play(request("5", "norma/view", {{"view", -1}})))["result"].is_null());
  CHECK(answer_in(player.play(request("6", "norma/view", Out::object())))["error"]["code"] ==
        -32602);

  // Half a line: the picture stays as it was, and is marked.
  const std::string drawn = view["finder"];
  edited.replace(edited.find("facial 13 to 17"), 15, "facial 13 to 1");
  player.play(changed(3, edited));
  const Out kept = answer_in(player.play(request("7", "norma/view", {{"view", 3}})))["result"];
  CHECK(kept["finder"] == drawn);
  CHECK(kept.contains("warning"));
}

TEST_CASE("norma.live answers with an address, which the editor opens or is told") {
  for (const bool shows : {true, false}) {
    Listening listening;
    Player player({2026, 11, 25}, wording::english(), listening.opener());
    start(player, shows);
    player.play(opened(five(), read_file(five())));
    const Out asked = {{"command", "norma.live"}};
    const auto said = player.play(request("2", "workspace/executeCommand", asked));
    const std::string uri = answer_in(said)["result"]["uri"];
    CHECK(uri.starts_with("http://127.0.0.1:4711/"));
    CHECK(listening.state().find("\"name\":\"upper\"") != std::string::npos);
    const Out opens = of_method(said, "window/showDocument");
    const Out told = of_method(said, "window/showMessage");
    CHECK(opens.is_null() == !shows);
    CHECK(told.is_null() == shows);
    if (shows) CHECK(opens["params"] == Out{{"uri", uri}, {"external", true}});
    // Once more it is the same page.
    const auto again = player.play(request("3", "workspace/executeCommand", asked));
    CHECK(answer_in(again)["result"]["uri"] == uri);
    CHECK(listening.opened == 1);
    // What is typed comes to it.
    std::string text = read_file(five());
    text.replace(text.find("Upper arch"), 10, "Upper jaw!");
    player.play(changed(2, text));
    CHECK(listening.state().find("Upper jaw!") != std::string::npos);
  }
}

TEST_CASE("a program that cannot listen does not offer it, and says why it cannot") {
  Player player;
  const auto said = player.play(request("1", "initialize", {{"capabilities", Out::object()}}));
  const Out commands =
      answer_in(said)["result"]["capabilities"]["executeCommandProvider"]["commands"];
  CHECK(commands == Out::array({"norma.chooseKit"}));
  const Out refused =
      answer_in(player.play(request("2", "workspace/executeCommand", {{"command", "norma.live"}})));
  CHECK(refused["error"]["message"] ==
        "the page needs the program `norma-press` beside norma, and it is not there");
}

} // namespace norma::test
