#include "wording/wording.hpp"

#include <fmt/args.h>
#include <fmt/core.h>

#include <algorithm>

#include "wording/catalogue.hpp"
#include "words/teeth.hpp"

namespace norma::wording {
namespace {

struct Writer {
  const Language& in;

  std::string operator()(const std::string& own) const { return own; }
  std::string operator()(int number) const { return std::to_string(number); }
  template <class T> std::string operator()(const T& is) const { return in.text(is); }
};

const diag::Row* row_of(physics::Unit unit) {
  switch (unit) {
  case physics::Unit::none: return nullptr;
  case physics::Unit::mm: return &form::mm;
  case physics::Unit::degrees: return &form::degrees;
  case physics::Unit::stop: return &form::stop;
  case physics::Unit::stops: return &form::stops;
  case physics::Unit::seconds: return &form::seconds;
  case physics::Unit::lux: return &form::lux;
  case physics::Unit::kelvin: return &form::kelvin;
  case physics::Unit::mired: return &form::mired;
  case physics::Unit::percent: return &form::percent;
  case physics::Unit::of_full_power: return &form::of_full_power;
  case physics::Unit::off: return &form::off;
  }
  return nullptr;
}

} // namespace

diag::Said day_said(words::Date day) {
  return form::date(fmt::format("{:04}", day.year), fmt::format("{:02}", day.month),
                    fmt::format("{:02}", day.day));
}

Language::Language(std::string_view tag, std::span<const std::string_view> texts) : tag_(tag) {
  for (std::string_view piece : texts) {
    while (!piece.empty()) {
      const std::size_t stop = std::min(piece.find('\n'), piece.size());
      const std::string_view line = piece.substr(0, stop);
      piece.remove_prefix(std::min(stop + 1, piece.size()));
      constexpr std::string_view border = " = ";
      const std::size_t at = line.find(border);
      if (line.empty() || line.front() == '#' || at == std::string_view::npos) continue;
      keys_.push_back(line.substr(0, at));
      texts_.emplace(keys_.back(), line.substr(at + border.size()));
    }
  }
}

std::string_view Language::pattern(std::string_view key) const {
  const auto found = texts_.find(key);
  return found == texts_.end() ? std::string_view() : found->second;
}

std::string Language::text(const diag::Said& said) const {
  if (said.row == nullptr) return said.own;
  const std::string_view with = pattern(said.row->id);
  if (with.empty()) return std::string(said.row->id);
  fmt::dynamic_format_arg_store<fmt::format_context> arguments;
  for (const diag::Value& value : said.arguments)
    arguments.push_back(text(value));
  return fmt::vformat(fmt::string_view(with.data(), with.size()), arguments);
}

std::string Language::text(const diag::Said& said, const std::vector<diag::Said>& details) const {
  constexpr std::string_view signs = ";:";
  std::string out = text(said);
  for (const diag::Said& detail : details) {
    const std::string more = text(detail);
    // The row's text brings a sign; what is put into it does not.
    const std::string_view with = detail.row == nullptr ? "" : pattern(detail.row->id);
    const bool own_sign = !with.empty() && signs.find(with.front()) != std::string_view::npos;
    out += (own_sign ? "" : ", ") + more;
  }
  return out;
}

std::string Language::text(const diag::Value& value) const {
  return std::visit(Writer{*this}, value.is);
}

std::string Language::text(const diag::Measure& measure) const {
  return text(physics::written(measure.kind, measure.number, !measure.spread));
}

std::string Language::text(const Size& size) const { return text(physics::written(size)); }

std::string Language::text(physics::Written written) const {
  const std::string_view sign = pattern(form::decimal_sign.id);
  if (sign.size() == 1)
    std::replace(written.number.begin(), written.number.end(), '.', sign.front());
  const diag::Row* row = row_of(written.unit);
  if (row == nullptr) return std::move(written.number);
  diag::Said said;
  said.row = row;
  if (row->arguments > 0) said.arguments.emplace_back(std::move(written.number));
  return text(said);
}

std::string Language::text(const diag::Teeth& teeth) const {
  if (teeth.empty()) return text(form::no_teeth());
  std::string out;
  for (const words::ToothRun& run : words::runs_of(teeth)) {
    const std::string first = std::to_string(run.first.iso());
    if (!out.empty()) out += ", ";
    out += run.first == run.last ? first
                                 : text(form::teeth_run(first, std::to_string(run.last.iso())));
  }
  return out;
}

std::string Language::text(const diag::List& list) const {
  std::string out;
  for (const diag::Value& item : list.items)
    out += (out.empty() ? "" : list.semicolons ? "; " : ", ") + text(item);
  return out;
}

#define NORMA_LANGUAGE(name, tag)                                                                  \
  const Language& name() {                                                                         \
    static const Language all(tag, name##_texts());                                                \
    return all;                                                                                    \
  }
#include "wording/languages.def"
#undef NORMA_LANGUAGE

std::vector<const Language*> languages() {
  return {
#define NORMA_LANGUAGE(name, tag) &name(),
#include "wording/languages.def"
#undef NORMA_LANGUAGE
  };
}

} // namespace norma::wording
