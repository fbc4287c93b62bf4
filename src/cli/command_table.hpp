// The commands and their options as data: what completions and the manual are made from.
#pragma once

#include <string>
#include <vector>

namespace norma::cli {

struct OptionRow {
  std::vector<std::string> names;   // -h, --help
  std::string value;                // KIT, "" for a flag
  std::vector<std::string> choices; // where the value is one of a few words
  std::string help;
};

struct CommandRow {
  std::string name;
  std::string help;
  std::string positional; // FILE
  std::string positional_help;
  std::vector<std::string> positional_choices;
  std::vector<OptionRow> options;
};

struct ExampleRow {
  std::string command; // behind `norma`
  std::string what;
};

std::vector<CommandRow> command_table();
std::vector<ExampleRow> example_table();

/// Completions for bash, zsh or fish, as a script that the shell reads.
std::string completions_for(const std::string& shell);
/// The manual page norma(1) in the markup of scdoc.
std::string manual();

} // namespace norma::cli
