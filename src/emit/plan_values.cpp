#include "emit/plan_values.hpp"

#include <cmath>
#include <limits>

#include "emit/act_words.hpp"
#include "model/content.hpp"
#include "model/write.hpp"
#include "words/teeth.hpp"

namespace norma::emit {
namespace {

namespace file = planfile;

file::Unit file_unit(physics::Kind kind) {
  switch (kind) {
  case physics::Kind::length:
  case physics::Kind::fine_length: return file::Unit::mm;
  case physics::Kind::angle: return file::Unit::deg;
  case physics::Kind::stops: return file::Unit::stop;
  case physics::Kind::time: return file::Unit::s;
  case physics::Kind::f_number: return file::Unit::f_number;
  case physics::Kind::ratio: return file::Unit::ratio;
  case physics::Kind::power: return file::Unit::power;
  case physics::Kind::iso: return file::Unit::iso;
  case physics::Kind::illuminance: return file::Unit::lx;
  case physics::Kind::temperature: return file::Unit::kelvin;
  case physics::Kind::mired: return file::Unit::mired;
  case physics::Kind::count: return file::Unit::count;
  case physics::Kind::share: return file::Unit::share;
  case physics::Kind::decimal:
  case physics::Kind::tenths: return file::Unit::plain;
  }
  return file::Unit::plain;
}

constexpr int usual_decimals = 6;

file::Maybe<double> finite(double number) {
  if (!std::isfinite(number)) return std::nullopt;
  return rounded(number, usual_decimals);
}

template <class Values> std::vector<file::Value> values_of(const Values& values) {
  std::vector<file::Value> out;
  for (const auto& value : values)
    out.push_back(file_value(diag::Value(value)));
  return out;
}

template <class T> file::Value value_of(T is) {
  file::Value out;
  out.is = std::move(is);
  return out;
}

file::Extent extent(double width, double height) {
  return {rounded(width, usual_decimals), rounded(height, usual_decimals)};
}

struct ToFile {
  file::Value operator()(const std::string& own) const { return value_of(own); }
  file::Value operator()(int number) const { return value_of(std::int64_t{number}); }
  file::Value operator()(const diag::Measure& m) const {
    return value_of(amount(m.kind, m.number, m.spread));
  }
  file::Value operator()(const Size& s) const {
    return value_of(extent(s.width.in(mm), s.height.in(mm)));
  }
  file::Value operator()(const diag::Teeth& teeth) const { return value_of(teeth); }
  file::Value operator()(const diag::Said& said) const {
    if (said.row == nullptr) return value_of(said.own);
    return value_of(file::Row{file::RowId::of(said.row->id).value(), values_of(said.arguments)});
  }
  file::Value operator()(const diag::List& list) const { return value_of(values_of(list.items)); }
};

// Words of the protocol ---------------------------------------------------------------------------

file::Unit file_unit(words::Dimension dimension) {
  switch (dimension) {
  case words::Dimension::none: return file::Unit::plain;
  case words::Dimension::length: return file::Unit::mm;
  case words::Dimension::angle: return file::Unit::deg;
  case words::Dimension::stops: return file::Unit::stop;
  case words::Dimension::time: return file::Unit::s;
  case words::Dimension::percent: return file::Unit::percent;
  case words::Dimension::light: return file::Unit::lx;
  case words::Dimension::temperature: return file::Unit::kelvin;
  }
  return file::Unit::plain;
}

struct WordToFile {
  file::Value operator()(const words::Symbol& s) const {
    return value_of(file::Symbol{std::string(s.text)});
  }
  file::Value operator()(const words::Name& n) const { return value_of(std::string(n.text)); }
  file::Value operator()(const words::Quoted& q) const { return value_of(q.text()); }
  file::Value operator()(const words::Code& c) const { return value_of(std::string(c.text)); }
  file::Value operator()(const words::Measure& m) const {
    return value_of(file::Amount{finite(m.in_base()), file_unit(m.dimension())});
  }
  file::Value operator()(const words::RatioLiteral& r) const {
    return value_of(amount(physics::Kind::ratio, words::magnification_of(r).value()));
  }
  file::Value operator()(const words::FNumberLiteral& f) const {
    const double engraved = f.number.value();
    const double exact = physics::exact_f_number(engraved).value();
    return value_of(amount(physics::Kind::f_number, exact > 0 ? exact : engraved));
  }
  file::Value operator()(const words::Date& d) const {
    return value_of(file::Day{words::to_text(d)});
  }
  file::Value operator()(const words::ToothRun& t) const {
    return value_of(words::run_of(t.first, t.last).value_or(file::Teeth{t.first, t.last}));
  }
  file::Value operator()(const words::Rectangle& r) const {
    return value_of(extent(r.width.in_base(), r.height.in_base()));
  }
};

} // namespace

double rounded(double number, int decimals) {
  constexpr double milliard = 1e9; // from here on there are no decimals to speak of
  if (std::abs(number) >= milliard) return number;
  double scale = 1;
  for (int i = 0; i < decimals; ++i)
    scale *= 10;
  return std::round(number * scale) / scale + 0.0; // no -0
}

file::Amount amount(physics::Kind kind, double base, bool spread) {
  return {finite(physics::in_its_unit(kind, base)), file_unit(kind), spread};
}

file::Value file_value(const diag::Value& value) { return std::visit(ToFile{}, value.is); }

file::Sentence sentence(const diag::Said& said, const wording::Language& in) {
  file::Sentence out;
  if (said.row != nullptr) out.key = file::RowId::of(said.row->id).value();
  out.with = values_of(said.arguments);
  out.text = in.text(said);
  return out;
}

file::FactId fact_id(const facts::FactRow& row) { return file::FactId::of(row.name).value(); }

file::Act file_act(const plan::Act& act, const wording::Language& in) {
  file::Act out;
  out.who = static_cast<file::Who>(act.who);
  out.verb = file::RowId::of(plan::row_of(act.verb).id).value();
  out.objects = values_of(act.objects);
  out.how = values_of(act.how);
  out.when = static_cast<file::When>(act.when);
  out.text = act_text(act, in);
  return out;
}

file::Question question(const diag::Said& what, const diag::Said& missing,
                        const wording::Language& in) {
  return {sentence(what, in), sentence(missing, in)};
}

std::vector<file::Asked> asked_words(std::string_view content) {
  std::vector<file::Asked> out;
  for (const model::Statement& s : model::read_content(content)) {
    file::Asked& asked = out.emplace_back();
    asked.word = file::WordId::of(s.word->name).value();
    if (!s.key.empty()) asked.key = std::string(s.key);
    asked.read = !s.broken;
    for (const model::Part& part : s.parts) {
      file::Clause& clause = asked.clauses.emplace_back();
      clause.slot = file::SlotId::of(part.clause->slot).value();
      for (const words::Value& v : part.values)
        clause.values.push_back(std::visit(WordToFile{}, v.data));
      clause.text = model::part_text(part);
    }
  }
  return out;
}

void FactWriter::add(const facts::Facts& facts, std::vector<file::Fact>& to) {
  for (const facts::Fact& f : facts.all()) {
    file::Fact& out = to.emplace_back();
    named_.insert(f.row);
    out.id = fact_id(*f.row);
    out.state = static_cast<file::State>(f.state);
    if (f.value) {
      out.value = file_value(*f.value);
      out.text = in_.text(*f.value);
    }
    const bool worked_out = f.state == facts::State::value || f.state == facts::State::impossible;
    if (worked_out) out.status = static_cast<file::Status>(f.status);
    if (!f.why.empty()) out.why = sentence(f.why, in_);
    for (const facts::FactRow* input : facts.inputs(f)) {
      named_.insert(input);
      out.inputs.push_back(fact_id(*input));
    }
  }
}

std::vector<file::FactRow> FactWriter::rows() const {
  std::vector<file::FactRow> out;
  for (const facts::FactRow* row : named_) {
    file::FactRow& one = out.emplace_back();
    one.id = fact_id(*row);
    one.label = in_.text(diag::Said(*row, {}));
    if (!row->formula.empty()) one.formula = std::string(row->formula);
    if (!row->source.empty()) one.source = std::string(row->source);
  }
  return out;
}

} // namespace norma::emit
