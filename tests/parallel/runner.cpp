// Many protocols on several threads: what comes out does not depend on how many, or on who was
// faster. --all runs these once more under the thread sanitizer.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <atomic>
#include <memory>
#include <string>
#include <thread>
#include <vector>

#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/plan_json.hpp"
#include "session/session.hpp"
#include "support/support.hpp"
#include "text/files.hpp"
#include "workspace/workspace.hpp"

namespace norma::test {
namespace {

/// Protocols that share bases, some of them broken, and two kits.
struct Many {
  text::MemoryFiles files;
  session::Request request;

  Many() {
    request.on = {2026, 11, 25};
    const std::string five = read_file(root() / "protocols/five.norma");
    files.put("five.norma", five);
    files.put("broken.norma",
              "norma 1\nprotocol broken \"B\" {\n  view a \"A\" { ratoi 1:2 }\n}\n");
    for (const char* kit : {"chair_3", "chair_7"}) {
      const std::string path = std::string(kit) + ".yaml";
      files.put(path, read_file(root() / "protocols/kits" / path));
      request.kits.push_back(path);
    }
    for (int i = 0; i < 60; ++i) {
      const std::string path = fmt::format("p{:02}.norma", i);
      std::string text;
      switch (i % 4) {
      case 0: text = five; break;
      case 1: // builds on another file, and changes it
        text = fmt::format("norma 1\nprotocol p{0} \"P\" {{\n  builds on harbour_five from "
                           "\"five.norma\"\n  change view right because \"x\" {{ iso {1} }}\n"
                           "  accept tooth_hidden in right because \"y\"\n"
                           "  accept tooth_hidden in front because \"idle\"\n}}\n",
                           i, 100 + i);
        break;
      case 2: // builds on a broken one
        text = fmt::format("norma 1\nprotocol p{} \"P\" {{\n  builds on broken from "
                           "\"broken.norma\"\n}}\n",
                           i);
        break;
      default: // its own views and faults
        text = fmt::format("norma 1\nprotocol p{0} \"P\" {{\n  for adults\n  sensor 36 x 24 mm\n"
                           "  view a \"A\" {{\n    ratio 1:{1}\n    aperture f/22\n    camera from "
                           "right, {2} deg from midline\n    retractor both tension light, held by "
                           "patient\n    must show facial 12 to 15\n    nonsense\n  }}\n}}\n",
                           i, 1 + i % 5, 30 + i % 40);
      }
      files.put(path, text);
      request.protocols.push_back(path);
    }
  }

  [[nodiscard]] std::string told(unsigned threads) {
    request.threads = threads;
    session::Session session;
    REQUIRE(!session.run(files, request));
    std::string out = emit::findings_json(session.report()) +
                      emit::findings_text(session.report(), wording::english());
    for (const report::Held& r : session.report().held) {
      const diag::SubjectNames names = session.report().names(r.about);
      out += fmt::format("{} {}\n", names.file, names.kit);
    }
    return out + emit::plan_json(session.report(), wording::english());
  }
};

} // namespace

TEST_CASE("the same comes out of one thread and of many, every time") {
  Many many;
  const std::string one = many.told(1);
  CHECK(one.find("R020") != std::string::npos); // idle exceptions of several files
  CHECK(one.find("M001") != std::string::npos);
  CHECK(one.find("P019") != std::string::npos);
  for (const unsigned threads : {2u, 3u, 8u, 8u, 8u}) {
    CAPTURE(threads);
    CHECK(many.told(threads) == one);
  }
}

TEST_CASE("a broken base is told once, whoever read it first") {
  Many many;
  many.request.threads = 4;
  session::Session session;
  REQUIRE(!session.run(many.files, many.request));
  std::size_t n = 0;
  for (const diag::Diagnostic& d : session.report().findings.all()) {
    if (!d.span.known() || session.report().sources[d.span.file].name() != "broken.norma") continue;
    n += d.definition->code == "M001" ? 1 : 0;
  }
  CHECK(n == 1);
}

TEST_CASE("progress is told by the thread that runs, and ends with all") {
  Many many;
  std::size_t last = 0;
  std::size_t calls = 0;
  many.request.progress = [&](std::size_t done) {
    CHECK(done >= last);
    last = done;
    ++calls;
  };
  session::Session session;
  REQUIRE(!session.run(many.files, many.request));
  CHECK(last == many.request.protocols.size());
  CHECK(calls >= 1);
}

TEST_CASE("a workspace is edited while it is asked: each answer is that of one revision") {
  const auto files = std::make_shared<text::MemoryFiles>();
  const std::string five = read_file(root() / "protocols/five.norma");
  files->put("five.norma", five);
  files->put("k.yaml", read_file(root() / "protocols/kits/chair_3.yaml"));
  std::vector<std::string> paths{"five.norma"};
  for (int i = 0; i < 6; ++i) {
    const std::string path = fmt::format("p{}.norma", i);
    const std::string base = i == 0 ? "harbour_five" : fmt::format("p{}", i - 1);
    const std::string file = i == 0 ? "five.norma" : fmt::format("p{}.norma", i - 1);
    files->put(path, fmt::format("norma 1\nprotocol p{} \"P\" {{\n  builds on {} from \"{}\"\n"
                                 "  change view left because \"x\" {{ iso {} }}\n}}\n",
                                 i, base, file, 200 + 50 * i));
    paths.push_back(path);
  }
  const auto told = [&](const workspace::Snapshot& now, const workspace::Cancel& cancel) {
    workspace::Ask ask;
    ask.kits = std::get<workspace::Kits>(now.kits({"k.yaml"}));
    ask.on = {2026, 11, 25};
    ask.scene = false;
    const auto answer = now.report(paths, ask, cancel);
    const auto* report = std::get_if<report::Report>(&answer);
    return report == nullptr ? std::string() : emit::findings_json(*report);
  };
  // What there is to be said of each text of the base, by whoever asks alone.
  const std::vector<std::string> texts{five, "# new\n" + five, "norma 1\n", "junk {"};
  std::vector<std::string> expected;
  for (const std::string& text : texts) {
    workspace::Workspace fresh(files);
    fresh.edit("five.norma", text);
    expected.push_back(told(fresh.snapshot(), {}));
  }
  CHECK(expected[0] != expected[1]);

  // Little is kept, so that much is made and let go of at once.
  workspace::Limits limits;
  limits.parsed = limits.declared = limits.built = limits.checked = 60000;
  limits.views = 20;
  workspace::Workspace space(files, std::make_shared<workspace::Store>(limits));
  std::atomic<bool> done{false};
  std::atomic<std::size_t> answers{0};
  std::atomic<std::size_t> wrong{0};
  const auto ask = [&](bool impatient) {
    while (!done) {
      workspace::Cancel cancel;
      if (impatient && answers % 3 == 0) cancel.cancel();
      const workspace::Snapshot now = space.snapshot();
      const std::string first = told(now, cancel);
      if (first.empty() && cancel.cancelled()) {
        ++answers;
        continue;
      }
      const bool known = std::find(expected.begin(), expected.end(), first) != expected.end();
      if (!known || told(now, {}) != first) ++wrong;
      ++answers;
    }
  };
  std::vector<std::thread> threads;
  for (int i = 0; i < 3; ++i)
    threads.emplace_back(ask, i == 0);
  for (std::size_t i = 0; i < 60 || answers < 60; ++i) {
    switch (i % 5) {
    case 4: space.close("five.norma"); break;
    case 3: space.refresh(); break;
    default: space.edit("five.norma", texts[i % texts.size()]);
    }
    std::this_thread::yield();
  }
  done = true;
  for (std::thread& t : threads)
    t.join();
  CHECK(wrong == 0);
  space.edit("five.norma", texts[2]);
  CHECK(told(space.snapshot(), {}) == expected[2]);
}

TEST_CASE("one file that cannot be read stops the run, and is named") {
  Many many;
  many.request.protocols.insert(many.request.protocols.begin() + 7, "gone.norma");
  many.request.threads = 4;
  session::Session session;
  const auto failed = session.run(many.files, many.request);
  REQUIRE(failed);
  CHECK(failed->path == "gone.norma");
}

} // namespace norma::test
