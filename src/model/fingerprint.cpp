#include "model/fingerprint.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <numeric>

#include "model/views.hpp"
#include "text/digest.hpp"
#include "text/utf8.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

/// A text in normal form C, its ends marked so that it cannot run into what stands beside it.
std::string text_form(std::string_view text) {
  std::string out = "\"";
  for (const char c : text::normal_form(text)) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string rational_form(words::Rational r) {
  return fmt::format("{}/{}", r.numerator, r.denominator);
}

/// In the base unit of its dimension: `22 mm` and `2.2 cm` are the same.
std::string measure_form(const words::Measure& m) {
  if (m.unit == nullptr) return rational_form(m.number);
  const words::Rational f = m.unit->factor;
  std::int64_t n = m.number.numerator;
  std::int64_t d = m.number.denominator;
  // Reduced crosswise first: nine digits times a factor fit then.
  const std::int64_t a = std::gcd(n, f.denominator);
  const std::int64_t b = std::gcd(f.numerator, d);
  n = (n / a) * (f.numerator / b);
  d = (d / b) * (f.denominator / a);
  return fmt::format("{}/{} {}", n, d, words::base_unit(m.unit->dimension));
}

struct Form {
  std::string operator()(const words::Symbol& s) const { return std::string(s.text); }
  std::string operator()(const words::Name& n) const { return std::string(n.text); }
  std::string operator()(const words::Quoted& q) const { return text_form(q.text()); }
  std::string operator()(const words::Code& c) const { return std::string(c.text); }
  std::string operator()(const words::Measure& m) const { return measure_form(m); }
  std::string operator()(const words::RatioLiteral& r) const {
    // 2:4 is 1:2.
    const std::int64_t n = r.first.numerator * r.second.denominator;
    const std::int64_t d = r.first.denominator * r.second.numerator;
    const std::int64_t g = std::gcd(n, d);
    return fmt::format("{}:{}", n / g, d / g);
  }
  std::string operator()(const words::FNumberLiteral& f) const {
    return "f/" + rational_form(f.number);
  }
  std::string operator()(const words::Date& d) const { return words::to_text(d); }
  std::string operator()(const words::ToothRun& t) const {
    std::string out;
    const auto teeth = words::run_of(t.first, t.last);
    for (const physics::Tooth tooth : *teeth)
      out += fmt::format("{}{}", out.empty() ? "" : " ", tooth.iso());
    return out;
  }
  std::string operator()(const words::Rectangle& r) const {
    return measure_form(r.width) + " x " + measure_form(r.height);
  }
};

std::string value_form(const words::Value& v) { return std::visit(Form{}, v.data); }

/// One name for each surface.
std::string_view surface_form(std::string_view surface) {
  if (surface == "buccal" || surface == "labial") return "facial";
  if (surface == "incisal") return "occlusal";
  if (surface == "palatal") return "lingual";
  return surface;
}

/// Parts that name teeth, tooth by tooth: `facial 11`.
void add_teeth(const Statement& s, std::vector<std::string>& out) {
  std::string_view surface = "facial";
  for (const Part& part : s.parts) {
    if (part.clause->slot != "teeth") continue;
    for (const words::Value& v : part.values) {
      if (!v.symbol().empty()) surface = surface_form(v.symbol());
      const auto* run = v.as<words::ToothRun>();
      if (run == nullptr) continue;
      const auto teeth = words::run_of(run->first, run->last);
      for (const physics::Tooth tooth : *teeth)
        out.push_back(fmt::format("teeth={} {}", surface, tooth.iso()));
    }
  }
}

std::string statement_form(const Statement& s) {
  std::vector<std::string> parts;
  const bool of_teeth = std::any_of(s.word->clauses.begin(), s.word->clauses.end(),
                                    [](const words::Clause& c) { return c.slot == "teeth"; }) &&
                        s.word->name != "for";
  if (of_teeth) add_teeth(s, parts);
  for (const Part& part : s.parts) {
    if (of_teeth && part.clause->slot == "teeth") continue;
    std::string form;
    for (const words::Piece& piece : part.pieces) {
      if (!form.empty()) form += ' ';
      if (piece.value == words::Piece::plain) {
        form += piece.word;
      } else if (part.clause->slot == "that") {
        form += surface_form(part.values[piece.value].symbol());
      } else {
        form += value_form(part.values[piece.value]);
      }
    }
    parts.push_back(fmt::format("{}={}", part.clause->slot, form));
  }
  // The order of parts says nothing, but for the order in which steps and texts are said.
  std::sort(parts.begin(), parts.end());
  parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
  std::string out(s.word->name);
  if (!s.key.empty()) out += fmt::format(" {}", s.key);
  for (const std::string& part : parts)
    out += "; " + part;
  return out;
}

bool shapes_the_picture(words::Effect e) {
  return e == words::Effect::framing || e == words::Effect::scale ||
         e == words::Effect::sharpness || e == words::Effect::light ||
         e == words::Effect::orientation;
}

/// Lines of statements in the order of the table of words; several of a list word keep theirs.
void add_lines(const std::vector<Statement>& statements, bool pictures, std::string_view indent,
               std::string& out) {
  std::vector<const Statement*> order;
  for (const Statement& s : statements)
    order.push_back(&s);
  std::stable_sort(order.begin(), order.end(), [](const Statement* a, const Statement* b) {
    return std::tie(a->word, a->key) < std::tie(b->word, b->key);
  });
  for (const Statement* s : order) {
    const std::string_view word = s->word->name;
    if (word == "revision" || word == "adopted" || word == "review by") continue;
    if (pictures && !shapes_the_picture(s->word->effect)) continue;
    out += fmt::format("{}{}\n", indent, statement_form(*s));
  }
}

std::string form(const Declared& declared, const std::optional<Group>& group, bool pictures) {
  std::string out = fmt::format("norma canonical 1 {}\n", pictures ? "pictures" : "everything");
  diag::Findings quiet;
  if (!pictures) {
    out += fmt::format("protocol {} {}\n", declared.name, text_form(declared.title));
  }
  std::vector<Statement> header;
  for (const Statement& s : declared.header) {
    if (s.word->name != "for") header.push_back(s);
  }
  if (group) out += fmt::format("for {}\n", to_text(*group));
  add_lines(header, pictures, "", out);

  Views views(declared, group, quiet);
  std::vector<const DeclaredView*> order;
  for (const DeclaredView& v : declared.views)
    order.push_back(&v);
  std::sort(order.begin(), order.end(),
            [](const DeclaredView* a, const DeclaredView* b) { return a->name < b->name; });
  for (const DeclaredView* v : order) {
    out += fmt::format("{} {}", v->kind == ViewKind::mouth ? "view" : "face view", v->name);
    out += pictures ? "\n" : fmt::format(" {}\n", text_form(v->title));
    const auto* statements = v->heading.broken ? nullptr : views.statements_of(v->name);
    if (statements != nullptr) add_lines(*statements, pictures, "  ", out);
  }
  if (pictures) return out;
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

} // namespace norma::model
