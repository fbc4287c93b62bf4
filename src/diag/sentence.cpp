#include "diag/sentence.hpp"

#include <tuple>

namespace norma::diag {

Said::Said(const Row& r, std::vector<Value> values) : row(&r), arguments(std::move(values)) {}
Said::Said(std::string text) : own(std::move(text)) {}
Said::Said(std::string_view text) : own(text) {}
Said::Said(const char* text) : own(text) {}

namespace {

std::string_view key(const Said& s) { return s.row == nullptr ? std::string_view() : s.row->id; }

} // namespace

bool operator==(const Said& a, const Said& b) {
  return key(a) == key(b) && a.own == b.own && a.arguments == b.arguments;
}

bool operator<(const Said& a, const Said& b) {
  const std::string_view ka = key(a);
  const std::string_view kb = key(b);
  return std::tie(ka, a.own, a.arguments) < std::tie(kb, b.own, b.arguments);
}

bool operator==(const List& a, const List& b) { return a.items == b.items; }
bool operator<(const List& a, const List& b) { return a.items < b.items; }

Value::Value(std::string text) : is(std::move(text)) {}
Value::Value(std::string_view text) : is(std::string(text)) {}
Value::Value(const char* text) : is(std::string(text)) {}
Value::Value(int number) : is(number) {}
Value::Value(Measure measure) : is(measure) {}
Value::Value(Teeth teeth) : is(std::move(teeth)) {}
Value::Value(physics::Tooth tooth) : is(Teeth{tooth}) {}
Value::Value(Said said) : is(std::move(said)) {}
Value::Value(List list) : is(std::move(list)) {}
Value::Value(Size size) : is(size) {}
Value::Value(Length l) : is(Measure{physics::Kind::length, l.base()}) {}
Value::Value(Angle a) : is(Measure{physics::Kind::angle, a.base()}) {}
Value::Value(Stops s) : is(Measure{physics::Kind::stops, s.base()}) {}
Value::Value(Time t) : is(Measure{physics::Kind::time, t.base()}) {}
Value::Value(FNumber n) : is(Measure{physics::Kind::f_number, n.value()}) {}
Value::Value(Magnification m) : is(Measure{physics::Kind::ratio, m.value()}) {}
Value::Value(Power p) : is(Measure{physics::Kind::power, p.value()}) {}
Value::Value(IsoSpeed s) : is(Measure{physics::Kind::iso, s.value()}) {}
Value::Value(Illuminance e) : is(Measure{physics::Kind::illuminance, e.base()}) {}
Value::Value(ColourTemperature t) : is(Measure{physics::Kind::temperature, t.base()}) {}

bool Value::empty() const {
  if (const auto* text = std::get_if<std::string>(&is)) return text->empty();
  if (const auto* said = std::get_if<Said>(&is)) return said->empty();
  if (const auto* list = std::get_if<List>(&is)) return list->items.empty();
  return false;
}

bool operator==(const Value& a, const Value& b) { return a.is == b.is; }
bool operator<(const Value& a, const Value& b) { return a.is < b.is; }

} // namespace norma::diag
