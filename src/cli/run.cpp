#include "cli/run.hpp"

#include <CLI/CLI.hpp>
#include <fmt/core.h>

#include <string_view>

#include "cli/command_table.hpp"
#include "cli/commands.hpp"
#include "text/suggest.hpp"

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

struct Example {
  std::string_view command; // behind `norma`
  std::string_view what;
};
constexpr Example examples[] = {
    {"check five.norma", "the protocol alone"},
    {"check --kit chair_3.yaml five.norma", "held against a chair's kit"},
    {"check --kit a.yaml --kit b.yaml *.norma", "several protocols, each with several kits"},
    {"check --fail-on warning --format json five.norma", "for other tools"},
    {"check --format sarif protocols", "all below a folder, for code reviews"},
    {"plan --kit chair_3.yaml five.norma", "every number of every view"},
    {"plan --picture right -o right.svg --kit a.yaml five.norma", "a drawing of what is seen"},
    {"list --kit chair_3.yaml five.norma", "the checklist to print and sign"},
    {"list --series record --kit chair_3.yaml five.norma", "of a shorter series"},
    {"chairs --kit a.yaml --kit b.yaml five.norma", "which view can be had at which chair"},
    {"kit chair_3.yaml", "what the chair has, what is missing, what is due"},
    {"show children.norma", "all that holds, and where each line comes from"},
    {"tidy five.norma", "put into the one layout"},
    {"tidy --check *.norma", "exit 1 where a file is not in it"},
    {"explain P003", "what a finding means, and how to mend it"},
    {"explain 'must show'", "what a word of the language means"},
    {"explain five.norma front --kit chair_3.yaml", "every number of a view, with its source"},
};

/// The examples of one command, or of all; then the exit codes.
std::string footer(std::string_view command) {
  std::string out = "Examples:\n";
  for (const Example& e : examples) {
    if (e.command.starts_with(command))
      out += fmt::format("  norma {:<51} {}\n", e.command, e.what);
  }
  return out + "\n" + std::string(exit_codes);
}

void add_day(CLI::App* command, Options& options) {
  command->add_option("--on", options.on, "Day that dates are held against; today if left out")
      ->type_name("YYYY-MM-DD");
}

void add_fail_on(CLI::App* command, Options& options) {
  command
      ->add_option_function<std::string>(
          "--fail-on",
          [&options](const std::string& level) {
            options.never_fail = level == "never";
            options.fail_on = level == "advice"    ? diag::Severity::advice
                              : level == "warning" ? diag::Severity::warning
                                                   : diag::Severity::error;
          },
          "Exit 1 from this level on: advice, warning, error (default) or never")
      ->check(CLI::IsMember({"advice", "warning", "error", "never"}))
      ->type_name("LEVEL");
}

void add_common(CLI::App* command, Options& options, bool kit_required) {
  auto* kit = command->add_option("--kit", options.kits, "Kit file (YAML); give it again for more");
  kit->type_name("KIT")->allow_extra_args(false);
  if (kit_required) kit->required();
  add_day(command, options);
  add_fail_on(command, options);
}

void add_origin(CLI::App* command, Options& options) {
  command
      ->add_option("--root", options.root,
                   "Protocols may build on files below this folder only; if left out, below the "
                   "nearest one above that holds .git, else the file's own")
      ->type_name("FOLDER");
  command
      ->add_option("--for", options.group,
                   "One group of patients only, such as 'children, mixed teeth'")
      ->type_name("GROUP");
}

void add_format(CLI::App* command, Options& options, std::vector<std::string> names,
                const char* help) {
  command
      ->add_option_function<std::string>(
          "--format",
          [&options](const std::string& name) {
            options.format = name == "json"       ? Format::json
                             : name == "markdown" ? Format::markdown
                             : name == "sarif"    ? Format::sarif
                             : name == "lines"    ? Format::lines
                                                  : Format::text;
          },
          help)
      ->check(CLI::IsMember(std::move(names)))
      ->type_name("FORMAT");
}

void build(CLI::App& app, Options& options) {
  app.footer(footer(""));
  app.require_subcommand(1);
  app.set_version_flag("--version", "norma 0.1.0, language edition 1");

  auto* check_command = app.add_subcommand("check", "Say what is wrong, and what was not checked");
  check_command->add_option("FILE", options.files, "Protocol files, or folders that hold them")
      ->required();
  check_command->add_flag("--no-scene", options.no_scene,
                          "Leave out what is worked out in three dimensions: faster");
  check_command
      ->add_option("--threads", options.threads,
                   "Protocols to work on at once; as many as the machine has cores if left out")
      ->type_name("NUMBER")
      ->check(CLI::Range(1, 16));
  add_common(check_command, options, false);
  add_origin(check_command, options);
  add_format(check_command, options, {"text", "lines", "json", "sarif"},
             "text (default), lines (one for each finding), json or sarif (2.1.0)");

  auto* plan_command = app.add_subcommand("plan", "Print every worked-out number as JSON");
  plan_command->add_option("FILE", options.files, "Protocol files")->required();
  add_common(plan_command, options, true);
  add_origin(plan_command, options);
  add_format(plan_command, options, {"json"}, "json (the only one)");

  plan_command
      ->add_option("--picture", options.picture,
                   "Draw one view instead: what the camera sees of the modelled mouth, and from "
                   "above (SVG)")
      ->type_name("VIEW");
  plan_command
      ->add_option("-o,--output", options.output, "File to write; standard output if left out")
      ->type_name("FILE");

  auto* list_command = app.add_subcommand("list", "Print the checklist to work through and sign");
  list_command->add_option("FILE", options.files, "Protocol files")->required();
  add_common(list_command, options, true);
  add_origin(list_command, options);
  list_command->add_option("--series", options.series, "Series to print; the longest if left out")
      ->type_name("NAME");
  add_format(list_command, options, {"text", "markdown"}, "text (default) or markdown");

  auto* chairs_command =
      app.add_subcommand("chairs", "Hold protocols against several kits: a table of views by kits");
  chairs_command->add_option("FILE", options.files, "Protocol files, or folders that hold them")
      ->required();
  add_common(chairs_command, options, true);
  add_origin(chairs_command, options);

  auto* kit_command =
      app.add_subcommand("kit", "Read kits back in words: what is missing, what is due");
  kit_command->add_option("KIT", options.files, "Kit files (YAML)")->required();
  add_day(kit_command, options);
  add_fail_on(kit_command, options);
  add_format(kit_command, options, {"text", "markdown"}, "text (default) or markdown");

  auto* explain_command =
      app.add_subcommand("explain", "Explain a finding or a word, or every number of a view");
  explain_command
      ->add_option("TOPIC", options.files,
                   "A code, a finding's name or a word; or a FILE and a VIEW")
      ->required()
      ->expected(1, 2);
  add_common(explain_command, options, false);
  add_origin(explain_command, options);
  add_format(explain_command, options, {"text", "json"}, "text (default) or json");

  auto* show_command = app.add_subcommand("show", "Print a protocol with all resolved");
  show_command->add_option("FILE", options.files, "Protocol files")->required();
  add_origin(show_command, options);

  auto* tidy_command = app.add_subcommand("tidy", "Put files into the one layout");
  tidy_command->add_option("FILE", options.files, "Protocol files")->required();
  tidy_command->add_flag("--check", options.check_only, "Write nothing; exit 1 where one is not");

  auto* completions_command =
      app.add_subcommand("completions", "Print the completions of a shell, to be read by it");
  completions_command->add_option("SHELL", options.files, "bash, zsh or fish")
      ->required()
      ->expected(1)
      ->check(CLI::IsMember({"bash", "zsh", "fish"}));

  for (CLI::App* command : app.get_subcommands({}))
    command->footer(footer(command->get_name()));
}

struct Command {
  std::string_view name;
  Outcome (*run)(const Options& options);
};
constexpr Command commands[] = {
    {"check", check},   {"plan", plan}, {"list", list},
    {"chairs", chairs}, {"kit", kit},   {"explain", explain},
    {"show", show},     {"tidy", tidy}, {"completions", completions},
};

/// `{text,json}` in what CLI11 says of an option's values.
std::vector<std::string> choices_in(const std::string& type) {
  std::vector<std::string> out;
  const std::size_t open = type.find('{');
  const std::size_t close = type.find('}');
  if (open == std::string::npos || close == std::string::npos) return out;
  std::string_view rest = std::string_view(type).substr(open + 1, close - open - 1);
  while (!rest.empty()) {
    const std::size_t stop = std::min(rest.find(','), rest.size());
    out.emplace_back(rest.substr(0, stop));
    rest.remove_prefix(std::min(stop + 1, rest.size()));
  }
  return out;
}

} // namespace

namespace {

/// What to say where `word` stands in the place of a command and is none.
std::optional<std::string> unknown_command(const std::string& word) {
  if (word.empty() || word.front() == '-') return std::nullopt;
  std::vector<std::string_view> names;
  for (const Command& c : commands)
    names.push_back(c.name);
  if (std::find(names.begin(), names.end(), word) != names.end()) return std::nullopt;
  const auto near = text::nearest(word, names);
  return fmt::format("there is no command `{}`{}; `norma --help` lists them", word,
                     near ? fmt::format("; did you mean `{}`?", *near) : "");
}

} // namespace

std::vector<CommandRow> command_table() {
  Options options;
  CLI::App app(about, "norma");
  build(app, options);
  std::vector<CommandRow> out;
  for (const CLI::App* command : app.get_subcommands([](const CLI::App*) { return true; })) {
    CommandRow row;
    row.name = command->get_name();
    row.help = command->get_description();
    for (const CLI::Option* o : command->get_options()) {
      const std::string type = o->get_type_name();
      if (o->get_positional()) {
        row.positional = o->get_name(true);
        row.positional_help = o->get_description();
        row.positional_choices = choices_in(type);
        continue;
      }
      OptionRow option;
      for (const std::string& name : o->get_snames())
        option.names.push_back("-" + name);
      for (const std::string& name : o->get_lnames())
        option.names.push_back("--" + name);
      if (o->get_items_expected_max() > 0) option.value = type.substr(0, type.find(':'));
      option.choices = choices_in(type);
      option.help = o->get_description();
      row.options.push_back(std::move(option));
    }
    out.push_back(std::move(row));
  }
  return out;
}

std::vector<ExampleRow> example_table() {
  std::vector<ExampleRow> out;
  for (const Example& e : examples)
    out.push_back({std::string(e.command), std::string(e.what)});
  return out;
}

Outcome run(const std::vector<std::string>& arguments) {
  Options options;
  CLI::App app(about, "norma");
  build(app, options);
  if (arguments.empty()) {
    std::string names;
    for (const Command& c : commands)
      names += fmt::format("{}{}", names.empty() ? "" : ", ", c.name);
    return could_not_run(fmt::format("say what to do: {}; `norma --help` shows how", names));
  }
  if (const auto unknown = unknown_command(arguments.front())) return could_not_run(*unknown);
  std::vector<std::string> reversed(arguments.rbegin(), arguments.rend());
  try {
    app.parse(reversed);
  } catch (const CLI::CallForHelp&) {
    const auto chosen = app.get_subcommands();
    return {0, chosen.empty() ? app.help() : chosen.front()->help("norma"), ""};
  } catch (const CLI::CallForVersion&) {
    return {0, "norma 0.1.0, language edition 1\n", ""};
  } catch (const CLI::ParseError& e) {
    return could_not_run(fmt::format("{}; `norma --help` shows how it is used", e.what()));
  }
  const std::string chosen = app.get_subcommands().front()->get_name();
  for (const Command& c : commands) {
    if (c.name == chosen) return c.run(options);
  }
  return could_not_run("there is no command " + chosen); // the two lists are held by a test
}

} // namespace norma::cli
