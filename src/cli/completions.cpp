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

/// What bash puts into COMPREPLY: words, names of the file on the line, or files.
std::string bash_reply(const std::vector<std::string_view>& words, std::string_view names) {
  if (!words.empty()) return fmt::format("_norma_words '{}'", joined(words));
  if (!names.empty()) return fmt::format("_norma_names {}", names);
  return "_norma_files";
}

std::string bash(const std::vector<CommandRow>& table) {
  // Lines are read as they are, so that names and paths may hold blanks; readline quotes them.
  std::string out = R"sh(# Completions of norma for bash: source this file.
_norma_words() {
  mapfile -t COMPREPLY < <(compgen -W "$1" -- "$current")
}
_norma_files() {
  mapfile -t COMPREPLY < <(compgen -f -- "${current//\\/}")
}
# Names of the first protocol on the line; without one, and where it has none, files.
_norma_names() {
  local word name file= plain=${current//\\/}
  for word in "${COMP_WORDS[@]:2}"; do
    if [[ $word == *.norma || $word == *.norma[\"\'] ]]; then
      file=${word//[\\\"\']/}
      break
    fi
  done
  COMPREPLY=()
  [ "$1" = topics ] && [ -z "$file" ] && _norma_words "$(norma names topics 2>/dev/null | grep -v ' ')"
  local kind=$1
  [ "$kind" = topics ] && kind=views
  if [ -n "$file" ] && [ "$file" != "$current" ]; then
    while IFS= read -r name; do
      [[ $name == "$plain"* ]] && COMPREPLY+=("$name")
    done < <(norma names "$kind" "$file" 2>/dev/null)
  fi
  if [ ${#COMPREPLY[@]} -eq 0 ]; then _norma_files; fi
}
_norma() {
  local current=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}
  COMPREPLY=()
  if [ "$COMP_CWORD" -eq 1 ]; then
)sh";
  std::vector<std::string_view> first;
  for (const CommandRow& c : table)
    first.push_back(c.name);
  for (const OptionRow& o : general_options())
    first.push_back(o.names.back());
  out += fmt::format("    _norma_words '{}'\n    return\n  fi\n  case ${{COMP_WORDS[1]}} in\n",
                     joined(first));
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    case $before in\n", c.name);
    std::vector<std::string_view> all;
    for (const OptionRow& o : c.options) {
      all.insert(all.end(), o.names.begin(), o.names.end());
      if (o.value.empty()) continue;
      out += fmt::format("    {}) {}; return ;;\n", joined(o.names, "|"),
                         bash_reply(choices(o), o.names_in_file));
    }
    out +=
        fmt::format("    esac\n    case $current in\n    -*) _norma_words '{}' ;;\n", joined(all));
    if (!c.argument.name.empty())
      out += fmt::format("    *) {} ;;\n", bash_reply(c.argument.choices, c.argument.names));
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
  const auto values = [](const std::vector<std::string_view>& words, std::string_view names) {
    if (!words.empty()) return "(" + joined(words) + ")";
    return names.empty() ? std::string("_files") : fmt::format("_norma_names {}", names);
  };
  std::string out = R"sh(#compdef norma
# Completions of norma for zsh: put this file as _norma into a folder of $fpath.
# Names of the first protocol on the line; without one, files.
_norma_names() {
  local file=${(Q)${(M)words:#*.norma}[1]} kind=$1
  local -a names
  if [[ $kind == topics && -n $file ]]; then kind=views; fi
  if [[ $kind == topics ]]; then
    names=(${(f)"$(norma names topics 2>/dev/null)"})
  elif [[ -n $file ]]; then
    names=(${(f)"$(norma names $kind $file 2>/dev/null)"})
  fi
  compadd -a names
  if [[ $1 == topics || -z $file ]]; then _files; fi
}
_norma() {
  local -a commands
  commands=(
)sh";
  for (const CommandRow& c : table)
    out += fmt::format("    {}\n", quoted(fmt::format("{}:{}", c.name, described(c.help)), inner));
  out += "  )\n  if (( CURRENT == 2 )); then\n    _describe command commands\n    return\n  fi\n"
         "  local command=$words[2]\n  shift words\n  (( CURRENT-- ))\n  case $command in\n";
  for (const CommandRow& c : table) {
    out += fmt::format("  {})\n    _arguments", c.name);
    for (const OptionRow& o : c.options) {
      for (const std::string_view name : o.names) {
        std::string row = fmt::format("*{}[{}]", name, described(o.help));
        if (!o.value.empty())
          row += fmt::format(":{}:{}", o.value, values(choices(o), o.names_in_file));
        out += " \\\n      " + quoted(row, inner);
      }
    }
    if (!c.argument.name.empty())
      out += " \\\n      " + quoted(fmt::format("*:{}:{}", c.argument.name,
                                                values(c.argument.choices, c.argument.names)),
                                    inner);
    out += " ;;\n";
  }
  return out + "  esac\n}\n_norma \"$@\"\n";
}

std::string fish(const std::vector<CommandRow>& table) {
  constexpr std::string_view inner = "\\'";
  std::string out =
      R"sh(# Completions of norma for fish: put this file as norma.fish into its folder of completions.
# Names of the first protocol on the line.
function __norma_names
  set -l file (string match -r '.*\.norma$' -- (commandline -opc))[1]
  if test -n "$file"
    if test $argv[1] = topics
      norma names views $file 2>/dev/null
    else
      norma names $argv[1] $file 2>/dev/null
    end
  else if test $argv[1] = topics
    norma names topics 2>/dev/null
  end
end
)sh";
  for (const CommandRow& c : table) {
    out += fmt::format("complete -c norma -n __fish_use_subcommand -f -a {} -d {}\n", c.name,
                       quoted(c.help, inner));
  }
  for (const CommandRow& c : table) {
    const std::string where =
        fmt::format("complete -c norma -n '__fish_seen_subcommand_from {}'", c.name);
    if (c.argument.name.empty()) out += where + " -f\n";
    if (!c.argument.choices.empty())
      out += fmt::format("{} -f -a '{}'\n", where, joined(c.argument.choices));
    if (!c.argument.names.empty())
      out += fmt::format("{} -a '(__norma_names {})'\n", where, c.argument.names);
    for (const OptionRow& o : c.options) {
      out += where;
      for (const std::string_view name : o.names) {
        out += name.starts_with("--") ? fmt::format(" -l {}", name.substr(2))
                                      : fmt::format(" -s {}", name.substr(1));
      }
      if (!o.value.empty()) {
        const auto words = choices(o);
        if (!words.empty())
          out += fmt::format(" -x -a '{}'", joined(words));
        else if (!o.names_in_file.empty())
          out += fmt::format(" -x -a '(__norma_names {})'", o.names_in_file);
        else
          out += " -r -F";
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
