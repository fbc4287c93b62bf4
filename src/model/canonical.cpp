#include "model/canonical.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <numeric>

#include "text/utf8.hpp"
#include "words/teeth.hpp"

namespace norma::model {
namespace {

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
  const NameForm& name;
  std::string operator()(const words::Symbol& s) const { return std::string(s.text); }
  std::string operator()(const words::Name& n) const {
    return name ? name(n.text) : std::string(n.text);
  }
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

/// One name for each surface.
std::string_view surface_form(std::string_view surface) {
  if (surface == "buccal" || surface == "labial") return "facial";
  if (surface == "incisal") return "occlusal";
  if (surface == "palatal") return "lingual";
  return surface;
}

/// Clauses that name teeth say the same whichever surface is said how, and in whichever runs.
bool names_teeth(const words::Word& word) {
  return word.name != "for" &&
         std::any_of(word.clauses.begin(), word.clauses.end(),
                     [](const words::Clause& c) { return c.slot == "teeth"; });
}

/// Parts that name teeth, tooth by tooth: `facial 11`.
void add_teeth(const Statement& s, std::vector<ClauseForm>& out) {
  std::string_view surface = "facial";
  for (const Part& part : s.parts) {
    if (part.clause->slot != "teeth") continue;
    for (const words::Value& v : part.values) {
      if (!v.symbol().empty()) surface = surface_form(v.symbol());
      const auto* run = v.as<words::ToothRun>();
      if (run == nullptr) continue;
      const auto teeth = words::run_of(run->first, run->last);
      for (const physics::Tooth tooth : *teeth)
        out.push_back({part.clause, fmt::format("{} {}", surface, tooth.iso())});
    }
  }
}

} // namespace

std::string text_form(std::string_view text) {
  std::string out = "\"";
  for (const char c : text::normal_form(text)) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string value_form(const words::Value& v, const NameForm& name) {
  return std::visit(Form{name}, v.data);
}

std::vector<ClauseForm> clause_forms(const Statement& s, const NameForm& name) {
  std::vector<ClauseForm> out;
  const bool of_teeth = names_teeth(*s.word);
  if (of_teeth) add_teeth(s, out);
  for (const Part& part : s.parts) {
    if (of_teeth && part.clause->slot == "teeth") continue;
    std::string form;
    if (part.clause->slot == "between") { // the same place whichever tooth is named first
      std::vector<std::string> teeth{value_form(part.values[0], name),
                                     value_form(part.values[1], name)};
      std::sort(teeth.begin(), teeth.end());
      out.push_back({part.clause, fmt::format("between {} and {}", teeth[0], teeth[1])});
      continue;
    }
    for (const words::Piece& piece : part.pieces) {
      if (!form.empty()) form += ' ';
      if (piece.value == words::Piece::plain) {
        form += piece.word;
      } else if (part.clause->slot == "that") {
        form += surface_form(part.values[piece.value].symbol());
      } else {
        form += value_form(part.values[piece.value], name);
      }
    }
    out.push_back({part.clause, std::move(form)});
  }
  // The order of parts says nothing, but for the order in which steps and texts are said.
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

} // namespace norma::model
