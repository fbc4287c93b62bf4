// A plan file that is read and written again is the same, and nothing of the plan is lost on the
// way.
#include <doctest/doctest.h>

#include <filesystem>
#include <variant>

#include "run.hpp"

namespace norma::test {
namespace fs = std::filesystem;
namespace {

/// The document of files on the disk.
planfile::Document from_disk(const fs::path& protocol, const fs::path& kit) {
  const text::DiskFiles disk;
  session::Request request{{protocol.string()}, {}, {2026, 11, 25}};
  if (!kit.empty()) request.kits.push_back(kit.string());
  request.fingerprints = true;
  session::Session session;
  REQUIRE(!session.run(disk, request));
  return emit::plan_document(session.report(), wording::english());
}

void hold(const planfile::Document& document) {
  const std::string json = planfile::write(document);
  const auto read = planfile::read(json);
  if (const auto* error = std::get_if<planfile::ReadError>(&read))
    FAIL("at ", error->pointer, ": ", error->why);
  const auto& again = std::get<planfile::Document>(read);
  CHECK_MESSAGE(again == document, "another document comes out");
  CHECK_EQ(difference(json, planfile::write(again)), "");
}

std::vector<fs::path> files_in(const fs::path& folder, std::string_view extension) {
  std::vector<fs::path> out;
  for (const auto& e : fs::directory_iterator(root() / folder)) {
    if (e.path().extension() == extension) out.push_back(e.path());
  }
  std::sort(out.begin(), out.end());
  return out;
}

} // namespace

TEST_CASE("every shipped protocol with every shipped kit comes back from its file") {
  std::vector<fs::path> protocols = files_in("protocols", ".norma");
  for (const fs::path& p : files_in("protocols/quarry", ".norma"))
    protocols.push_back(p);
  int n = 0;
  for (const fs::path& kit : files_in("protocols/kits", ".yaml")) {
    for (const fs::path& protocol : protocols) {
      CAPTURE(protocol.string());
      CAPTURE(kit.string());
      const planfile::Document document = from_disk(protocol, kit);
      hold(document);
      CHECK(document.complete);
      CHECK(!document.plans.empty());
      ++n;
    }
  }
  CHECK(n > 80);
}

TEST_CASE("every golden case comes back from its file, faults and all") {
  int n = 0;
  int incomplete = 0;
  for (const auto& e : fs::recursive_directory_iterator(root() / "tests/golden")) {
    if (e.path().filename() != "record.norma") continue;
    CAPTURE(e.path().string());
    const fs::path kit = e.path().parent_path() / "kit.yaml";
    const planfile::Document document = from_disk(e.path(), fs::exists(kit) ? kit : fs::path());
    hold(document);
    ++n;
    incomplete += document.complete ? 0 : 1;
    for (const planfile::Plan& plan : document.plans) {
      for (const planfile::View& v : plan.views)
        CHECK((!v.complete || !v.asked.empty() || v.facts.size() > 0 || plan.complete));
      CHECK(!plan.series.empty());
    }
  }
  CHECK(n > 300);
  CHECK(incomplete > 20);
  CHECK(incomplete < n);
}

TEST_CASE("a text that no JSON file may hold as it is comes back") {
  planfile::Document document = from_disk(root() / "protocols/five.norma", {});
  document.plans.front().title = "a \"quote\", a \\, \t, \n, \u202e and \x1b[2J";
  document.plans.front().views.front().title = "\u00e9 \u6b6f \U0001F9B7";
  const std::string json = planfile::write(document);
  CHECK(json.find('\x1b') == std::string::npos);
  CHECK(json.find("\u202e") == std::string::npos);
  hold(document);
  document.files.front().path = "not \xff UTF-8";
  CHECK(planfile::write(document).find("not \xef\xbf\xbd UTF-8") != std::string::npos);
}

TEST_CASE("what could not be read spoils the views it counts for, and no other") {
  const std::string good = "  view a \"A\" { ratio 1:2 }\n  view b \"B\" { ratio 1:3 }\n"
                           "  view c \"C\", same as a { }\n";
  const auto whole = [&](const std::string& views) {
    const planfile::Document d =
        document_of({{"p.norma", "norma 1\nprotocol p \"P\" {\n" + views + "}\n"}}, {}, false);
    std::string out = d.complete ? "whole:" : "not whole:";
    for (const planfile::View& v : d.plans.front().views)
      out += v.complete ? " " + v.name : " (" + v.name + ")";
    return out;
  };
  CHECK_EQ(whole(good), "whole: a b c");
  std::string in_a = good;
  in_a.replace(in_a.find("ratio 1:2"), 5, "ratoi");
  CHECK_EQ(whole(in_a), "not whole: (a) b (c)");
  std::string in_b = good;
  in_b.replace(in_b.find("1:3"), 3, "1:x");
  CHECK_EQ(whole(in_b), "not whole: a (b) c");
  CHECK_EQ(whole("  sensro 36 x 24 mm\n" + good), "not whole: (a) (b) (c)");
}

} // namespace norma::test
