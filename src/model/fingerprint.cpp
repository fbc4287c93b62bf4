#include "model/fingerprint.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <functional>
#include <map>

#include "model/canonical.hpp"
#include "model/resolve.hpp"
#include "model/views.hpp"
#include "text/digest.hpp"

namespace norma::model {
namespace {

/// All that is said, or what shapes the pictures: of a view of the face, or elsewhere.
enum class Told { everything, pictures, pictures_of_face };

/// A statement's line; of what shapes the picture only the parts that do.
std::string statement_form(const Statement& s, Told told, const NameForm& name) {
  std::string out(s.word->name);
  if (!s.key.empty()) out += fmt::format(" {}", s.key);
  for (const ClauseForm& part : clause_forms(s, name)) {
    if (told != Told::everything && !words::shapes_the_picture(words::effect_of(
                                        *s.word, *part.clause, told == Told::pictures_of_face)))
      continue;
    out += fmt::format("; {}={}", part.clause->slot, part.form);
  }
  return out;
}

/// Lines of statements in the order of the table of words; several of a list word keep theirs.
void add_lines(const std::vector<Statement>& statements, Told told, std::string_view indent,
               const NameForm& name, std::string& out) {
  std::vector<const Statement*> order;
  for (const Statement& s : statements)
    order.push_back(&s);
  std::stable_sort(order.begin(), order.end(), [](const Statement* a, const Statement* b) {
    return std::tie(a->word, a->key) < std::tie(b->word, b->key);
  });
  for (const Statement* s : order) {
    const std::string_view word = s->word->name;
    if (word == "revision" || word == "adopted" || word == "review by") continue;
    if (told != Told::everything &&
        !words::shapes_the_picture(words::effect_of(*s->word, told == Told::pictures_of_face)))
      continue;
    out += fmt::format("{}{}\n", indent, statement_form(*s, told, name));
  }
}

/// The views as they shape the pictures, without their names: in the order of what they say, those
/// that are named in them by their place in it.
std::string nameless(const Declared& declared, Views& views) {
  const auto written = [&](const DeclaredView& v, const NameForm& name) {
    const bool face = v.kind == ViewKind::face;
    std::string out = face ? "face view\n" : "view\n";
    const auto* statements = v.heading.broken ? nullptr : views.statements_of(v.name);
    if (statements != nullptr)
      add_lines(*statements, face ? Told::pictures_of_face : Told::pictures, "  ", name, out);
    return out;
  };
  std::map<std::string, std::string, std::less<>> alone; // by name, other views as `view`
  std::vector<std::string> order;
  for (const DeclaredView& v : declared.views)
    order.push_back(alone[v.name] = written(v, [](std::string_view) { return "view"; }));
  std::sort(order.begin(), order.end());
  const auto number = [&](std::string_view name) -> std::string {
    const auto found = alone.find(name);
    if (found == alone.end()) return std::string(name);
    const auto at = std::lower_bound(order.begin(), order.end(), found->second);
    return std::to_string(at - order.begin() + 1);
  };
  std::vector<std::string> all;
  for (const DeclaredView& v : declared.views)
    all.push_back(written(v, number));
  std::sort(all.begin(), all.end());
  std::string out;
  for (const std::string& view : all)
    out += view;
  return out;
}

std::string form(const Declared& declared, const std::optional<Group>& group, bool pictures) {
  std::string out = fmt::format("norma canonical {} {}\n", fingerprint_edition,
                                pictures ? "pictures" : "everything");
  diag::Findings quiet;
  if (!pictures) {
    out += fmt::format("protocol {} {}\n", declared.name, text_form(declared.title));
  }
  std::vector<Statement> header;
  for (const Statement& s : declared.header) {
    if (s.word->name != "for") header.push_back(s);
  }
  if (group) out += fmt::format("for {}\n", to_text(*group));
  add_lines(header, pictures ? Told::pictures : Told::everything, "", {}, out);

  Views views(declared, group, quiet);
  if (pictures) return out + nameless(declared, views);
  std::vector<const DeclaredView*> order;
  for (const DeclaredView& v : declared.views)
    order.push_back(&v);
  std::sort(order.begin(), order.end(),
            [](const DeclaredView* a, const DeclaredView* b) { return a->name < b->name; });
  for (const DeclaredView* v : order) {
    out += fmt::format("{} {} {}\n", v->kind == ViewKind::mouth ? "view" : "face view", v->name,
                       text_form(v->title));
    const auto* statements = v->heading.broken ? nullptr : views.statements_of(v->name);
    if (statements != nullptr) add_lines(*statements, Told::everything, "  ", {}, out);
  }
  std::vector<std::string> series;
  for (const DeclaredSeries& s : declared.series) {
    std::string line = "series " + s.name + " =";
    for (const Part& part : s.statement.parts) {
      const std::size_t at = part.clause->slot == "first" ? 1 : 0;
      // No name holds a stroke.
      if (part.clause->slot == "laid out" || part.clause->slot == "next row") line += " /";
      line += " " + value_form(part.values[at]);
      if (part.values.size() > at + 1) line += "?";
    }
    series.push_back(line + "\n");
  }
  std::sort(series.begin(), series.end());
  for (const std::string& line : series)
    out += line;
  return out;
}

} // namespace

Canonical canonical(const Declared& declared, const std::optional<Group>& group) {
  return {form(declared, group, true), form(declared, group, false)};
}

Fingerprint fingerprint(const Declared& declared, const std::optional<Group>& group) {
  const Canonical c = canonical(declared, group);
  return {text::sha256(c.pictures), text::sha256(c.everything)};
}

std::string fingerprint_of_all(const Declared& declared) {
  std::vector<std::string> all;
  for (const std::optional<Group>& group : groups_of(declared))
    all.push_back(text::sha256(form(declared, group, false)));
  if (all.size() == 1) return all.front();
  std::string together;
  for (const std::string& one : all)
    together += one + "\n";
  return text::sha256(together);
}

bool is_fingerprint(std::string_view text) {
  constexpr std::size_t least = 12;
  constexpr std::size_t most = 64;
  return text.size() >= least && text.size() <= most &&
         text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

} // namespace norma::model
