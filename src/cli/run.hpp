// The command line as a function, so that tests run just what users run.
//
// The folder cli/ holds main and one file for each command.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "drawing/page.hpp"
#include "emit/findings_text.hpp"
#include "live/site.hpp"
#include "server/wire.hpp"
#include "text/files.hpp"

namespace norma::cli {

/// What a run has to say, and how it ended: 0 fine; 1 findings at or above the level of --fail-on;
/// 2 could not run.
struct Outcome {
  int code = 0;
  std::string out;
  std::string err;
  bool needs_press = false; // nothing was done: norma-press has to do it
  bool written = false;     // the file of -o
};

/// A document that was printed, or why it was not.
struct Printed {
  std::string bytes;
  std::string failed;                // why; "" where it was printed
  std::vector<std::string> too_long; // pages with text that does not fit
  int letters_missing = 0;           // that the fonts do not have
  int pages = 0;
};

/// A git repository around the current folder, for programs that can read one.
struct Repository {
  /// Files of its revisions, called REV:path, and the disk's.
  std::function<std::unique_ptr<text::Files>()> files{};
  /// The top of its work tree.
  std::function<std::variant<std::string, text::ReadError>()> work_tree{};
  /// Puts keys with their values into its configuration; how many had another value before.
  std::function<std::variant<std::size_t, text::ReadError>(
      const std::vector<std::pair<std::string, std::string>>&)>
      set{};
};

/// What a program is called in.
struct Surroundings {
  /// All bytes of standard input; none where there is no such thing.
  std::function<text::ReadResult()> standard_input{};
  emit::Screen out{}; // where standard output is shown, and where errors are
  emit::Screen err{};
  /// Makes a PDF; none where this program cannot.
  std::function<Printed(const drawing::Paper&)> print{};
  Repository repository{}; // empty where this program reads none
  /// Standard input and output piece by piece, for `serve`.
  server::Wire wire{};
  std::string_view commit{}; // what the program was built from, where it knows
  /// Listens for a page; none where this program cannot.
  live::OpenHost open_host{};
  /// Is `norma-press`, which can, beside this program?
  std::function<bool()> has_press{};
  /// Waits, for `live`; false where whoever started it has ended it.
  std::function<bool(std::chrono::milliseconds)> wait{};
  /// For what runs until it is stopped: tells at once what it has to say, and is it to stop?
  std::function<void(std::string_view)> tell{};
  std::function<bool()> stop{};
};

/// Runs `norma` with these arguments (without the program's name), relative to the current folder.
Outcome run(const std::vector<std::string>& arguments, const Surroundings& surroundings = {});

} // namespace norma::cli
