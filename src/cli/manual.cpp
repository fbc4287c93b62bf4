#include <fmt/core.h>

#include "cli/command_table.hpp"

namespace norma::cli {
namespace {

/// scdoc gives meaning to these; a backslash takes it away.
std::string plain(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (std::string_view("\\*_#`<>[]").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

} // namespace

std::string manual() {
  std::string out =
      "norma(1)\n\n"
      "# NAME\n\n"
      "norma - check clinical photography protocols against what a chair has\n\n"
      "# SYNOPSIS\n\n"
      "*norma* _COMMAND_ [_OPTIONS_] _FILE_...\n\n"
      "# DESCRIPTION\n\n"
      "A protocol (.norma) says what each picture must show. A kit (.yaml) says what one chair "
      "has, "
      "as measured there. norma works out whether the one can be had with the other, and with "
      "which "
      "settings. It speaks about photographs, never about diagnosis or treatment. Local codes and "
      "the responsible clinician decide.\n\n"
      "# COMMANDS\n\n";
  for (const CommandRow& c : command_table()) {
    out += fmt::format("## norma {}\n\n{}.\n\n", c.name, plain(c.help));
    if (!c.argument.name.empty())
      out += fmt::format("_{}_\n\t{}\n\n", c.argument.name, plain(c.argument.help));
    for (const OptionRow& o : c.options) {
      out += fmt::format("*{}*", joined(o.names, "*, *"));
      if (!o.value.empty()) out += fmt::format(" _{}_", plain(o.value));
      out += fmt::format("\n\t{}", plain(o.help));
      const auto words = choices(o);
      if (!words.empty()) out += fmt::format(" (one of: {})", joined(words, ", "));
      out += "\n\n";
    }
  }
  out += "# EXIT STATUS\n\n"
         "0 nothing at or above the level of --fail-on; 1 findings; 2 the run could not start.\n\n"
         "# EXAMPLES\n\n";
  for (const ExampleRow& e : example_table())
    out += fmt::format("*norma {}*\n\t{}\n\n", plain(e.command), plain(e.what));
  return out;
}

} // namespace norma::cli
