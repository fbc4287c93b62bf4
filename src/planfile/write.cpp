#include <fmt/core.h>

#include <cmath>

#include "planfile/planfile.hpp"
#include "planfile/traits.hpp"
#include "text/utf8.hpp"

namespace norma::planfile {
namespace {

/// At most six decimals, none that are zero; from a milliard on as many digits as tell it apart.
std::string digits(double number) {
  constexpr double milliard = 1e9;
  if (std::abs(number) >= milliard) return fmt::format("{}", number);
  std::string out = fmt::format("{:.6f}", number);
  out.resize(out.find_last_not_of('0') + 1);
  if (out.back() == '.') out.pop_back();
  return out == "-0" ? "0" : out;
}

class Writer {
 public:
  std::string write(const Document& document) {
    put(document);
    out_ += '\n';
    return text::printable_json(out_);
  }

  template <class T>
  void operator()(std::string_view key, const T& value, std::string_view /*what it is*/) {
    out_ += first_ ? "\n" : ",\n";
    first_ = false;
    out_.append(2 * depth_, ' ');
    out_ += '"';
    out_ += key;
    out_ += "\": ";
    put(value);
  }

 private:
  template <Record T> void put(const T& record) {
    out_ += '{';
    ++depth_;
    first_ = true;
    T::fields(*this, record);
    first_ = false;
    --depth_;
    line();
    out_ += '}';
  }
  template <class T> void put(const std::optional<T>& value) {
    if (value)
      put(*value);
    else
      out_ += "null";
  }
  template <class T> void put(const std::vector<T>& list) {
    out_ += '[';
    constexpr bool in_line = is_short<T> || std::is_same_v<T, Value>;
    ++depth_;
    for (std::size_t i = 0; i < list.size(); ++i) {
      if (i > 0) out_ += in_line ? ", " : ",";
      if (!in_line) line();
      put(list[i]);
    }
    --depth_;
    if (!in_line && !list.empty()) line();
    out_ += ']';
  }
  template <class E>
  requires std::is_enum_v<E>
  void put(E e) { put_id(Ids<E>::all[static_cast<std::size_t>(e)]); }
  template <IdList list> void put(const Id<list>& id) { put_id(id.text()); }

  void put(bool b) { out_ += b ? "true" : "false"; }
  void put(std::int64_t i) { out_ += std::to_string(i); }
  void put(double d) { out_ += std::isfinite(d) ? digits(d) : "null"; }
  void put(const Part& p) { put(p.of_one); }
  void put(const Index& i) { put(i.at); }
  void put(Tooth t) { out_ += std::to_string(t.iso()); }
  void put(const Day& d) { put(d.iso); }
  void put(const Digest& d) { put(d.hex); }
  void put(const Flat& p) { out_ += '[' + digits(p.x) + ", " + digits(p.y) + ']'; }
  void put(const Solid& p) {
    out_ += '[' + digits(p.x) + ", " + digits(p.y) + ", " + digits(p.z) + ']';
  }
  void put(const Extent& e) {
    out_ += "{\"width\": " + digits(e.width) + ", \"height\": " + digits(e.height) +
            ", \"unit\": \"mm\"}";
  }
  void put(const Amount& n) {
    out_ += n.spread ? "{\"spread\": " : "{\"number\": ";
    put(n.number);
    out_ += ", \"unit\": ";
    put(n.unit);
    out_ += '}';
  }
  void put(const Row& row) {
    out_ += "{\"key\": ";
    put(row.key);
    out_ += ", \"with\": ";
    put(row.with);
    out_ += '}';
  }
  void put(const Symbol& s) { named("symbol", s.word); }
  void put(const Value& value) {
    std::visit([&](const auto& is) { put_value(is); }, value.is);
  }
  template <class T> void put_value(const T& is) { put(is); }
  void put_value(const Teeth& teeth) {
    out_ += "{\"teeth\": ";
    put(teeth);
    out_ += '}';
  }
  void put_value(const Day& day) { named("date", day.iso); }

  void named(std::string_view key, std::string_view text) {
    out_ += "{\"";
    out_ += key;
    out_ += "\": ";
    put(text);
    out_ += '}';
  }
  void put_id(std::string_view id) {
    out_ += '"';
    out_ += id;
    out_ += '"';
  }
  void put(const std::string& text) { put(std::string_view(text)); }
  void put(std::string_view text) {
    out_ += '"';
    while (true) {
      const auto unsound = text::first_unsound_byte(text);
      for (const char c : text.substr(0, unsound.value_or(text.size())))
        put_character(c);
      if (!unsound) break;
      out_ += "\xef\xbf\xbd";
      text.remove_prefix(*unsound + 1);
    }
    out_ += '"';
  }
  void put_character(char c) {
    switch (c) {
    case '"': out_ += "\\\""; break;
    case '\\': out_ += "\\\\"; break;
    case '\n': out_ += "\\n"; break;
    case '\r': out_ += "\\r"; break;
    case '\t': out_ += "\\t"; break;
    default:
      if (static_cast<unsigned char>(c) < 0x20)
        out_ += fmt::format("\\u{:04x}", static_cast<unsigned char>(c));
      else
        out_ += c;
    }
  }
  void line() {
    out_ += '\n';
    out_.append(2 * depth_, ' ');
  }

  std::string out_;
  std::size_t depth_ = 0;
  bool first_ = true; // of an object
};

} // namespace

std::string write(const Document& document) { return Writer().write(document); }

} // namespace norma::planfile
