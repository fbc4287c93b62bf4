#include "model/content.hpp"

#include <cstring>

namespace norma::model {
namespace {

class Writer {
 public:
  explicit Writer(std::string& out) : out_(out) {}

  void operator()(const words::Symbol& s) { text(s.text); }
  void operator()(const words::Name& n) { text(n.text); }
  void operator()(const words::Quoted& q) { text(q.written); }
  void operator()(const words::Code& c) { text(c.text); }
  void operator()(const words::Measure& m) {
    number(m.number);
    address(m.unit);
  }
  void operator()(const words::RatioLiteral& r) {
    number(r.first);
    number(r.second);
  }
  void operator()(const words::FNumberLiteral& f) { number(f.number); }
  void operator()(const words::Date& d) {
    bytes(d.year);
    bytes(d.month);
    bytes(d.day);
  }
  void operator()(const words::ToothRun& t) {
    bytes(t.first.iso());
    bytes(t.last.iso());
  }
  void operator()(const words::Rectangle& r) {
    (*this)(r.width);
    (*this)(r.height);
  }

  /// Length first, so that what follows cannot be taken for a part of it.
  void text(std::string_view s) {
    bytes(static_cast<std::uint32_t>(s.size()));
    out_ += s;
  }
  /// Rows of the tables of words and units stay where they are while the program runs.
  void address(const void* row) { bytes(row); }
  template <class T> void bytes(const T& value) {
    char raw[sizeof(T)];
    std::memcpy(raw, &value, sizeof(T));
    out_.append(raw, sizeof(T));
  }

 private:
  void number(words::Rational r) {
    bytes(r.numerator);
    bytes(r.denominator);
  }
  std::string& out_;
};

} // namespace

void write_content(const std::vector<Statement>& statements, std::string& out) {
  Writer write(out);
  for (const Statement& s : statements) {
    write.address(s.word);
    write.bytes(s.broken);
    write.text(s.key);
    write.bytes(static_cast<std::uint32_t>(s.parts.size()));
    for (const Part& part : s.parts) {
      write.address(part.clause);
      write.bytes(static_cast<std::uint32_t>(part.values.size()));
      for (const words::Value& v : part.values) {
        write.bytes(static_cast<std::uint32_t>(v.data.index()));
        std::visit(write, v.data);
      }
      write.bytes(static_cast<std::uint32_t>(part.pieces.size()));
      for (const words::Piece& piece : part.pieces) {
        write.text(piece.word);
        write.bytes(piece.value);
      }
    }
  }
}

} // namespace norma::model
