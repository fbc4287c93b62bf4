#include <fmt/core.h>

#include "cli/command_table.hpp"
#include "cli/commands.hpp"

namespace norma::cli {
namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string out;
  for (const std::string& word : words)
    out += (out.empty() ? "" : " ") + word;
  return out;
}

std::string names(const std::vector<CommandRow>& table) {
  std::vector<std::string> out;
  for (const CommandRow& c : table)
    out.push_back(c.name);
  return joined(out);
}

/// Single quotes for a shell: what stands between them means itself.
std::string quoted(const std::string& text, std::string_view inner_quote) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'') {
      out += inner_quote;
    } else {
      out += c;
    }
  }
  return out + "'";
}

std::string bash(const std::vector<CommandRow>& table) {
  std::string out = "# Completions of norma for bash: source this file.\n"
                    "_norma() {\n"
                    "  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
                    "  COMPREPLY=()\n"
                    "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n";
  out += fmt::format("    COMPREPLY=($(compgen -W '{} --help --version' -- \"$current\"))\n"
                     "    return\n  fi\n  case ${{COMP_WORDS[1]}} in\n",
                     names(table));
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    case $before in\n", c.name);
    std::vector<std::string> all;
    for (const OptionRow& o : c.options) {
      all.insert(all.end(), o.names.begin(), o.names.end());
      if (o.value.empty()) continue;
      std::string pattern;
      for (const std::string& name : o.names)
        pattern += (pattern.empty() ? "" : "|") + name;
      out +=
          o.choices.empty()
              ? fmt::format("    {}) COMPREPLY=($(compgen -f -- \"$current\")); return ;;\n",
                            pattern)
              : fmt::format("    {}) COMPREPLY=($(compgen -W '{}' -- \"$current\")); return ;;\n",
                            pattern, joined(o.choices));
    }
    out += fmt::format("    esac\n    case $current in\n"
                       "    -*) COMPREPLY=($(compgen -W '{}' -- \"$current\")) ;;\n",
                       joined(all));
    out += c.positional_choices.empty()
               ? std::string("    *) COMPREPLY=($(compgen -f -- \"$current\")) ;;\n")
               : fmt::format("    *) COMPREPLY=($(compgen -W '{}' -- \"$current\")) ;;\n",
                             joined(c.positional_choices));
    out += "    esac ;;\n";
  }
  return out + "  esac\n}\ncomplete -o filenames -F _norma norma\n";
}

std::string zsh(const std::vector<CommandRow>& table) {
  constexpr std::string_view inner = "'\\''";
  // Colons and brackets part the fields of zsh's descriptions.
  const auto described = [](std::string text) {
    std::string out;
    for (const char c : text) {
      if (c == ':' || c == '[' || c == ']' || c == '\\') out += '\\';
      out += c;
    }
    return out;
  };
  std::string out = "#compdef norma\n"
                    "# Completions of norma for zsh: put this file as _norma into a folder of "
                    "$fpath.\n"
                    "_norma() {\n  local -a commands\n  commands=(\n";
  for (const CommandRow& c : table)
    out += fmt::format("    {}\n", quoted(c.name + ":" + described(c.help), inner));
  out += "  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n"
         "  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $command in\n";
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    _arguments", c.name);
    for (const OptionRow& o : c.options) {
      for (const std::string& name : o.names) {
        std::string row = "*" + name + "[" + described(o.help) + "]";
        if (!o.value.empty()) {
          row += ":" + o.value + ":";
          row += o.choices.empty() ? std::string("_files") : "(" + joined(o.choices) + ")";
        }
        out += " \\\n      " + quoted(row, inner);
      }
    }
    out += " \\\n      " +
           quoted("*:" + c.positional + ":" +
                      (c.positional_choices.empty() ? std::string("_files")
                                                    : "(" + joined(c.positional_choices) + ")"),
                  inner) +
           " ;;\n";
  }
  return out + "  esac\n}\n_norma \"$@\"\n";
}

std::string fish(const std::vector<CommandRow>& table) {
  constexpr std::string_view inner = "\\'";
  std::string out = "# Completions of norma for fish: put this file as norma.fish into its folder "
                    "of completions.\n";
  for (const CommandRow& c : table) {
    out += fmt::format("complete -c norma -n __fish_use_subcommand -f -a {} -d {}\n", c.name,
                       quoted(c.help, inner));
  }
  for (const CommandRow& c : table) {
    const std::string where =
        fmt::format("complete -c norma -n '__fish_seen_subcommand_from {}'", c.name);
    if (!c.positional_choices.empty())
      out += fmt::format("{} -f -a '{}'\n", where, joined(c.positional_choices));
    for (const OptionRow& o : c.options) {
      out += where;
      for (const std::string& name : o.names) {
        out += name.starts_with("--") ? fmt::format(" -l {}", name.substr(2))
                                      : fmt::format(" -s {}", name.substr(1));
      }
      if (!o.value.empty()) {
        out += o.choices.empty() ? std::string(" -r -F")
                                 : fmt::format(" -x -a '{}'", joined(o.choices));
      }
      out += fmt::format(" -d {}\n", quoted(o.help, inner));
    }
  }
  return out;
}

} // namespace

std::string completions_for(const std::string& shell) {
  const std::vector<CommandRow> table = command_table();
  if (shell == "bash") return bash(table);
  if (shell == "zsh") return zsh(table);
  return fish(table);
}

Outcome completions(const Options& options) {
  return {0, completions_for(options.files.front()), ""};
}

} // namespace norma::cli
