// Many protocols on several threads: what comes out does not depend on how many, or on who was
// faster. --all runs these once more under the thread sanitizer.
#include <doctest/doctest.h>
#include <fmt/core.h>

#include <atomic>
#include <string>
#include <vector>

#include "emit/findings_json.hpp"
#include "emit/findings_text.hpp"
#include "emit/plan_json.hpp"
#include "session/session.hpp"
#include "support/support.hpp"
#include "text/files.hpp"

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
    std::string out =
        emit::findings_json(session.report()) +
        emit::findings_text(session.report());
    for (const report::Held& r : session.report().held) {
      const diag::SubjectNames names = session.report().names(r.about);
      out += fmt::format("{} {}\n", names.file, names.kit);
    }
    return out + emit::plan_json(session.report());
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
