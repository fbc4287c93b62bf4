#include "wording/wording.hpp"

#include <fmt/args.h>
#include <fmt/core.h>

#include <unordered_map>

#include "words/teeth.hpp"
#include "wording/catalogue.hpp"

namespace norma::wording {
namespace {

struct Catalogue {
  std::vector<std::string_view> keys;
  std::unordered_map<std::string_view, std::string_view> texts;

  explicit Catalogue(std::span<const std::string_view> pieces) {
    for (const std::string_view piece : pieces)
      read(piece);
  }

 private:
  void read(std::string_view file) {
    while (!file.empty()) {
      const std::size_t stop = std::min(file.find('\n'), file.size());
      const std::string_view line = file.substr(0, stop);
      file.remove_prefix(std::min(stop + 1, file.size()));
      constexpr std::string_view border = " = ";
      const std::size_t at = line.find(border);
      if (line.empty() || line.front() == '#' || at == std::string_view::npos) continue;
      keys.push_back(line.substr(0, at));
      texts.emplace(keys.back(), line.substr(at + border.size()));
    }
  }
};

const Catalogue& english() {
  static const Catalogue all(english_texts());
  return all;
}

struct Writer {
  std::string operator()(const std::string& own) const { return own; }
  std::string operator()(int number) const { return std::to_string(number); }
  std::string operator()(const diag::Measure& measure) const { return text(measure); }
  std::string operator()(const diag::Teeth& teeth) const {
    return teeth.empty() ? std::string(pattern("phrase.none")) : words::teeth_text(teeth);
  }
  std::string operator()(const diag::Said& said) const { return text(said); }
  std::string operator()(const Size& size) const { return physics::to_text(size); }
  std::string operator()(const diag::List& list) const {
    std::string out;
    for (const diag::Value& item : list.items)
      out += (out.empty() ? "" : list.semicolons ? "; " : ", ") + text(item);
    return out;
  }
};

} // namespace

std::string_view pattern(std::string_view key) {
  const auto& texts = english().texts;
  const auto found = texts.find(key);
  return found == texts.end() ? std::string_view() : found->second;
}

std::vector<std::string_view> keys() { return english().keys; }

std::string text(const diag::Said& said) {
  if (said.row == nullptr) return said.own;
  const std::string_view with = pattern(said.row->id);
  if (with.empty()) return std::string(said.row->id);
  fmt::dynamic_format_arg_store<fmt::format_context> arguments;
  for (const diag::Value& value : said.arguments)
    arguments.push_back(text(value));
  return fmt::vformat(fmt::string_view(with.data(), with.size()), arguments);
}

std::string text(const diag::Said& said, const std::vector<diag::Said>& details) {
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

std::string text(const diag::Value& value) { return std::visit(Writer{}, value.is); }

std::string text(const diag::Measure& measure) {
  return physics::to_text(measure.kind, measure.number, !measure.spread);
}

} // namespace norma::wording
