#include "emit/act_json.hpp"

#include <fmt/core.h>

#include "emit/act_words.hpp"

namespace norma::emit {
namespace {

std::string_view to_text(plan::Who who) {
  switch (who) {
  case plan::Who::patient: return "patient";
  case plan::Who::assistant: return "assistant";
  case plan::Who::operator_: return "operator";
  }
  return "";
}

std::string_view to_text(plan::When when) {
  switch (when) {
  case plan::When::before: return "before";
  case plan::When::at: return "at";
  case plan::When::after: return "after";
  }
  return "";
}

/// Steady digits on every machine.
double steady(double number) { return std::stod(fmt::format("{:.6f}", number)); }

template <class Values> Json array_of(const Values& values) {
  Json out = Json::array();
  for (const auto& value : values)
    out.push_back(value_json(value));
  return out;
}

struct ToJson {
  Json operator()(const std::string& own) const { return own; }
  Json operator()(int number) const { return number; }
  Json operator()(const diag::Measure& m) const {
    const bool angle = m.kind == physics::Kind::angle;
    Json j = {{"number", steady(angle ? Angle::from_base(m.number).in(degree) : m.number)}};
    if (!physics::unit_of(m.kind).empty()) j["unit"] = physics::unit_of(m.kind);
    return j;
  }
  Json operator()(const Size& s) const {
    return {{"width", steady(s.width.in(mm))}, {"height", steady(s.height.in(mm))}, {"unit", "mm"}};
  }
  Json operator()(const diag::Teeth& teeth) const {
    Json numbers = Json::array();
    for (const physics::Tooth t : teeth)
      numbers.push_back(t.iso());
    return {{"teeth", std::move(numbers)}};
  }
  Json operator()(const diag::Said& said) const {
    if (said.row == nullptr) return said.own;
    Json j = {{"key", said.row->id}};
    if (!said.arguments.empty()) j["with"] = array_of(said.arguments);
    return j;
  }
  Json operator()(const diag::List& list) const { return array_of(list.items); }
};

} // namespace

Json value_json(const diag::Value& value) { return std::visit(ToJson{}, value.is); }

Json act_json(const plan::Act& act) {
  return {{"who", to_text(act.who)},          {"verb", plan::row_of(act.verb).id},
          {"objects", array_of(act.objects)}, {"how", array_of(act.how)},
          {"when", to_text(act.when)},        {"text", act_text(act)}};
}

} // namespace norma::emit
