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
      for (const words::Piece& piece : part.pieces) {
        const bool plain = piece.value == words::Piece::plain;
        write.bytes(static_cast<std::uint32_t>(plain ? piece.word.size() : 0));
        write.address(plain ? piece.word.data() : nullptr);
      }
    }
  }
}

namespace {

/// Takes from the front of what a `Writer` wrote.
class ContentReader {
 public:
  explicit ContentReader(std::string_view content) : rest_(content) {}
  [[nodiscard]] bool empty() const { return rest_.empty(); }

  template <class T> T take() {
    T value;
    std::memcpy(&value, rest_.data(), sizeof value);
    rest_.remove_prefix(sizeof value);
    return value;
  }
  template <class T> const T* row() { return static_cast<const T*>(take<const void*>()); }
  std::string_view text() {
    const auto size = take<std::uint32_t>();
    const std::string_view out = rest_.substr(0, size);
    rest_.remove_prefix(size);
    return out;
  }

  words::Value value() {
    switch (take<std::uint8_t>()) {
    case 0: return {words::Symbol{text()}, {}};
    case 1: return {words::Name{text()}, {}};
    case 2: return {words::Quoted{text()}, {}};
    case 3: return {words::Code{text()}, {}};
    case 4: return {measure(), {}};
    case 5: {
      const words::Rational first = number();
      return {words::RatioLiteral{first, number()}, {}};
    }
    case 6: return {words::FNumberLiteral{number()}, {}};
    case 7: {
      words::Date d;
      d.year = take<int>();
      d.month = take<int>();
      d.day = take<int>();
      return {d, {}};
    }
    case 8: {
      const physics::Tooth first = tooth();
      return {words::ToothRun{first, tooth()}, {}};
    }
    default: {
      const words::Measure width = measure();
      return {words::Rectangle{width, measure()}, {}};
    }
    }
  }

 private:
  words::Rational number() {
    const auto numerator = take<std::int64_t>();
    return {numerator, take<std::int64_t>()};
  }
  words::Measure measure() {
    const words::Rational n = number();
    return {n, row<words::Unit>()};
  }
  physics::Tooth tooth() { return *physics::Tooth::from_iso(take<int>()); }

  std::string_view rest_;
};

} // namespace

std::vector<Statement> read_content(std::string_view content) {
  static_assert(std::variant_size_v<decltype(words::Value::data)> == 10);
  ContentReader read(content);
  std::vector<Statement> out;
  while (!read.empty()) {
    Statement s;
    s.word = read.row<words::Word>();
    s.broken = read.take<bool>();
    s.key = read.text();
    struct Read {
      const words::Clause* clause = nullptr;
      std::vector<words::Value> values;
      std::vector<words::Piece> pieces;
    };
    std::vector<Read> parts(read.take<std::uint32_t>());
    std::vector<Part> views;
    for (Read& part : parts) {
      part.clause = read.row<words::Clause>();
      for (auto n = read.take<std::uint32_t>(); n > 0; --n)
        part.values.push_back(read.value());
      std::size_t value = 0;
      for (auto n = read.take<std::uint32_t>(); n > 0; --n) {
        const auto size = read.take<std::uint32_t>();
        const char* word = read.row<char>();
        part.pieces.push_back(word == nullptr ? words::Piece{{}, value++}
                                              : words::Piece{{word, size}, words::Piece::plain});
      }
      views.push_back({part.clause, part.values, part.pieces, {}});
    }
    s.parts = Parts(views);
    out.push_back(std::move(s));
  }
  return out;
}

} // namespace norma::model
