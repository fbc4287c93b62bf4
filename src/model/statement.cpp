#include "model/statement.hpp"

#include <algorithm>

namespace norma::model {

Statement Statement::moved(std::uint32_t by) const {
  Statement s = *this;
  s.head = shifted(head, by);
  s.span = shifted(span, by);
  s.shift += by;
  return s;
}

void Statement::append(const Statement& other) {
  std::vector<Part> both(parts.begin(), parts.end());
  both.insert(both.end(), other.parts.begin(), other.parts.end());
  std::size_t values = 0;
  for (std::size_t i = 0; i < both.size(); ++i) {
    if (i < parts.size())
      values += both[i].values.size();
    else
      both[i].span = shifted(both[i].span, other.shift - shift);
  }
  parts = Parts(both);
  for (words::Value& value : parts.own_values().subspan(values))
    value.span = shifted(value.span, other.shift - shift);
}

const Part* Statement::part(std::string_view slot) const {
  const auto found = std::find_if(parts.begin(), parts.end(),
                                  [&](const Part& p) { return p.clause->slot == slot; });
  return found == parts.end() ? nullptr : &*found;
}

const words::Value* Statement::value(std::string_view slot) const {
  const Part* p = part(slot);
  return p == nullptr || p->values.empty() ? nullptr : &p->values.front();
}

std::string_view Statement::symbol(std::string_view slot) const {
  const words::Value* v = value(slot);
  return v == nullptr ? std::string_view() : v->symbol();
}

} // namespace norma::model
