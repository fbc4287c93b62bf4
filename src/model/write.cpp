#include "model/write.hpp"

#include <fmt/core.h>

namespace norma::model {
namespace {

/// `1/125` stays a fraction for times and stops, as people write them; else `0.03` where six
/// decimals hold the number.
std::string number_text(words::Rational n, words::Dimension dimension = words::Dimension::none) {
  const bool as_fraction =
      dimension == words::Dimension::time || dimension == words::Dimension::stops;
  constexpr std::int64_t million = 1000000;
  if (n.denominator == 1 || million % n.denominator != 0 || (as_fraction && n.numerator == 1)) {
    return words::to_text(n);
  }
  const std::int64_t scaled = n.numerator * (million / n.denominator);
  const std::int64_t size = scaled < 0 ? -scaled : scaled;
  std::string decimals = fmt::format("{:06}", size % million);
  decimals.resize(decimals.find_last_not_of('0') + 1);
  return fmt::format("{}{}.{}", scaled < 0 ? "-" : "", size / million, decimals);
}

std::string measure_text(const words::Measure& m) {
  return m.unit == nullptr
             ? number_text(m.number)
             : fmt::format("{} {}", number_text(m.number, m.dimension()), m.unit->name);
}

struct ToText {
  std::string operator()(const words::Symbol& s) const { return std::string(s.text); }
  std::string operator()(const words::Name& n) const { return std::string(n.text); }
  std::string operator()(const words::Quoted& q) const { return fmt::format("\"{}\"", q.written); }
  std::string operator()(const words::Code& c) const { return std::string(c.text); }
  std::string operator()(const words::Measure& m) const { return measure_text(m); }
  std::string operator()(const words::RatioLiteral& r) const {
    return fmt::format("{}:{}", number_text(r.first), number_text(r.second));
  }
  std::string operator()(const words::FNumberLiteral& f) const {
    return fmt::format("f/{}", number_text(f.number));
  }
  std::string operator()(const words::Date& d) const { return words::to_text(d); }
  std::string operator()(const words::ToothRun& t) const {
    return t.first == t.last ? std::to_string(t.first.iso())
                             : fmt::format("{} to {}", t.first.iso(), t.last.iso());
  }
  std::string operator()(const words::Rectangle& r) const {
    // One unit stands for both where they have the same.
    if (r.width.unit == r.height.unit) {
      return fmt::format("{} x {}", number_text(r.width.number), measure_text(r.height));
    }
    return fmt::format("{} x {}", measure_text(r.width), measure_text(r.height));
  }
};

} // namespace

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') out += '\\';
    out += c;
  }
  return out + "\"";
}

std::string to_text(const words::Value& v) { return std::visit(ToText{}, v.data); }

std::string part_text(const Part& part) {
  std::string out;
  for (const words::Piece& piece : part.pieces) {
    if (!out.empty()) out += ' ';
    out += piece.value == words::Piece::plain ? std::string(piece.word)
                                              : to_text(part.values[piece.value]);
  }
  return out;
}

std::string values_text(const Statement& s) {
  std::string out;
  for (const Part& part : s.parts)
    out += (out.empty() ? "" : ", ") + part_text(part);
  return out;
}

std::string to_text(const Statement& s) {
  std::string out(s.word->name);
  if (!s.key.empty()) out += fmt::format(" {}", s.key);
  const std::string values = values_text(s);
  return values.empty() ? out : out + " " + values;
}

} // namespace norma::model
