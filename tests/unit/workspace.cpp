// A workspace that is edited: what is worked out again, what is told, what is kept.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <atomic>
#include <filesystem>
#include <memory>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "emit/findings_json.hpp"
#include "emit/plan_json.hpp"
#include "work.hpp"
#include "workspace/workspace.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

using workspace::Counters;
using workspace::Limits;
using workspace::Snapshot;
using workspace::Store;
using workspace::Workspace;

constexpr words::Date day{2026, 11, 25};

/// A record, two protocols that build on it, one on one of these, and one that stands alone.
std::string base(int iso = 200) {
  return changed(five(), "iso              200", fmt::format("iso {}", iso));
}
std::string follower(const std::string& name, const std::string& of, const std::string& file,
                     const std::string& says = "iso 400") {
  return fmt::format("norma 1\nprotocol {} \"P\" {{\n  builds on {} from \"{}\"\n  change view "
                     "left because \"ours\" {{ {} }}\n}}\n",
                     name, of, file, says);
}
const std::vector<std::string> paths{"alone.norma", "base.norma", "p.norma", "q.norma", "r.norma"};

struct Tree {
  std::shared_ptr<text::MemoryFiles> files = std::make_shared<text::MemoryFiles>();
  Tree() {
    files->put("base.norma", base());
    files->put("p.norma", follower("p", "harbour_five", "base.norma"));
    files->put("q.norma", follower("q", "harbour_five", "base.norma"));
    files->put("r.norma", follower("r", "p", "p.norma", "iso 800"));
    files->put("alone.norma", changed(five(), "protocol harbour_five", "protocol alone"));
    files->put("k.yaml", chair(3));
    files->put("l.yaml", chair(7));
  }
};

workspace::Ask asked(const Snapshot& files, const std::vector<std::string>& kits = {"k.yaml"},
                     bool scene = false) {
  auto read = files.kits(kits);
  REQUIRE(std::holds_alternative<workspace::Kits>(read));
  workspace::Ask ask;
  ask.kits = std::get<workspace::Kits>(read);
  ask.on = day;
  ask.scene = scene;
  return ask;
}

/// All that norma prints of a report, but for words.
std::string told(const report::Report& report) {
  return emit::findings_json(report) + emit::plan_json(report, wording::english());
}
std::string told(const Snapshot& files, const std::vector<std::string>& of,
                 const std::vector<std::string>& kits = {"k.yaml"}) {
  const auto answer = files.report(of, asked(files, kits));
  const auto* report = std::get_if<report::Report>(&answer);
  return report == nullptr ? "no answer" : told(*report);
}

/// What asking for all files costs.
Counters cost(const Workspace& space, bool scene = false) {
  const Counters before = space.counters();
  const Snapshot files = space.snapshot();
  const workspace::Ask ask = asked(files, {"k.yaml"}, scene);
  for (const std::string& path : paths)
    REQUIRE(
        std::holds_alternative<std::shared_ptr<const workspace::Checked>>(files.check(path, ask)));
  Counters out = space.counters() - before;
  out.hits = out.evicted = 0;
  return out;
}

Counters count(std::size_t parsed, std::size_t built, std::size_t checked, std::size_t views) {
  return {parsed, parsed, built, checked, 0, views, checked, 0, 0};
}

std::size_t findings_of(const Snapshot& files, const std::string& path) {
  const auto answer = files.report({path}, asked(files, {}));
  const auto* report = std::get_if<report::Report>(&answer);
  REQUIRE(report != nullptr);
  return report->findings.count(diag::Severity::error);
}

} // namespace

TEST_CASE("what was worked out can be let go; what there is to say of it stays the same") {
  const Tree tree;
  const Workspace space(tree.files);
  const Snapshot files = space.snapshot();
  workspace::Ask ask = asked(files);
  const auto whole = files.report(paths, ask);
  ask.plans = false;
  const auto bare = files.report(paths, ask);
  const auto& kept = std::get<report::Report>(whole);
  const auto& let_go = std::get<report::Report>(bare);
  CHECK(emit::findings_json(kept) == emit::findings_json(let_go));
  REQUIRE(let_go.held.size() == paths.size());
  CHECK(kept.held.front().plan.views.size() == 5);
  CHECK(let_go.held.front().plan.views.empty());
}

TEST_CASE("an edit is worked out again in the file and in all that build on it, and nowhere else") {
  const Tree tree;
  Workspace space(tree.files);
  const Counters first = cost(space);
  CHECK(first.parsed == 5);
  CHECK(first.built == 5);
  CHECK(first.checked == 5);
  CHECK(first.kits_read == 1);
  CHECK(cost(space) == Counters{});

  // A leaf: itself. One view says something else.
  CHECK(space.edit("r.norma", follower("r", "p", "p.norma", "iso 1600")) ==
        std::vector<std::string>{"r.norma"});
  CHECK(cost(space) == count(1, 1, 1, 1));
  // In the middle: and the one that builds on it, whose view stays as it is.
  CHECK(space.edit("p.norma", follower("p", "harbour_five", "base.norma", "iso 640")) ==
        std::vector<std::string>{"p.norma", "r.norma"});
  CHECK(cost(space) == count(1, 2, 2, 1));
  // At the foot: all but the one that stands alone; views that say the same are there already.
  CHECK(space.edit("base.norma", "# new\n" + base()) ==
        std::vector<std::string>{"base.norma", "p.norma", "q.norma", "r.norma"});
  CHECK(cost(space) == count(1, 4, 4, 0));
  // As it was: nothing at all.
  CHECK(space.edit("base.norma", base()).size() == 4);
  CHECK(cost(space) == Counters{});
  CHECK(space.edit("alone.norma", "# new\n") == std::vector<std::string>{"alone.norma"});
  CHECK(cost(space) == count(1, 1, 1, 0) - Counters{0, 0, 0, 1, 0, 0, 0, 0, 0}); // no protocol
}

TEST_CASE("who builds on what follows the edits: a new base is minded, an old one no more") {
  const Tree tree;
  Workspace space(tree.files);
  cost(space);
  using Paths = std::vector<std::string>;
  CHECK(space.edit("q.norma", follower("q", "alone", "alone.norma")) == Paths{"q.norma"});
  // Nobody has asked yet: both ways are still open.
  CHECK(space.edit("q.norma", follower("q", "alone", "alone.norma")) == Paths{"q.norma"});
  cost(space);
  CHECK(space.edit("base.norma", base(250)) == Paths{"base.norma", "p.norma", "r.norma"});
  CHECK(space.edit("alone.norma", "norma 1\n") == Paths{"alone.norma", "q.norma"});
  cost(space);
  // A file that is not there yet is minded, too.
  space.edit("q.norma", follower("q", "late", "late.norma"));
  CHECK(findings_of(space.snapshot(), "q.norma") > 0);
  CHECK(space.edit("late.norma", changed(base(), "protocol harbour_five", "protocol late")) ==
        Paths{"q.norma"});
  CHECK(findings_of(space.snapshot(), "q.norma") == 0);
}

TEST_CASE("an editor's text stands before the disk's, and goes") {
  const Folder folder;
  const std::string path = (folder.path() / "p.norma").string();
  write_file(path, five());
  Workspace space(std::make_shared<text::DiskFiles>());
  CHECK(findings_of(space.snapshot(), path) == 0);
  // By whichever name the editor knows it.
  const std::string other = (folder.path() / "sub/../p.norma").string();
  fs::create_directory(folder.path() / "sub");
  space.edit(other, "norma 1\nprotocol p \"P\" {\n  nonsense\n}\n");
  CHECK(findings_of(space.snapshot(), path) == 1);
  // Saved in another way, which does not count while it is edited.
  write_file(path, "norma 1\nprotocol p \"P\" {\n  nonsense\n  more\n}\n");
  CHECK(space.changed(path) == std::vector<std::string>{path});
  CHECK(findings_of(space.snapshot(), path) == 1);
  CHECK(space.close(path) == std::vector<std::string>{path});
  CHECK(findings_of(space.snapshot(), path) == 2);
  // The disk is looked at again only where somebody says so.
  write_file(path, five());
  CHECK(findings_of(space.snapshot(), path) == 2);
  space.changed(path);
  CHECK(findings_of(space.snapshot(), path) == 0);
  const Counters before = space.counters();
  space.refresh();
  CHECK(findings_of(space.snapshot(), path) == 0);
  CHECK((space.counters() - before).parsed == 0);
  fs::remove(path);
  space.refresh();
  const Snapshot gone = space.snapshot();
  const auto answer = gone.check(path, asked(gone, {}));
  REQUIRE(std::holds_alternative<workspace::NoFile>(answer));
  CHECK(std::get<workspace::NoFile>(answer).path == path);
}

TEST_CASE("a session that is run twice, with a file mended between, gives the second answer") {
  session::Session session;
  text::MemoryFiles files;
  files.put("p.norma", "norma 1\nprotocol p \"P\" {\n  nonsense\n}\n");
  const session::Request request{{"p.norma"}, {}, day};
  REQUIRE(!session.run(files, request));
  CHECK(session.report().findings.count(diag::Severity::error) == 1);
  files.put("p.norma", five());
  REQUIRE(!session.run(files, request));
  CHECK(session.report().findings.count(diag::Severity::error) == 0);
  session::Session fresh;
  REQUIRE(!fresh.run(files, request));
  CHECK(told(session.report()) == told(fresh.report()));
  CHECK(session.run(files, {{"none.norma"}, {}, day}));
  CHECK(session.report().held.empty());
}

TEST_CASE("a report holds all that it names") {
  std::optional<report::Report> report;
  std::string before;
  {
    session::Session session;
    const Tree tree;
    REQUIRE(!session.run(*tree.files, {{"r.norma"}, {"k.yaml", "l.yaml"}, day}));
    report.emplace(session.report());
    before = told(*report);
  }
  CHECK(told(*report) == before);
}

TEST_CASE("two revisions are asked side by side, and two trees") {
  const Tree tree;
  Workspace space(tree.files);
  const Snapshot before = space.snapshot();
  const std::string was = told(before, paths);
  space.edit("base.norma", base(250));
  const Snapshot after = space.snapshot();
  CHECK(after.revision() > before.revision());
  const std::string is = told(after, paths);
  CHECK(is != was);
  CHECK(told(before, paths) == was);
  // One that was never asked before the edit is answered as it stood.
  Workspace late(tree.files);
  const Snapshot old = late.snapshot();
  late.edit("base.norma", base(250));
  CHECK(told(late.snapshot(), paths) == is);
  CHECK(told(old, paths) == was);
  // Another tree with the same store: what is the same is not worked out again.
  const Tree copy;
  copy.files->put("r.norma", follower("r", "p", "p.norma", "iso 3200"));
  const auto store = std::make_shared<Store>();
  const Workspace first(tree.files, store);
  Workspace second(copy.files, store);
  cost(first);
  CHECK(cost(second) == count(1, 1, 1, 1));
  CHECK(told(first.snapshot(), paths) == was);
}

TEST_CASE("what is kept is bounded: the longest unused goes, and answers stay the same") {
  const Tree tree;
  const std::string all = told(Workspace(tree.files).snapshot(), paths, {"k.yaml", "l.yaml"});
  for (const std::size_t most : {0u, 1u, 3000u, 40000u}) {
    CAPTURE(most);
    Limits limits;
    limits.parsed = limits.declared = limits.built = limits.resolved = most;
    limits.kits = limits.checked = most;
    limits.views = most / 1000;
    const auto store = std::make_shared<Store>(limits);
    const Workspace space(tree.files, store);
    for (int round = 0; round < 3; ++round)
      CHECK(told(space.snapshot(), paths, {"k.yaml", "l.yaml"}) == all);
    CHECK((space.counters().evicted > 0) == (most >= 3000));
    CHECK(store->works.size() <= most / 1000);
  }
  // The one that was used last is there; the other has to be worked out again.
  text::Cache<int> cache(2);
  cache.put("a", std::make_shared<int>(1));
  cache.put("b", std::make_shared<int>(2));
  CHECK(cache.find("a") != nullptr);
  cache.put("c", std::make_shared<int>(3));
  CHECK(cache.find("a") != nullptr);
  CHECK(cache.find("b") == nullptr);
  CHECK(cache.evicted() == 1);
  cache.put("large", std::make_shared<int>(4), 3);
  CHECK(cache.find("large") == nullptr);
  CHECK(cache.size() == 2);
  CHECK(*cache.put("a", std::make_shared<int>(5)) == 1);
}

TEST_CASE("a kit that is edited, another day, another group, another question: another answer") {
  const Tree tree;
  Workspace space(tree.files);
  const auto checked = [&](workspace::Ask ask) {
    const auto answer = space.snapshot().check("p.norma", ask);
    return std::get<std::shared_ptr<const workspace::Checked>>(answer);
  };
  const workspace::Ask plain = asked(space.snapshot());
  const auto first = checked(plain);
  CHECK(checked(plain) == first);
  workspace::Ask other = plain;
  other.on = {2027, 11, 25};
  CHECK(checked(other) != first);
  CHECK(checked(other)->resolved == first->resolved); // the front end knows no day
  // What was kept of the one day is not told on the other.
  const auto told_on = [&](const Workspace& of, words::Date on) {
    workspace::Ask ask = asked(of.snapshot());
    ask.on = on;
    return told(std::get<report::Report>(of.snapshot().report({"p.norma"}, ask)));
  };
  CHECK(told_on(space, other.on) == told_on(Workspace(tree.files), other.on));
  other = plain;
  other.scene = true;
  CHECK(checked(other) != first);
  other = plain;
  other.group = "children, milk teeth";
  CHECK(checked(other)->resolved->no_group);
  other = plain;
  other.fingerprints = true;
  CHECK(checked(other)->resolved->protocols.front()->fingerprint_pictures.size() == 64);
  CHECK(first->resolved->protocols.front()->fingerprint_pictures.empty());
  // An edited kit is read again, and only what knows a kit is worked out again.
  const Counters before = space.counters();
  space.edit("k.yaml", changed(chair(3), "iso: 100 to 1600", "iso: 100 to 3200"));
  CHECK(asked(space.snapshot()).kits != plain.kits);
  CHECK(checked(asked(space.snapshot())) != first);
  const Counters spent = space.counters() - before;
  CHECK(spent.parsed == 0);
  CHECK(spent.resolved == 0);
  CHECK(spent.kits_read == 1);
  CHECK(spent.views_worked > 0);
  // The first kit is held by what was made with it.
  CHECK(first->held.front().kit->least_iso.known());
  space.close("k.yaml");
  CHECK(checked(asked(space.snapshot())) == first);
}

TEST_CASE("kits are told apart by name as in one run, one that is given twice, too") {
  const Tree tree;
  const Workspace space(tree.files);
  for (const std::vector<std::string>& kits :
       {std::vector<std::string>{"k.yaml", "l.yaml"}, {"k.yaml", "k.yaml", "k.yaml"}}) {
    session::Session session;
    session::Request request{{"r.norma"}, kits, day};
    request.scene = false;
    REQUIRE(!session.run(*tree.files, request));
    CHECK(told(space.snapshot(), {"r.norma"}, kits) == told(session.report()));
    CHECK(told(space.snapshot(), {"r.norma"}, kits) == told(session.report()));
  }
}

TEST_CASE("a cancelled question has no answer, and spoils none") {
  const Tree tree;
  const Workspace space(tree.files);
  const Snapshot files = space.snapshot();
  const workspace::Ask ask = asked(files);
  workspace::Cancel cancel;
  const workspace::Cancel same = cancel;
  cancel.cancel();
  CHECK(same.cancelled());
  CHECK(std::holds_alternative<workspace::Cancelled>(files.check("r.norma", ask, cancel)));
  CHECK(std::holds_alternative<workspace::Cancelled>(files.built("r.norma", "", cancel)));
  CHECK(std::holds_alternative<workspace::Cancelled>(files.report(paths, ask, cancel)));
  CHECK(space.counters().checked == 0);
  CHECK(told(files, paths) == told(Workspace(tree.files).snapshot(), paths));
  // Between two views: no plan is made, what was worked out holds.
  const Work work(five(), chair(3));
  const report::Held& held = work.session->report().held.front();
  std::atomic<bool> stop{true};
  plan::WorkCache cache;
  CHECK(plan::make_plan(*held.protocol, held.kit, {day, false, &cache, &stop}).views.empty());
  CHECK(cache.worked() == 0);
}

TEST_CASE("a way of bases that ends badly is told the same way whatever was asked before") {
  text::MemoryFiles files;
  const auto put = [&](const std::string& name, const std::string& of) {
    files.put(name + ".norma", follower(name, of, of + ".norma"));
  };
  put("a", "b");
  put("b", "c");
  put("c", "a");
  for (int i = 0; i < 40; ++i)
    put(fmt::format("d{:02}", i), fmt::format("d{:02}", i + 1));
  files.put("d40.norma", changed(five(), "protocol harbour_five", "protocol d40"));
  const auto store = std::make_shared<Store>();
  const auto shared = std::shared_ptr<const text::Files>(std::shared_ptr<void>(), &files);
  const Workspace space(shared, store);
  const std::vector<std::string> order{"d30.norma", "a.norma",   "d07.norma", "c.norma",
                                       "d08.norma", "d00.norma", "b.norma",   "d09.norma"};
  for (const std::string& path : order) {
    CAPTURE(path);
    const Workspace fresh(shared);
    CHECK(told(space.snapshot(), {path}, {}) == told(fresh.snapshot(), {path}, {}));
  }
  CHECK(findings_of(space.snapshot(), "d08.norma") == 0);
  CHECK(findings_of(space.snapshot(), "d07.norma") == 1);
}

TEST_CASE("after any edits, a workspace says what a fresh session says") {
  const Tree tree;
  Workspace space(tree.files);
  std::mt19937 random(20261125);
  const auto below = [&](std::size_t n) {
    return std::uniform_int_distribution<std::size_t>(0, n - 1)(random);
  };
  text::MemoryFiles now; // what counts, as files
  std::vector<std::string> texts;
  for (const std::string& path : paths)
    texts.push_back(std::get<std::string>(tree.files->read(path)));
  std::string kit = chair(3);
  for (int round = 0; round < 60; ++round) {
    const std::size_t i = below(paths.size());
    std::string& text = texts[i];
    switch (below(6)) {
    case 0: text.erase(below(text.size() + 1), below(30)); break;
    case 1: text.insert(below(text.size() + 1), "  iso 3200\n"); break;
    case 2: text = follower(paths[i].substr(0, paths[i].find('.')), "p", "p.norma"); break;
    case 3: text = std::get<std::string>(tree.files->read(paths[i])); break;
    case 4: text.insert(0, "# a line\n"); break;
    default: kit = kit == chair(3) ? chair(7) : chair(3); space.edit("k.yaml", kit);
    }
    space.edit(paths[i], text);
    for (std::size_t j = 0; j < paths.size(); ++j)
      now.put(paths[j], texts[j]);
    now.put("k.yaml", kit);
    session::Session fresh;
    session::Request request{paths, {"k.yaml"}, day};
    request.scene = false;
    REQUIRE(!fresh.run(now, request));
    CAPTURE(round);
    CHECK(difference(told(fresh.report()), told(space.snapshot(), paths)) == "");
  }
}

} // namespace norma::test
