#include "model/merge.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;

bool same_slot(const Statement& a, const Statement& b) {
  return a.word == b.word && a.key == b.key;
}

} // namespace

std::vector<Statement> settle_block(std::vector<Statement> said, diag::Findings& findings) {
  std::vector<Statement> out;
  for (Statement& s : said) {
    const auto clash = std::find_if(out.begin(), out.end(), [&](const Statement& o) {
      if (o.word != s.word || s.word->repeat == words::Repeat::list) return false;
      return o.key == s.key || o.key == "both" || s.key == "both";
    });
    if (clash != out.end()) {
      if (clash->key == s.key) {
        const std::string what(s.key.empty() ? std::string(s.word->name)
                                             : fmt::format("{} {}", s.word->name, s.key));
        findings.add(diag::make(catalogue::said_twice, s.head, what))
            .with_label(clash->head, "said here first")
            .with_help("keep one of the two");
      } else {
        findings.add(diag::make(catalogue::both_and_side, s.head, s.word->name))
            .with_label(clash->head, "said here for the other")
            .with_help(fmt::format("write `{} left` and `{} right`, or `{} both` alone",
                                   s.word->name, s.word->name, s.word->name));
      }
      continue;
    }
    out.push_back(std::move(s));
  }
  for (std::size_t i = 0; i < out.size(); ++i) {
    if (out[i].key != "both") continue;
    out[i].key = "right";
    Statement left = out[i];
    left.key = "left";
    out.insert(out.begin() + static_cast<std::ptrdiff_t>(i) + 1, std::move(left));
  }
  return out;
}

std::vector<Statement> merged(const std::vector<Statement>& base,
                              const std::vector<Statement>& over) {
  std::vector<Statement> out;
  for (const Statement& s : base) {
    const bool replaced =
        std::any_of(over.begin(), over.end(), [&](const Statement& o) { return same_slot(o, s); });
    if (!replaced) out.push_back(s);
  }
  out.insert(out.end(), over.begin(), over.end());
  return out;
}

} // namespace norma::model
