#include "model/content.hpp"

#include <array>
#include <cstring>

namespace norma::model {
namespace {

/// Collects small pieces, so that the string grows in a few large ones.
class Writer {
 public:
  explicit Writer(std::string& out) : out_(out) {}
  Writer(const Writer&) = delete;
  Writer& operator=(const Writer&) = delete;
  ~Writer() { flush(); }

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
    if (s.size() > buffer_.size() - used_) flush();
    if (s.size() > buffer_.size()) {
      out_ += s;
      return;
    }
    s.copy(buffer_.data() + used_, s.size()); // an empty text may lie nowhere
    used_ += s.size();
  }
  /// What lies in the tables of words and units stays where it is while the program runs.
  void address(const void* row) { bytes(row); }
  template <class T> void bytes(const T& value) {
    if (sizeof(T) > buffer_.size() - used_) flush();
    std::memcpy(buffer_.data() + used_, &value, sizeof(T));
    used_ += sizeof(T);
  }

 private:
  void number(words::Rational r) {
    bytes(r.numerator);
    bytes(r.denominator);
  }
  void flush() {
    out_.append(buffer_.data(), used_);
    used_ = 0;
  }

  std::string& out_;
  std::array<char, 512> buffer_;
  std::size_t used_ = 0;
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
        write.bytes(static_cast<std::uint8_t>(v.data.index()));
        std::visit([&](const auto& value) { write(value); }, v.data);
      }
      // With the clause the plain words that stand between the values tell which of them it has.
      write.bytes(static_cast<std::uint32_t>(part.pieces.size()));
      for (const words::Piece& piece : part.pieces)
        write.address(piece.word.data());
    }
  }
}

} // namespace norma::model
