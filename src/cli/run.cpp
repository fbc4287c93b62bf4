#include "cli/run.hpp"

#include <CLI/CLI.hpp>
#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <string_view>

#include "cli/command_table.hpp"
#include "emit/editions.hpp"
#include "text/suggest.hpp"
#include "text/version.hpp"

namespace norma::cli {
namespace {

constexpr const char* about =
    "norma checks clinical photography protocols against what a chair has, and prints what to do.\n"
    "\n"
    "A protocol (.norma) says what each picture must show. A kit (.yaml) says what one chair has, "
    "as\n"
    "measured there. norma works out whether the one can be had with the other, and with which\n"
    "settings. Local codes and the responsible clinician decide.";

constexpr std::string_view exit_codes =
    "Exit code: 0 nothing at or above --fail-on; 1 findings; 2 the run could not start.";

std::string version(std::string_view commit) {
  return fmt::format(
      "norma {}, commit {}\nlanguage edition {}, kit edition {}, fingerprint edition "
      "{}, plan JSON edition {}",
      text::version(), commit.empty() ? "unknown" : commit, emit::editions::language,
      emit::editions::kit, emit::editions::fingerprint, emit::editions::plan_json);
}

/// The examples of one command, or of all; then the exit codes.
std::string footer(std::string_view command) {
  std::string out = "Examples:\n";
  for (const ExampleRow& e : example_table()) {
    if (e.command.starts_with(command))
      out += fmt::format("  norma {:<51} {}\n", e.command, e.what);
  }
  return out + "\n" + std::string(exit_codes);
}

CLI::IsMember one_of(const std::vector<std::string_view>& words) {
  return CLI::IsMember(std::vector<std::string>(words.begin(), words.end()));
}

/// Adds an option to a command of CLI11, so that it fills its field of `options`.
class Adder {
 public:
  Adder(CLI::App& command, const OptionRow& row, Options& options)
      : command_(command), row_(row), options_(options), names_(joined(row.names, ",")),
        help_(row.help) {}

  void operator()(std::monostate) const {} // --help and --version are CLI11's own
  void operator()(bool Options::*field) const { command_.add_flag(names_, options_.*field, help_); }
  void operator()(std::string Options::*field) const {
    finish(command_.add_option(names_, options_.*field, help_));
  }
  void operator()(std::vector<std::string> Options::*field) const {
    // One value each time: what follows is a file again.
    finish(command_.add_option(names_, options_.*field, help_))->allow_extra_args(false);
  }
  void operator()(unsigned Options::*field) const {
    finish(command_.add_option(names_, options_.*field, help_))
        ->check(CLI::Range(row_.bounds.least, row_.bounds.most));
  }
  void operator()(const std::vector<Choice>& choices) const {
    const auto fill = [&choices, &options = options_](const std::string& word) {
      const auto chosen = std::find_if(choices.begin(), choices.end(),
                                       [&](const Choice& choice) { return choice.word == word; });
      if (chosen != choices.end()) chosen->fill(options);
    };
    finish(command_.add_option_function<std::string>(names_, fill, help_))
        ->check(one_of(cli::choices(row_)));
  }

 private:
  CLI::Option* finish(CLI::Option* option) const {
    return option->type_name(std::string(row_.value))->required(row_.required);
  }

  CLI::App& command_;
  const OptionRow& row_;
  Options& options_;
  std::string names_;
  std::string help_;
};

void add_argument(CLI::App& command, const ArgumentRow& row, Options& options) {
  if (row.name.empty()) return;
  auto* argument = command.add_option(std::string(row.name), options.files, std::string(row.help))
                       ->required(!row.optional);
  if (row.most > 0) argument->expected(1, static_cast<int>(row.most));
  if (!row.choices.empty()) argument->check(one_of(row.choices));
}

void build(CLI::App& app, std::string_view commit, Options& options) {
  app.footer(footer(""));
  app.require_subcommand(1);
  const auto& general = general_options(); // --help, which the commands take over; --version
  app.set_help_flag(joined(general[0].names, ","), std::string(general[0].help));
  app.set_version_flag(joined(general[1].names, ","), version(commit),
                       std::string(general[1].help));
  for (const CommandRow& row : command_table()) {
    CLI::App& command = *app.add_subcommand(std::string(row.name), std::string(row.help));
    add_argument(command, row.argument, options);
    for (const OptionRow& option : row.options)
      std::visit(Adder(command, option, options), option.field);
    command.footer(footer(row.name));
  }
}

std::vector<std::string_view> command_names() {
  std::vector<std::string_view> out;
  for (const CommandRow& row : command_table())
    out.push_back(row.name);
  return out;
}

/// What to say where `word` stands in the place of a command and is none.
std::optional<std::string> unknown_command(const std::string& word) {
  if (word.empty() || word.front() == '-') return std::nullopt;
  const auto names = command_names();
  if (std::find(names.begin(), names.end(), word) != names.end()) return std::nullopt;
  const auto near = text::nearest(word, names);
  return fmt::format("there is no command `{}`{}; `norma --help` lists them", word,
                     near ? fmt::format("; did you mean `{}`?", *near) : "");
}

/// A file `-` is standard input, for the commands that have `--stdin-name`; it gets that name.
std::optional<Outcome> take_standard_input(const CommandRow& row, const Surroundings& surroundings,
                                           Options& options) {
  const auto takes = [](const OptionRow& option) {
    const auto* field = std::get_if<std::string Options::*>(&option.field);
    return field != nullptr && *field == &Options::stdin_name;
  };
  if (std::none_of(row.options.begin(), row.options.end(), takes)) return std::nullopt;
  const auto given = std::count(options.files.begin(), options.files.end(), "-");
  if (given == 0) {
    if (options.stdin_name.empty()) return std::nullopt;
    return could_not_run("--stdin-name names standard input: write - in place of a file");
  }
  if (given > 1) return could_not_run("standard input (-) can be given once");
  if (auto press = needs_revisions(options)) return press; // which reads it
  text::ReadResult bytes = surroundings.standard_input
                               ? surroundings.standard_input()
                               : text::ReadError{text::ReadError::Kind::missing, "there is none"};
  if (const auto* error = std::get_if<text::ReadError>(&bytes))
    return could_not_run(fmt::format("cannot read standard input: {}", error->why));
  std::string& name = *std::find(options.files.begin(), options.files.end(), "-");
  if (!options.stdin_name.empty()) name = options.stdin_name;
  options.overlays.push_back({name, std::move(std::get<std::string>(bytes))});
  return std::nullopt;
}

} // namespace

Outcome run(const std::vector<std::string>& arguments, const Surroundings& surroundings) {
  if (arguments.empty()) {
    return could_not_run(
        fmt::format("say what to do: {}; `norma --help` shows how", joined(command_names(), ", ")));
  }
  if (const auto unknown = unknown_command(arguments.front())) return could_not_run(*unknown);
  Options options;
  CLI::App app(about, "norma");
  build(app, surroundings.commit, options);
  try {
    app.parse(std::vector<std::string>(arguments.rbegin(), arguments.rend()));
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    return {0, chosen.empty() ? app.help() : chosen.front()->help("norma"), ""};
  } catch (const CLI::CallForVersion&) {
    return {0, version(surroundings.commit) + "\n", ""};
  } catch (const CLI::ParseError& e) {
    return could_not_run(fmt::format("{}; `norma --help` shows how it is used", e.what()));
  }
  const std::string chosen = app.get_subcommands().front()->get_name();
  const auto& table = command_table();
  const auto row = std::find_if(table.begin(), table.end(),
                                [&](const CommandRow& c) { return c.name == chosen; });
  options.out = surroundings.out;
  options.err = surroundings.err;
  options.print = surroundings.print;
  options.wire = surroundings.wire;
  options.repository = surroundings.repository;
  if (options.repository.files) options.reading = options.repository.files();
  if (auto failed = take_standard_input(*row, surroundings, options)) return *failed;
  return row->run(options); // CLI11's commands are those of the table
}

} // namespace norma::cli
