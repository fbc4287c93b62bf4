#include <fmt/core.h>

#include <algorithm>
#include <iterator>

#include "cli/command_table.hpp"

namespace norma::cli {
namespace {

/// Single quotes for a shell: what stands between them means itself.
std::string quoted(std::string_view text, std::string_view inner_quote) {
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

/// The command of bash that completes one of the words, or a file where there are none.
std::string bash_words(const std::vector<std::string_view>& words) {
  return words.empty() ? "compgen -f -- \"$current\""
                       : fmt::format("compgen -W '{}' -- \"$current\"", joined(words));
}

std::string bash(const std::vector<CommandRow>& table) {
  std::string out = "# Completions of norma for bash: source this file.\n"
                    "_norma() {\n"
                    "  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n"
                    "  COMPREPLY=()\n"
                    "  if [ \"$COMP_CWORD\" -eq 1 ]; then\n";
  std::vector<std::string_view> first;
  for (const CommandRow& c : table)
    first.push_back(c.name);
  for (const OptionRow& o : general_options())
    first.push_back(o.names.back());
  out += fmt::format("    COMPREPLY=($(compgen -W '{}' -- \"$current\"))\n"
                     "    return\n  fi\n  case ${{COMP_WORDS[1]}} in\n",
                     joined(first));
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    case $before in\n", c.name);
    std::vector<std::string_view> all;
    for (const OptionRow& o : c.options) {
      all.insert(all.end(), o.names.begin(), o.names.end());
      if (o.value.empty()) continue;
      out += fmt::format("    {}) COMPREPLY=($({})); return ;;\n", joined(o.names, "|"),
                         bash_words(choices(o)));
    }
    out += fmt::format("    esac\n    case $current in\n"
                       "    -*) COMPREPLY=($(compgen -W '{}' -- \"$current\")) ;;\n",
                       joined(all));
    out += fmt::format("    *) COMPREPLY=($({})) ;;\n", bash_words(c.argument.choices));
    out += "    esac ;;\n";
  }
  return out + "  esac\n}\ncomplete -o filenames -F _norma norma\n";
}

std::string zsh(const std::vector<CommandRow>& table) {
  constexpr std::string_view inner = "'\\''";
  // Colons and brackets part the fields of zsh's descriptions.
  const auto described = [](std::string_view text) {
    std::string out;
    for (const char c : text) {
      if (c == ':' || c == '[' || c == ']' || c == '\\') out += '\\';
      out += c;
    }
    return out;
  };
  const auto words_or_files = [](const std::vector<std::string_view>& words) {
    return words.empty() ? std::string("_files") : "(" + joined(words) + ")";
  };
  std::string out = "#compdef norma\n"
                    "# Completions of norma for zsh: put this file as _norma into a folder of "
                    "$fpath.\n"
                    "_norma() {\n  local -a commands\n  commands=(\n";
  for (const CommandRow& c : table)
    out += fmt::format("    {}\n", quoted(fmt::format("{}:{}", c.name, described(c.help)), inner));
  out += "  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n"
         "  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $command in\n";
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    _arguments", c.name);
    for (const OptionRow& o : c.options) {
      for (const std::string_view name : o.names) {
        std::string row = fmt::format("*{}[{}]", name, described(o.help));
        if (!o.value.empty()) row += fmt::format(":{}:{}", o.value, words_or_files(choices(o)));
        out += " \\\n      " + quoted(row, inner);
      }
    }
    out += fmt::format(
        " \\\n      {} ;;\n",
        quoted(fmt::format("*:{}:{}", c.argument.name, words_or_files(c.argument.choices)), inner));
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
    if (!c.argument.choices.empty())
      out += fmt::format("{} -f -a '{}'\n", where, joined(c.argument.choices));
    for (const OptionRow& o : c.options) {
      out += where;
      for (const std::string_view name : o.names) {
        out += name.starts_with("--") ? fmt::format(" -l {}", name.substr(2))
                                      : fmt::format(" -s {}", name.substr(1));
      }
      if (!o.value.empty()) {
        const auto words = choices(o);
        out += words.empty() ? std::string(" -r -F") : fmt::format(" -x -a '{}'", joined(words));
      }
      out += fmt::format(" -d {}\n", quoted(o.help, inner));
    }
  }
  return out;
}

struct Shell {
  std::string_view name;
  std::string (*script)(const std::vector<CommandRow>& table);
};
constexpr Shell known_shells[] = {{"bash", bash}, {"zsh", zsh}, {"fish", fish}};

} // namespace

std::vector<std::string_view> shells() {
  std::vector<std::string_view> out;
  for (const Shell& shell : known_shells)
    out.push_back(shell.name);
  return out;
}

std::string completions_for(std::string_view shell) {
  const auto* known = std::find_if(std::begin(known_shells), std::end(known_shells),
                                   [&](const Shell& s) { return s.name == shell; });
  return known == std::end(known_shells) ? "" : known->script(command_table());
}

Outcome completions(const Options& options) {
  return {0, completions_for(options.files.front()), ""};
}

} // namespace norma::cli
