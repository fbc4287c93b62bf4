// --watch: written anew at each save of what is read, and kept where that is broken.
#include "session/watch.hpp"

#include <doctest/doctest.h>

#include <filesystem>

#include "cli/run.hpp"
#include "work.hpp"

namespace norma::test {
namespace {

namespace fs = std::filesystem;

/// Tells what was said, and takes a step at a time whenever it is asked whether to stop.
struct Driven {
  std::string said;
  std::size_t step = 0;
  std::size_t asked = 0;
  std::vector<std::function<bool()>> steps; // each once what it waits for is there

  cli::Outcome run(const std::vector<std::string>& arguments) {
    cli::Surroundings around;
    around.tell = [&](std::string_view text) { said += text; };
    around.stop = [&] {
      constexpr std::size_t most = 300; // at 0.2 s: the test ends
      if (++asked > most) return true;
      if (step < steps.size() && steps[step]()) ++step;
      return step == steps.size();
    };
    return cli::run(arguments, around);
  }
  /// How often that was said.
  [[nodiscard]] std::size_t times(std::string_view what) const {
    std::size_t n = 0;
    for (std::size_t at = said.find(what); at != std::string::npos; at = said.find(what, at + 1))
      ++n;
    return n;
  }
};

/// As editors save: beside it, then renamed.
void save(const std::string& path, const std::string& bytes) {
  write_file(path + "~", bytes);
  fs::rename(path + "~", path);
}

} // namespace

TEST_CASE("--watch writes the output anew at each save, and keeps it where a file is broken") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("base.norma", five());
  write_file("p.norma", "norma 1\nprotocol p \"First\" {\n  builds on harbour_five from "
                        "\"base.norma\"\n}\n");
  write_file("k.yaml", chair(3));
  std::string kept;
  Driven driven;
  const auto written = [&](std::size_t times) { return driven.times("is written") == times; };
  const auto shows = [](std::string_view what) {
    return read_file("out.html").find(what) != std::string::npos;
  };
  driven.steps = {
      [&] { // what it builds on
        if (!written(1)) return false;
        CHECK(shows("Upper arch"));
        save("base.norma", changed(five(), "Upper arch", "Upper jaw"));
        return true;
      },
      [&] { // the kit, in place
        if (!written(2)) return false;
        CHECK(shows("Upper jaw"));
        CHECK(!shows("Upper arch"));
        write_file("k.yaml", changed(chair(3), "Chair 3, full set", "Chair 3b"));
        return true;
      },
      [&] { // broken
        if (!written(3)) return false;
        CHECK(shows("Chair 3b"));
        kept = read_file("out.html");
        save("base.norma", changed(five(), "  must show  ", "  must shwo  "));
        return true;
      },
      [&] {
        if (driven.times("stays as it was") != 1) return false;
        CHECK(driven.times("must shwo") > 0); // it tells why
        CHECK(read_file("out.html") == kept);
        write_file("k.yaml", "no kit\n");
        return true;
      },
      [&] {
        if (driven.times("stays as it was") != 2) return false;
        CHECK(read_file("out.html") == kept);
        save("base.norma", five());
        save("k.yaml", chair(3));
        return true;
      },
      [&] { return driven.times("is written") >= 4; },
  };
  const cli::Outcome ended = driven.run(
      {"card", "--watch", "--on", "2026-11-25", "--kit", "k.yaml", "-o", "out.html", "p.norma"});
  CAPTURE(driven.said);
  CHECK(driven.step == driven.steps.size());
  CHECK(ended.code == 0);
  CHECK(shows("Upper arch"));
}

TEST_CASE("--watch: a save that changes nothing is none, and a list can be watched") {
  const Folder folder;
  const Inside inside(folder.path());
  write_file("p.norma", five());
  write_file("k.yaml", chair(3));
  Driven driven;
  std::size_t quiet = 0;
  driven.steps = {
      [&] {
        if (driven.times("is written") != 1) return false;
        write_file("p.norma", five());
        return true;
      },
      [&] { return ++quiet > 4; },
      [&] {
        CHECK(driven.times("is written") == 1);
        write_file("p.norma", changed(five(), "Upper arch", "Upper jaw"));
        return true;
      },
      [&] { return driven.times("is written") == 2; },
  };
  driven.run(
      {"list", "--watch", "--on", "2026-11-25", "--kit", "k.yaml", "-o", "out.txt", "p.norma"});
  CAPTURE(driven.said);
  CHECK(driven.step == driven.steps.size());
  CHECK(read_file("out.txt").find("Upper jaw") != std::string::npos);
}

TEST_CASE("--watch needs a file to write") {
  cli::Surroundings around;
  around.tell = [](std::string_view) {};
  around.stop = [] { return true; };
  const cli::Outcome o = cli::run({"card", "--watch", "--kit", "k.yaml", "p.norma"}, around);
  CHECK(o.code == 2);
  CHECK(o.err.find("-o FILE") != std::string::npos);
}

TEST_CASE("watched files: through links, and once they are there at all") {
  const Folder folder;
  const Inside inside(folder.path());
  fs::create_directory("far");
  write_file("far/real.norma", "a");
  fs::create_symlink("far/real.norma", "link.norma");
  const text::DiskFiles files;
  session::Watch watch(files);
  std::size_t asked = 0;
  const auto soon = [&](const std::function<void()>& then) {
    asked = 0;
    return [&asked, then] {
      if (++asked == 2) then();
      return asked > 40;
    };
  };
  watch.follow({{"link.norma", "a"}}, {}, {});
  CHECK(watch.changed(soon([] { write_file("far/real.norma", "b"); })));
  watch.follow({{"link.norma", "b"}, {"later.yaml", std::nullopt}}, {}, {});
  CHECK(watch.changed(soon([] { write_file("later.yaml", "c"); })));
  // Saved between its reading and now.
  watch.follow({{"link.norma", "a"}}, {}, {});
  CHECK(watch.changed([] { return false; }));
  watch.follow({{"link.norma", "b"}}, {}, {});
  std::size_t times = 0;
  CHECK(!watch.changed([&] { return ++times > 2; }));
}

} // namespace norma::test
