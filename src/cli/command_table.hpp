// The commands and their options as data. The command line is read by these rows, and `--help`, the
// completions and the manual are made from them.
#pragma once

#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "cli/commands.hpp"

namespace norma::cli {

/// One of the few words that an option takes, and what it sets.
struct Choice {
  std::string_view word;
  void (*fill)(Options&);
};

/// The least and the most that an option's number may be.
struct Bounds {
  int least = 0;
  int most = 0;
};

/// What an option fills: a field of Options, or, where its value is one of a few words, what the
/// word sets. Nothing for what the reading of the command line does itself (--help).
using Field =
    std::variant<std::monostate, bool Options::*, unsigned Options::*, std::string Options::*,
                 std::vector<std::string> Options::*, std::vector<Choice>>;

struct OptionRow {
  std::vector<std::string_view> names; // -o, --output
  std::string_view value;              // KIT; "" for a flag
  Field field;
  std::string_view help;
  bool required = false;
  Bounds bounds = {};                  // of a number
  std::string_view names_in_file = {}; // what `norma names` lists of the file on the line
};

/// The words of an option's choices; none where it takes any value, or none.
std::vector<std::string_view> choices(const OptionRow& option);

/// What stands behind the command without a name. It fills Options::files. No name: nothing does.
struct ArgumentRow {
  std::string_view name; // FILE
  std::string_view help;
  std::size_t most = 0; // 0 for any number; at least one, but where it is optional
  std::vector<std::string_view> choices = {}; // where it is one of a few words
  std::string_view names = {};                // of the file on the line, as with options
  bool optional = false;                      // it may be left out
};

struct CommandRow {
  std::string_view name;
  std::string_view help;
  ArgumentRow argument;
  Outcome (*run)(const Options& options);
  std::vector<OptionRow> options; // --help is the first of each
};

struct ExampleRow {
  std::string_view command; // behind `norma`
  std::string_view what;
};

/// What `norma names` can list.
std::vector<std::string_view> kinds_of_names();

const std::vector<CommandRow>& command_table();
const std::vector<ExampleRow>& example_table();

/// Those that stand where a command would: --help, --version.
const std::vector<OptionRow>& general_options();

/// The shells that `completions_for` knows.
std::vector<std::string_view> shells();
/// Completions for one of `shells()`, as a script that the shell reads.
std::string completions_for(std::string_view shell);
/// The manual page norma(1) in the markup of scdoc.
std::string manual();

/// `words` with `between` between them.
std::string joined(const std::vector<std::string_view>& words, std::string_view between = " ");

} // namespace norma::cli
