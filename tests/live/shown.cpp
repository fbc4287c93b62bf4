// What the page shows as a text is written: the last good picture, the view under work, files on
// the disk.
#include "live/shown.hpp"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>

#include "emit/json.hpp"
#include "live/follow.hpp"
#include "support/support.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

using emit::Json;

constexpr words::Date the_day{2026, 11, 25};

/// A folder with the school's record and a chair, followed.
struct Desk {
  explicit Desk(const wording::Language& in = wording::english()) : language(in) {
    fs::copy(root() / "protocols/five.norma", file());
    fs::copy(root() / "protocols/kits/chair_3.yaml", kit());
    follow();
  }
  [[nodiscard]] fs::path file() const { return folder.path() / "five.norma"; }
  [[nodiscard]] fs::path kit() const { return folder.path() / "chair_3.yaml"; }
  void follow(const fs::path& path = {}) {
    live::Followed what;
    what.path = path.empty() ? file().string() : path.string();
    what.kits = {kit().string()};
    what.root = folder.path().string();
    what.language = &language;
    follower = std::make_unique<live::Follower>(std::make_shared<text::DiskFiles>(), what);
  }
  /// The next state, which there must be.
  Json look() {
    auto next = follower->look(the_day);
    REQUIRE(next != nullptr);
    shown = std::move(next);
    return Json::parse(shown->state());
  }
  Json view(std::size_t number) const {
    const auto json = shown->view(number);
    REQUIRE(json);
    return Json::parse(*json);
  }
  void edit(const std::string& from, const std::string& to, const fs::path& path) const {
    std::string text = read_file(path);
    const std::size_t at = text.find(from);
    REQUIRE(at != std::string::npos);
    write_file(path, text.replace(at, from.size(), to));
  }
  void edit(const std::string& from, const std::string& to) const { edit(from, to, file()); }

  const wording::Language& language;
  Folder folder;
  std::unique_ptr<live::Follower> follower;
  std::shared_ptr<const live::Shown> shown;
};

std::string changed_in(const Json& state) {
  const int number = state["changed"]["view"];
  return number < 0 ? "" : state["views"][static_cast<std::size_t>(number)]["name"];
}

/// Held against a file of this folder; UPDATE_GOLDEN=1 writes it.
void check_golden(const std::string& name, const std::string& got) {
  const fs::path file = root() / "tests/live/cases" / name;
  if (update_golden()) write_file(file, got);
  CHECK_MESSAGE(fs::exists(file), name);
  const std::string differs = difference(read_file(file), got);
  CHECK_MESSAGE(differs.empty(), differs);
}

/// Drawings by their length alone: others look at them (tests/unit).
Json without_drawings(Json view) {
  for (const char* key : {"finder", "above"}) {
    if (!view.contains(key)) continue;
    const std::string svg = view[key];
    CHECK(svg.starts_with("<svg "));
    CHECK(svg.size() > 5000);
    view[key] = "<svg>";
  }
  return view;
}

} // namespace

TEST_CASE("the page's data: states and views") {
  for (const auto* language : {&wording::english(), &wording::german()}) {
    Desk desk(*language);
    desk.edit("view lower", "accept tooth_hidden in left because \"lived with\"\n  view lower");
    Json all = {{"state", desk.look()}, {"views", Json::array()}};
    for (const std::size_t number : {0u, 3u})
      all["views"].push_back(without_drawings(desk.view(number)));
    check_golden("five." + std::string(language->tag()) + ".json", all.dump(2) + "\n");
    CHECK_FALSE(desk.shown->view(5));
  }
}

TEST_CASE("texts that are as before are not shown again, however they were saved") {
  Desk desk;
  CHECK(desk.look()["views"].size() == 5);
  CHECK(desk.follower->look(the_day) == nullptr);
  const std::string text = read_file(desk.file());
  write_file(desk.file(), text);
  CHECK(desk.follower->look(the_day) == nullptr);
  // As editors save: a new file in the place of the old one; the old one moved away first; through
  // a link.
  const fs::path beside = desk.folder.path() / ".five.norma.new";
  for (const std::string iso : {"iso 101", "iso 125", "iso 160", "iso 200"}) {
    std::string next = text;
    const std::size_t at = next.find("iso");
    next.replace(at, next.find('\n', at) - at, iso);
    if (iso == "iso 101") continue; // the disk keeps what it has
    if (iso == "iso 125") {
      write_file(beside, next);
      fs::rename(beside, desk.file());
    } else if (iso == "iso 160") {
      fs::rename(desk.file(), desk.folder.path() / "five.norma~");
      const Json gone = desk.look();
      CHECK(gone["status"] == "cannot read " + desk.file().string() + ": there is no such file");
      CHECK(gone["views"].size() == 5);
      CHECK(gone["views"][0]["old"] == "as it was before");
      write_file(desk.file(), next);
    } else {
      fs::remove(desk.file());
      write_file(desk.folder.path() / "real.norma", next);
      fs::create_symlink("real.norma", desk.file());
    }
    const Json now = desk.look();
    CHECK_FALSE(now.contains("status"));
    const Json worked = desk.view(0)["worked_out"];
    CHECK(std::find(worked.begin(), worked.end(), "ISO " + iso.substr(4)) != worked.end());
    CHECK(desk.follower->look(the_day) == nullptr);
  }
}

TEST_CASE("the view whose lines were edited last is told") {
  Desk desk;
  CHECK(changed_in(desk.look()).empty());
  desk.edit("view lower", "view  lower");
  CHECK(changed_in(desk.look()) == "lower");
  desk.edit("facial 12 to 17, 42 to 47", "facial 13 to 17, 42 to 47");
  const Json right = desk.look();
  CHECK(changed_in(right) == "right");
  CHECK(right["changed"]["count"] == 2);
  // What stands in no view's lines leaves it.
  desk.edit("Five-view record", "Our record");
  const Json title = desk.look();
  CHECK(changed_in(title) == "right");
  CHECK(title["changed"]["count"] == 2);
  CHECK(title["title"] == "Our record");
  // A kit's lines are no view's; the picture follows it all the same.
  const std::string before = *desk.shown->view(0);
  desk.edit("name: chair_3", "name: chair_4", desk.kit());
  desk.look();
  CHECK(*desk.shown->view(0) != before);
}

TEST_CASE("a text that cannot be parsed keeps its last good pictures, and says so") {
  Desk desk;
  desk.look();
  const std::string good = desk.view(1)["finder"];
  CHECK_FALSE(desk.view(1).contains("warning"));
  // The brace of `upper` is gone: what follows cannot be read as views.
  const std::string text = read_file(desk.file());
  std::string broken = text;
  const std::size_t at = broken.find("view upper");
  broken.erase(broken.find('}', at), 1);
  write_file(desk.file(), broken);
  const Json state = desk.look();
  CHECK_FALSE(state["findings"].empty());
  REQUIRE(state["views"].size() == 5);
  for (std::size_t i = 0; i < 5; ++i) {
    const Json view = desk.view(i);
    if (view["name"] == "upper") {
      CHECK(view["finder"] == good);
      CHECK(view["warning"] == "Something here cannot be read: this is how the view was before.");
      CHECK(state["views"][i]["old"] == "as it was before");
    }
  }
  // However long it stays so.
  for (int i = 0; i < 30; ++i) {
    write_file(desk.file(), broken + std::string(static_cast<std::size_t>(i + 1), '\n'));
    desk.look();
  }
  const auto upper = [&] {
    const auto& all = desk.shown->views();
    return static_cast<std::size_t>(
        std::find_if(all.begin(), all.end(), [](const auto& v) { return v.name == "upper"; }) -
        all.begin());
  };
  CHECK(desk.view(upper())["finder"] == good);
  write_file(desk.file(), text);
  const Json mended = desk.look();
  CHECK(mended["views"].size() == 5);
  CHECK_FALSE(desk.view(1).contains("warning"));
}

TEST_CASE("a line that cannot be read keeps the picture of its view; the others go on") {
  Desk desk;
  desk.look();
  const std::string right = desk.view(3)["finder"];
  const std::string lower = desk.view(2)["finder"];
  desk.edit("facial 12 to 17, 42 to 47", "facial 12 to 1, 42 to 47"); // while it is being typed
  const Json state = desk.look();
  CHECK(desk.view(3)["finder"] == right);
  CHECK(desk.view(3).contains("warning"));
  CHECK(state["views"][3]["mark"] == "error");
  CHECK_FALSE(desk.view(2).contains("warning"));
  CHECK(desk.view(2)["finder"] == lower);
  // The finding is told with its view, by its lines.
  const Json& found = state["findings"];
  CHECK(std::any_of(found.begin(), found.end(), [](const Json& one) {
    return one["grave"] == "error" && one["views"] == Json::array({3, 4});
  }));
  desk.edit("facial 12 to 1,", "facial 12 to 16,");
  desk.look();
  CHECK_FALSE(desk.view(3).contains("warning"));
  CHECK(desk.view(3)["finder"] != right);
}

TEST_CASE("a view that was taken out is gone, and a file that starts broken shows what there is") {
  Desk desk;
  desk.look();
  const std::string text = read_file(desk.file());
  write_file(desk.file(), "norma 1\nprotocol p \"P\" {\n");
  desk.follow();
  const Json state = desk.look();
  CHECK(state["views"].empty());
  CHECK(state["no_view"] == "There is no view to draw yet.");
  CHECK_FALSE(state["findings"].empty());
  write_file(desk.file(), "");
  CHECK(desk.look()["views"].empty());
  write_file(desk.file(), text);
  CHECK(desk.look()["views"].size() == 5);
}

TEST_CASE("what a protocol builds on is followed, also where it is not there yet") {
  Desk desk;
  const fs::path own = desk.folder.path() / "ours.norma";
  write_file(own, "norma 1\n\nprotocol ours \"Ours\" {\n"
                  "  builds on harbour_five from \"base.norma\"\n"
                  "  change view right because \"ours\" { iso 400 }\n}\n");
  desk.follow(own);
  const Json none = desk.look();
  CHECK(none["views"].empty());
  CHECK_FALSE(none["findings"].empty());
  const fs::path base = desk.folder.path() / "base.norma";
  fs::rename(desk.file(), base);
  CHECK(desk.look()["views"].size() == 5);
  desk.edit("view lower", "view  lower", base);
  CHECK(changed_in(desk.look()) == "lower");
  desk.edit("iso 400", "iso 200", own);
  CHECK(changed_in(desk.look()) == "right");
}

TEST_CASE("many views are listed up to a bound, the one under work always") {
  Desk desk;
  const auto text = [](int last_iso) {
    std::string out = "norma 1\n\nprotocol many \"Many\" {\n  for adults\n";
    for (int i = 0; i < 600; ++i)
      out += "  view v" + std::to_string(i) + " \"V\" { iso " +
             std::to_string(i == 590 ? last_iso : 100) + " }\n";
    return out + "}\n";
  };
  write_file(desk.file(), text(100));
  const Json first = desk.look();
  CHECK(first["views"].size() == live::most_views);
  CHECK(first["more_views"] == "100 more views are not listed");
  CHECK(first["findings"].size() <= live::most_findings);
  write_file(desk.file(), text(200));
  const Json then = desk.look();
  CHECK(then["changed"]["view"] == 590);
  CHECK(then["views"].back()["name"] == "v590");
  CHECK(desk.view(590)["name"] == "v590");
}

TEST_CASE("texts of strangers stay texts") {
  Desk desk;
  write_file(desk.file(), "norma 1\n\nprotocol p \"</script><b>\x1b[31m\" {\n  for adults\n"
                          "  view v \"<img src=x onerror=alert(1)>\" { must show facial 13 to 23\n"
                          "    say \"\xe2\x80\xae\" }\n  \"<svg onload=1>\"\n}\n");
  desk.look();
  const std::string state = desk.shown->state();
  CHECK(state.find('\n') == std::string::npos);
  CHECK(state.find('\x1b') == std::string::npos);
  const std::string view = *desk.shown->view(0);
  CHECK(view.find('\n') == std::string::npos);
  const Json json = Json::parse(view);
  if (json.contains("finder")) {
    const std::string svg = json["finder"];
    CHECK(svg.find("<img") == std::string::npos);
    CHECK(svg.find("&lt;img") != std::string::npos);
  }
}

} // namespace norma::test
