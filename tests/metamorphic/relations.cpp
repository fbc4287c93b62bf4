#include "relations.hpp"

#include <doctest/doctest.h>
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <regex>
#include <tuple>

#include "cli/run.hpp"
#include "kits.hpp"
#include "support/support.hpp"
#include "words/codes.hpp"

namespace norma::test::meta {
namespace {

using Files = std::vector<std::string>;

constexpr const char* kit_files[] = {"one.yaml", "two.yaml"};

std::vector<std::string> command(std::string_view name, const Files& files, const Files& kits,
                                 const Files& more = {}) {
  std::vector<std::string> out{std::string(name)};
  for (const std::string& kit : kits)
    out.insert(out.end(), {"--kit", kit});
  out.insert(out.end(), more.begin(), more.end());
  out.insert(out.end(), files.begin(), files.end());
  return out;
}
std::string check(const Files& files, const Files& kits, Files more = {}) {
  more.insert(more.end(), {"--format", "json"});
  return norma(command("check", files, kits, more));
}
std::string plan(const Files& files, const Files& kits, const Files& more = {}) {
  return norma(command("plan", files, kits, more));
}

void append(Lines& to, Lines from) {
  to.insert(to.end(), std::make_move_iterator(from.begin()), std::make_move_iterator(from.end()));
}
Lines with(std::string_view before, Lines lines) {
  for (std::string& line : lines)
    line = std::string(before) + line;
  return lines;
}

/// The names of the series, in the order of the text.
Files series_of(const Statement& protocol) {
  Files out;
  for (const Statement& s : protocol.body) {
    if (s.is("series")) out.push_back(s.name());
  }
  return out;
}

/// The view that a part of a series names.
std::string view_in(const Part& part) {
  const auto view = std::find_if(part.pieces.begin(), part.pieces.end(),
                                 [](const Piece& p) { return p.kind == Piece::Kind::view; });
  return view == part.pieces.end() ? std::string() : view->text;
}

/// All that is said of a file with the first kit.
Lines told(const Case& c, const std::string& file, Also also, bool lists = true) {
  const Files kits{kit_files[0]};
  Lines out = findings_of(check({file}, kits), also);
  append(out, facts_of(plan({file}, kits)));
  if (!lists) return out;
  for (const std::string& name : series_of(c.protocol)) {
    append(out, with("list: ", lines_of(norma(command("list", {file}, kits, {"--series", name})))));
  }
  append(out, with("chairs: ", lines_of(norma(command("chairs", {file}, kits)))));
  return out;
}

void put_kits(const Case& c) {
  for (std::size_t i = 0; i < c.kits.size(); ++i)
    write_file(kit_files[i], c.kits[i]);
}
std::string put(const std::string& file, const std::string& text) {
  write_file(file, text);
  return text;
}

Lines mapped(Lines lines, std::string (*change)(std::string_view)) {
  for (std::string& line : lines)
    line = change(line);
  return lines;
}

// Left and right ---------------------------------------------------------------------------------

std::string sides_in_text(const std::string& text) {
  static const std::regex side("\\b(left|right|Left|Right)\\b");
  const std::map<std::string, std::string> other{
      {"left", "right"}, {"right", "left"}, {"Left", "Right"}, {"Right", "Left"}};
  std::string out;
  std::size_t at = 0;
  for (std::sregex_iterator it(text.begin(), text.end(), side), end; it != end; ++it) {
    const auto begin = static_cast<std::size_t>(it->position());
    out += text.substr(at, begin - at) + other.at(it->str());
    at = begin + static_cast<std::size_t>(it->length());
  }
  return out + text.substr(at);
}

Statement mirrored(Statement protocol) {
  each(protocol, [](Statement& s) {
    s.key = sides_in_text(s.key);
    for (Part& part : s.parts) {
      for (Piece& p : part.pieces) {
        if (p.kind == Piece::Kind::symbol || p.kind == Piece::Kind::text)
          p.text = sides_in_text(p.text);
        if (p.kind == Piece::Kind::code) {
          const words::ViewCode* other = words::other_side(*words::find_code(p.text));
          p.text = other->code;
        }
        if (p.kind != Piece::Kind::teeth) continue;
        for (std::size_t i = 0; i + 1 < p.text.size(); ++i) {
          if (std::isdigit(static_cast<unsigned char>(p.text[i])) == 0) continue;
          // Quadrants 1 and 2, 3 and 4, 5 and 6, 7 and 8 change over.
          p.text[i] = static_cast<char>('0' + ((p.text[i] - '1') ^ 1) + 1);
          ++i;
        }
      }
    }
  });
  return protocol;
}

/// Does a view have a code of one side that has no counterpart (EV41, the face from obliquely ahead
/// as the standard's table has it)? Then there is no other side to say.
bool has_code_of_one_side(Statement protocol) {
  bool found = false;
  each(protocol, [&](Statement& s) {
    for (const Part& part : s.parts) {
      for (const Piece& p : part.pieces) {
        if (p.kind != Piece::Kind::code) continue;
        const words::ViewCode* code = words::find_code(p.text);
        const bool sideways = code->row == "A" || code->row == "P";
        found = found || (sideways && words::other_side(*code) == code);
      }
    }
  });
  return found;
}

Outcome sides_exchanged(const Case& c) {
  Outcome out;
  if (has_code_of_one_side(c.protocol)) return out;
  out.first = put("a.norma", file_text(c.protocol));
  put_kits(c);
  const Lines first = told(c, "a.norma", {}, false);
  out.second = put("a.norma", file_text(mirrored(c.protocol)));
  write_file(kit_files[0], kit_of_other_side(c.kits[0]));
  const Lines second = told(c, "a.norma", {}, false);
  // Where several teeth are missing the first one from the right is named; steps on both sides go
  // from the right, too.
  const auto without_digests = [](Lines lines) {
    static const std::regex tied("tooth [0-9]{2}(?=, which the protocol says is missing)"
                                 "|place of [0-9]{2}(?= in the arch of)|step no_[0-9]+"
                                 "|[+] to the patient's right");
    for (std::string& line : lines)
      line = std::regex_replace(line, tied, "");
    lines.erase(std::remove_if(lines.begin(), lines.end(),
                               [](const std::string& l) {
                                 return l.find("fingerprint") != std::string::npos;
                               }),
                lines.end());
    return lines;
  };
  out.difference = without_rounding(
      difference_of(mapped(mapped(without_digests(first), side_changed), words_in_order),
                    mapped(without_digests(second), words_in_order)));
  return out;
}

// Order ------------------------------------------------------------------------------------------

/// Another order of `body`, in which those of one `family` keep theirs.
template <class Family> void reorder(std::vector<Statement>& body, Dice& dice, Family family) {
  std::vector<std::string> order;
  for (std::size_t i = 0; i < body.size(); ++i) {
    const std::string f = family(body[i]);
    order.push_back(f.empty() ? "#" + std::to_string(i) : f);
  }
  std::vector<std::string> of = order;
  dice.shuffle(order);
  std::vector<Statement> out;
  std::vector<bool> used(body.size());
  for (const std::string& f : order) {
    for (std::size_t i = 0; i < body.size(); ++i) {
      if (used[i] || of[i] != f) continue;
      used[i] = true;
      out.push_back(body[i]);
      break;
    }
  }
  body = std::move(out);
}

/// Ids by themselves: of findings at the same words the first one in the text has the first.
Lines ids_apart(const Lines& lines) {
  Lines out;
  for (const std::string& line : lines) {
    const std::size_t at = line.find(" | id ");
    if (at == std::string::npos) {
      out.push_back(line);
      continue;
    }
    const std::size_t end = std::min(line.find(" | ", at + 1), line.size());
    out.push_back(line.substr(0, at) + line.substr(end));
    out.push_back(line.substr(at + 3, end - at - 3));
  }
  return out;
}

Outcome compared(const Case& c, const Statement& other, Also also, bool lists = true,
                 std::string (*change)(std::string_view) = nullptr) {
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  Lines first = told(c, "a.norma", also, lists);
  out.second = put("a.norma", file_text(other));
  Lines second = told(c, "a.norma", also, lists);
  if (also.ids) {
    first = ids_apart(first);
    second = ids_apart(second);
  }
  if (change != nullptr) {
    first = mapped(std::move(first), change);
    second = mapped(std::move(second), change);
  }
  out.difference = difference_of(std::move(first), std::move(second));
  return out;
}

Outcome statements_reordered(const Case& c) {
  Dice dice(c.seed);
  Statement other = c.protocol;
  each(other, [&](Statement& s) {
    reorder(s.body, dice, [](const Statement& one) -> std::string {
      // Views have a relation of their own; what is said several times is said in an order.
      if (one.is_view()) return "view";
      const bool list = one.row->repeat == words::Repeat::list;
      return list || !one.mention.empty() ? std::string(one.row->name) : std::string();
    });
  });
  // Findings go by place; so a checklist is held against another one by its lines.
  return compared(c, other, {true, false, true});
}

Outcome parts_reordered(const Case& c) {
  Dice dice(c.seed);
  Statement other = c.protocol;
  each(other, [&](Statement& s) {
    if (s.is("series")) return; // a name goes on with the row that it stands behind
    const auto& clauses = s.row->clauses;
    std::vector<std::size_t> order;
    std::vector<Part> leading;
    std::vector<Part> rest;
    for (const Part& p : s.parts)
      (clauses[p.clause].leads ? leading : rest).push_back(p);
    for (const Part& p : rest)
      order.push_back(p.clause);
    dice.shuffle(order);
    std::vector<bool> used(rest.size());
    for (const std::size_t clause : order) {
      for (std::size_t i = 0; i < rest.size(); ++i) {
        if (used[i] || rest[i].clause != clause) continue;
        used[i] = true;
        leading.push_back(rest[i]);
        break;
      }
    }
    s.parts = std::move(leading);
  });
  // What is printed as it is written comes in the writer's order.
  return compared(c, other, {}, false, words_in_order);
}

Outcome views_reordered(const Case& c) {
  Dice dice(c.seed);
  Statement other = c.protocol;
  std::vector<Statement> views;
  for (const Statement& s : other.body) {
    if (s.is_view()) views.push_back(s);
  }
  dice.shuffle(views);
  std::size_t next = 0;
  for (Statement& s : other.body) {
    if (s.is_view()) s = views[next++];
  }
  return compared(c, other, {}, false);
}

// Names ------------------------------------------------------------------------------------------

Outcome views_renamed(const Case& c) {
  Dice dice(c.seed);
  std::map<std::string, std::string> names;
  Statement other = c.protocol;
  each(other, [&](const Statement& s) {
    if (s.is_view()) names.emplace(s.name(), draw_name(dice));
  });
  std::map<std::string, std::string> back;
  for (const auto& [from, to] : names)
    back.emplace(to, from);
  each(other, [&](Statement& s) {
    for (Part& part : s.parts) {
      for (Piece& p : part.pieces) {
        if (p.kind == Piece::Kind::view && names.count(p.text) == 1) p.text = names[p.text];
      }
    }
  });
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  Lines first = told(c, "a.norma", {false, false, true}, false);
  out.second = put("a.norma", file_text(other));
  Lines second = told(c, "a.norma", {false, false, true}, false);
  static const std::regex name("[a-z]+_[0-9]+");
  for (std::string& line : second) {
    std::string renamed;
    std::size_t at = 0;
    for (std::sregex_iterator it(line.begin(), line.end(), name), end; it != end; ++it) {
      const auto begin = static_cast<std::size_t>(it->position());
      const auto found = back.find(it->str());
      renamed += line.substr(at, begin - at) + (found == back.end() ? it->str() : found->second);
      at = begin + static_cast<std::size_t>(it->length());
    }
    line = renamed + line.substr(at);
  }
  const auto digest = [](const std::string& l) {
    return l.find("fingerprint") != std::string::npos;
  };
  for (Lines* lines : {&first, &second})
    lines->erase(std::remove_if(lines->begin(), lines->end(), digest), lines->end());
  out.difference = difference_of(std::move(first), std::move(second));
  return out;
}

// Base and extension -----------------------------------------------------------------------------

/// These stay with the document that says them (docs/language.md).
bool of_the_document(const Statement& s) {
  return s.is("revision") || s.is("adopted") || s.is("review by");
}

/// Parts a block's statements: what stays, and what is moved. All that is said of one word goes the
/// same way; `decoys`: in place of what is moved something else may stay, to be replaced.
void part_block(const std::vector<Statement>& body, Dice& dice, double share, bool decoys,
                std::vector<Statement>& stays, std::vector<Statement>& moved) {
  std::map<std::string_view, bool> goes;
  for (const Statement& s : body) {
    const auto [entry, fresh] =
        goes.emplace(s.row->name, dice.chance(share) || s.is("others must keep"));
    static_cast<void>(fresh);
    if (!entry->second) {
      stays.push_back(s);
      continue;
    }
    const bool alone = s.row->repeat == words::Repeat::once;
    if (decoys && alone && s.mention.empty() && !s.block && !s.is("others must keep") &&
        dice.chance(0.4)) {
      stays.push_back(draw_like(s, dice));
    }
    moved.push_back(s);
  }
}

/// The protocol as a base and an extension. `decoys`: words of the base that are replaced.
std::pair<Statement, Statement> base_and_own(const Case& c, bool decoys) {
  Dice dice(c.seed);
  Statement base = c.protocol;
  Statement own = c.protocol;
  base.name() = draw_name(dice);
  base.body.clear();
  own.body.clear();
  own.body.push_back(made("builds on", words::in_protocol,
                          {{0,
                            {{Piece::Kind::other, base.name()},
                             {Piece::Kind::plain, "from"},
                             {Piece::Kind::text, "\"base.norma\""}}}}));
  const auto because = [&](std::string_view row, const std::string& name) {
    return made(row, words::in_protocol,
                {{0,
                  {{Piece::Kind::view, name},
                   {Piece::Kind::plain, "because"},
                   {Piece::Kind::text, "\"ours differs\""}}}});
  };
  // A view that nothing else names can be the extension's own.
  std::map<std::string, int> named;
  each(c.protocol, [&](const Statement& s) {
    for (const Part& part : s.parts) {
      for (const Piece& p : part.pieces)
        named[p.text] += p.kind == Piece::Kind::view ? 1 : 0;
    }
  });
  std::vector<Statement> header;
  std::set<std::string> in_base;
  bool series_of_own = dice.chance(0.3);
  for (const Statement& s : c.protocol.body) {
    if (s.is_view()) {
      std::size_t in_series = 0;
      for (const Statement& series : c.protocol.body) {
        if (!series.is("series")) continue;
        for (const Part& part : series.parts)
          in_series += view_in(part) == s.name() ? 1 : 0;
      }
      const bool alone = named[s.name()] == 1 + static_cast<int>(in_series);
      if (alone && dice.chance(0.3)) {
        own.body.push_back(s);
        continue;
      }
      in_base.insert(s.name());
      Statement there = s;
      Statement change = because("change view", s.name());
      change.block = true;
      there.body.clear();
      part_block(s.body, dice, 0.3, decoys, there.body, change.body);
      base.body.push_back(there);
      if (!change.body.empty()) own.body.push_back(change);
    } else if (s.block) {
      Statement there = s;
      Statement over = s;
      there.body.clear();
      over.body.clear();
      part_block(s.body, dice, 0.3, decoys, there.body, over.body);
      base.body.push_back(there);
      if (!over.body.empty()) own.body.push_back(over);
    } else if (s.is("series")) {
      const bool whole = std::all_of(s.parts.begin(), s.parts.end(), [&](const Part& part) {
        return in_base.count(view_in(part)) == 1;
      });
      // The first of several series is named: they go the same way, or their order changes.
      if (!whole || series_of_own) {
        series_of_own = true;
        own.body.push_back(s);
        continue;
      }
      Statement there = s;
      if (dice.chance(0.5)) {
        there.parts.resize(1);
        Statement change = s;
        change.row = &row_of("change series", words::in_protocol);
        own.body.push_back(change);
      }
      base.body.push_back(there);
    } else if (s.is("accept") || of_the_document(s)) {
      own.body.push_back(s);
    } else {
      header.push_back(s);
    }
  }
  part_block(header, dice, 0.4, decoys, base.body, own.body);
  if (dice.chance(0.3)) {
    Statement extra =
        made("view", words::in_protocol, {{0, {{Piece::Kind::view, draw_name(dice)}}}});
    extra.block = true;
    base.body.push_back(extra);
    own.body.push_back(because("drop view", extra.name()));
  }
  return {std::move(base), std::move(own)};
}

Outcome split_in_two(const Case& c) {
  Outcome out;
  put_kits(c);
  // A base is a protocol that can be read; what only the whole protocol makes sense of is left.
  auto [base, own] = base_and_own(c, true);
  if (!well_formed({base, {}, 0})) std::tie(base, own) = base_and_own(c, false);
  if (!well_formed({base, {}, 0})) return out;
  note_drawn(base, drawn_by_relations());
  note_drawn(own, drawn_by_relations());
  out.first = put("a.norma", file_text(c.protocol));
  const Lines first = told(c, "a.norma", {}, false);
  out.second = put("base.norma", file_text(base)) + "\n" + put("a.norma", file_text(own));
  Lines second = told(c, "a.norma", {}, false);
  out.difference = difference_of(first, second);
  return out;
}

// Layout -----------------------------------------------------------------------------------------

std::string laid_out(const std::string& text, Dice& dice) {
  const bool crlf = dice.chance(0.5);
  std::string out = dice.chance(0.3) ? "# a first line, with a \" and a {\n\n" : "";
  for (std::string line : lines_of(text)) {
    const std::size_t from = line.find_first_not_of(' ');
    line = std::string(dice.below(7), dice.chance(0.2) ? '\t' : ' ') + line.substr(from);
    // Blanks between words, outside of texts.
    std::string wide;
    bool quoted = false;
    for (std::size_t i = 0; i < line.size(); ++i) {
      if (line[i] == '"' && (i == 0 || line[i - 1] != '\\')) quoted = !quoted;
      wide += line[i];
      if (!quoted && line[i] == ' ' && dice.chance(0.1)) wide += "  ";
    }
    out += wide;
    if (dice.chance(0.2)) out += "   # why: { \"so\" }, and more";
    out += "\n";
    if (dice.chance(0.1)) out += "\n\n";
    if (dice.chance(0.1)) out += "  # ratio 1:2\n";
  }
  if (!crlf) return out;
  std::string ends;
  for (const char ch : out)
    ends += ch == '\n' ? "\r\n" : std::string(1, ch);
  return ends;
}

Outcome laid_out_otherwise(const Case& c, Also also) {
  Dice dice(c.seed);
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  const Lines first = told(c, "a.norma", also);
  out.second = put("a.norma", laid_out(out.first, dice));
  out.difference = difference_of(first, told(c, "a.norma", also));
  if (!out.difference.none()) return out;
  norma({"tidy", "a.norma"});
  out.second = read_file("a.norma");
  out.difference = difference_of(first, told(c, "a.norma", also));
  if (norma({"tidy", "--check", "a.norma"}) != "")
    out.difference.only_second.push_back("tidied, it is not in the one layout");
  return out;
}

Outcome another_layout(const Case& c) { return laid_out_otherwise(c, {false, false, true}); }
Outcome ids_in_another_layout(const Case& c) { return laid_out_otherwise(c, {true, false, true}); }

// Runs over more than one ------------------------------------------------------------------------

/// An accepted finding that comes up with one kit, in one group, or in a protocol that builds on
/// this one has met what it is for.
Lines without_exceptions(Lines lines) {
  lines.erase(std::remove_if(lines.begin(), lines.end(),
                             [](const std::string& l) {
                               return l.find("R020 ") != std::string::npos ||
                                      l.find("which is accepted, comes up") != std::string::npos;
                             }),
              lines.end());
  return lines;
}

/// Checklists by their entries, each on one line. What is said of exceptions is left out: it
/// depends on all files, groups and kits of a run.
Lines entries_of(const std::string& text) {
  Lines out;
  for (const std::string& line : lines_of(text)) {
    if (line.starts_with("    ") && !out.empty())
      out.back() += line.substr(3);
    else
      out.push_back(line);
  }
  out = without_exceptions(std::move(out));
  // On a list the code stands behind the message; the first page has the numbers of them all.
  out.erase(std::remove_if(out.begin(), out.end(),
                           [](const std::string& l) {
                             return l.find("[R020]") != std::string::npos ||
                                    l.starts_with("  - For the lead, on the last sheet: ");
                           }),
            out.end());
  return out;
}

/// What stands against it on a checklist, or on several; or all the rest.
Lines part_of_list(const std::string& text, bool against) {
  Lines out;
  bool inside = false;
  for (const std::string& line : entries_of(text)) {
    if (line == "What stands against it") inside = true;
    if (line == "Not checked") inside = false;
    if (inside == against) out.push_back(line);
  }
  return out;
}

/// The file of the case, another protocol, and one that builds on the first.
Files three_files(const Case& c, Outcome& out) {
  Dice dice(c.seed);
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  Case other{draw_protocol(dice), c.kits, 0};
  mend(other);
  out.first += "\n" + put("b.norma", file_text(other.protocol));
  std::string on =
      fmt::format("norma 1\nprotocol {} \"Built\" {{\n  builds on {} from \"a.norma\"\n",
                  draw_name(dice), c.protocol.name());
  for (const Statement& s : c.protocol.body) {
    if (s.is_view() && dice.chance(0.5))
      on += fmt::format("  change view {} because \"x\" {{ iso 800 }}\n", s.name());
  }
  out.first += "\n" + put("c.norma", on + "}\n");
  out.second = "each file alone";
  return {"a.norma", "b.norma", "c.norma"};
}

Outcome many_files(const Case& c) {
  Outcome out;
  const Files files = three_files(c, out);
  const Files kits{kit_files[0]};
  constexpr Also also{false, true, false};
  const std::string all = check(files, kits, {"--threads", "1"});
  for (const char* threads : {"2", "5"}) {
    if (check(files, kits, {"--threads", threads}) != all)
      out.difference.only_second.push_back(fmt::format("with {} threads", threads));
  }
  Lines together = findings_of(all, also);
  append(together, facts_of(plan(files, kits)));
  append(together, with("chairs: ", lines_of(norma(command("chairs", files, kits)))));
  Lines alone;
  for (const std::string& file : files) {
    append(alone, findings_of(check({file}, kits), also));
    append(alone, facts_of(plan({file}, kits)));
    append(alone, with("chairs: ", lines_of(norma(command("chairs", {file}, kits)))));
  }
  const Difference d = difference_of_sets(without_exceptions(together), without_exceptions(alone));
  append(out.difference.only_first, d.only_first);
  append(out.difference.only_second, d.only_second);
  return out;
}

Outcome ids_of_many_files(const Case& c) {
  Outcome out;
  const Files files = three_files(c, out);
  const Files kits{kit_files[0]};
  constexpr Also also{true, true, false};
  const Lines together = findings_of(check(files, kits), also);
  Lines alone;
  for (const std::string& file : files)
    append(alone, findings_of(check({file}, kits), also));
  out.difference = difference_of_sets(without_exceptions(together), without_exceptions(alone));
  return out;
}

Outcome several_kits(const Case& c) {
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  out.second = "each kit alone";
  const Files files{"a.norma"};
  const Files kits{kit_files[0], kit_files[1]};
  constexpr Also also{true, true, false};
  Lines together = findings_of(check(files, kits), also);
  append(together, facts_of(plan(files, kits)));
  append(together, with("list: ", entries_of(norma(command("list", files, kits)))));
  Lines alone;
  for (const std::string& kit : kits) {
    append(alone, findings_of(check(files, {kit}), also));
    append(alone, facts_of(plan(files, {kit})));
    append(alone, with("list: ", entries_of(norma(command("list", files, {kit})))));
  }
  out.difference = difference_of_sets(without_exceptions(together), without_exceptions(alone));
  return out;
}

/// The cells of a table of `chairs`, told by view and kit.
Lines cells(const std::string& text) {
  Lines out;
  Lines head;
  static const std::regex gap(" {2,}");
  for (const std::string& line : lines_of(text)) {
    Lines parts(std::sregex_token_iterator(line.begin(), line.end(), gap, -1),
                std::sregex_token_iterator());
    if (parts.front() == "view") {
      head = parts;
    } else if (line.starts_with("yes: ")) {
      break;
    } else if (parts.front() != "the protocol") { // R020 is told where no kit of the run has met it
      for (std::size_t i = 1; i < parts.size() && i < head.size(); ++i)
        out.push_back(fmt::format("view {} with {}: {}", parts[0], head[i], parts[i]));
    }
  }
  return out;
}

Outcome chairs_side_by_side(const Case& c) {
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  out.second = "each kit alone";
  const Lines together = cells(norma(command("chairs", {"a.norma"}, {kit_files[0], kit_files[1]})));
  Lines alone;
  for (const char* kit : kit_files)
    append(alone, cells(norma(command("chairs", {"a.norma"}, {kit}))));
  out.difference = difference_of(together, alone);
  return out;
}

/// Words of a text in one line: checklists are broken into lines.
std::string flowing(const std::string& text) {
  std::string out;
  for (const char ch : text) {
    const bool blank = ch == ' ' || ch == '\n';
    if (!blank || (!out.empty() && out.back() != ' ')) out += blank ? ' ' : ch;
  }
  return out;
}

Outcome beside_other_lists(const Case& c, bool against) {
  Outcome out;
  const Files files = three_files(c, out);
  const Files kits{kit_files[0]};
  const Lines together = part_of_list(norma(command("list", files, kits)), against);
  Lines alone;
  for (const std::string& file : files)
    append(alone, part_of_list(norma(command("list", {file}, kits)), against));
  out.difference = difference_of(together, alone);
  if (together != alone && out.difference.none())
    out.difference.only_first.push_back("another order of lines");
  return out;
}

Outcome list_beside_others(const Case& c) { return beside_other_lists(c, false); }
Outcome findings_beside_others(const Case& c) { return beside_other_lists(c, true); }

Outcome list_shows_findings(const Case& c) {
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  out.second = "norma list";
  const Files kits{kit_files[0]};
  const std::string list = flowing(norma(command("list", {"a.norma"}, kits)));
  for (const Shown& f : shown_in(check({"a.norma"}, kits))) {
    const std::string line = flowing(fmt::format("{} [{}]", f.message, f.code));
    if (list.find(line) == std::string::npos)
      out.difference.only_first.push_back(fmt::format("{}with kit `{}`", line + " ", f.kit));
  }
  return out;
}

// Groups -----------------------------------------------------------------------------------------

/// What `said` gives for all groups at once, against each group alone.
template <class Said> Outcome by_groups(const Case& c, Said said) {
  Outcome out;
  put_kits(c);
  out.first = put("a.norma", file_text(c.protocol));
  out.second = "each group alone, by --for";
  std::set<std::string> groups;
  static const std::regex heading("^[a-z_0-9]+ for (.*) with kit_one: title ");
  for (const std::string& line : facts_of(plan({"a.norma"}, {kit_files[0]}))) {
    std::smatch m;
    if (std::regex_search(line, m, heading) && !m[1].str().empty()) groups.insert(m[1]);
  }
  if (groups.empty()) return out; // a protocol for nobody in particular
  Lines alone;
  for (const std::string& group : groups)
    append(alone, said(Files{"--for", group}));
  out.difference = difference_of_sets(without_exceptions(said(Files{})), without_exceptions(alone));
  return out;
}

Outcome groups_alone(const Case& c) {
  return by_groups(c, [](const Files& more) {
    Lines out = findings_of(check({"a.norma"}, {kit_files[0]}, more), {false, true, false});
    append(out, facts_of(plan({"a.norma"}, {kit_files[0]}, more)));
    const auto list = norma(command("list", {"a.norma"}, {kit_files[0]}, more));
    append(out, with("list: ", part_of_list(list, false)));
    return out;
  });
}

Outcome ids_of_groups(const Case& c) {
  return by_groups(c, [](const Files& more) {
    return findings_of(check({"a.norma"}, {kit_files[0]}, more), {true, true, false});
  });
}

Outcome findings_on_lists_of_groups(const Case& c) {
  return by_groups(c, [](const Files& more) {
    const auto list = norma(command("list", {"a.norma"}, {kit_files[0]}, more));
    return with("list: ", part_of_list(list, true));
  });
}

// Comparisons ------------------------------------------------------------------------------------

/// What a comparison of both texts of a relation says of them: the classes that there are beside
/// none and those of `may_be`.
template <Outcome (*of)(const Case&)> Outcome compared_alike(const Case& c, Lines may_be) {
  Outcome out = of(c);
  out.difference = {};
  if (out.first.empty() || out.second.empty()) return out;
  norma({"tidy", "a.norma"}); // one more difference that is none
  put("before.norma", out.first);
  const std::string said =
      norma(command("compare", {"before.norma", "a.norma"}, {kit_files[0]}, {"--format", "json"}));
  static const std::regex effect("\"effect\": \"([a-z]+)\"");
  may_be.push_back("none");
  for (std::sregex_iterator it(said.begin(), said.end(), effect), end; it != end; ++it) {
    const std::string found = (*it)[1];
    if (std::find(may_be.begin(), may_be.end(), found) == may_be.end())
      out.difference.only_second.push_back("a change: " + found);
  }
  if (said.find("\"effect\"") == std::string::npos) out.difference.only_second.push_back(said);
  return out;
}

Outcome compared_reordered(const Case& c) { return compared_alike<statements_reordered>(c, {}); }
Outcome compared_parts(const Case& c) { return compared_alike<parts_reordered>(c, {}); }
Outcome compared_views(const Case& c) { return compared_alike<views_reordered>(c, {}); }
Outcome compared_renamed(const Case& c) { return compared_alike<views_renamed>(c, {"wording"}); }
Outcome compared_laid_out(const Case& c) { return compared_alike<another_layout>(c, {}); }
Outcome compared_split(const Case& c) { return compared_alike<split_in_two>(c, {}); }

constexpr Relation all_relations[] = {
    {"sides exchanged", sides_exchanged},
    {"statements in another order", statements_reordered},
    {"parts of statements in another order", parts_reordered},
    {"views in another order", views_reordered},
    {"views renamed", views_renamed},
    {"split into a base and an extension", split_in_two},
    {"another layout", another_layout},
    {"ids in another layout", ids_in_another_layout},
    {"many files in one run", many_files},
    {"ids in a run of many files", ids_of_many_files},
    {"several kits in one run", several_kits},
    {"chairs side by side", chairs_side_by_side},
    {"a list beside other lists", list_beside_others},
    {"findings of a list beside other lists", findings_beside_others},
    {"a list shows all findings", list_shows_findings},
    {"a group alone", groups_alone},
    {"ids of a group alone", ids_of_groups},
    {"findings of a list of a group alone", findings_on_lists_of_groups},
    {"compared: statements in another order", compared_reordered},
    {"compared: parts in another order", compared_parts},
    {"compared: views in another order", compared_views},
    {"compared: views renamed", compared_renamed},
    {"compared: another layout", compared_laid_out},
    {"compared: split into a base and an extension", compared_split},
};

} // namespace

std::span<const Relation> relations() { return all_relations; }

std::set<std::string>& drawn_by_relations() {
  static std::set<std::string> drawn;
  return drawn;
}

std::string norma(std::vector<std::string> words) {
  if (words.front() == "check" || words.front() == "plan" || words.front() == "list" ||
      words.front() == "chairs" || words.front() == "compare")
    words.insert(words.begin() + 1, {"--on", "2026-11-25"});
  const cli::Outcome o = cli::run(words);
  return o.code == 2 ? o.err : o.out;
}

} // namespace norma::test::meta
