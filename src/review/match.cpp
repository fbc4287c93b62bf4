#include <algorithm>
#include <optional>
#include <tuple>

#include "model/content.hpp"
#include "review/parts.hpp"

namespace norma::review {
namespace {

/// More of them are matched by name alone: each is held against each.
constexpr std::size_t most_held_against_each = 400;
/// From here on two are taken for the same thing, changed.
constexpr double alike = 0.4;
constexpr double same_name = 0.2;

/// Of all parts that one of both has, the share that both have.
double likeness(const std::vector<std::string>& a, const std::vector<std::string>& b) {
  std::size_t both = 0;
  for (auto i = a.begin(), j = b.begin(); i != a.end() && j != b.end();) {
    if (*i < *j) {
      ++i;
    } else if (*j < *i) {
      ++j;
    } else {
      ++both;
      ++i;
      ++j;
    }
  }
  const std::size_t all = a.size() + b.size() - both;
  return all == 0 ? 1 : static_cast<double>(both) / static_cast<double>(all);
}

/// Pairs those that are left and most alike, the likest first.
void most_alike(const std::vector<Feature>& before, const std::vector<Feature>& after,
                Pairing& pairs) {
  const std::vector<std::size_t> left_before = pairs.left_before();
  const std::vector<std::size_t> left_after = pairs.left_after();
  if (std::max(left_before.size(), left_after.size()) > most_held_against_each) return;
  struct Candidate {
    double score;
    std::size_t before;
    std::size_t after;
  };
  std::vector<Candidate> all;
  for (const std::size_t b : left_before) {
    for (const std::size_t a : left_after) {
      if (before[b].kind != after[a].kind) continue;
      const double score = likeness(before[b].parts, after[a].parts) +
                           (before[b].name == after[a].name ? same_name : 0);
      if (score >= alike) all.push_back({score, b, a});
    }
  }
  std::sort(all.begin(), all.end(), [](const Candidate& x, const Candidate& y) {
    return std::tie(y.score, x.after, x.before) < std::tie(x.score, y.after, y.before);
  });
  for (const Candidate& c : all) {
    if (pairs.free_before(c.before) && pairs.free_after(c.after)) pairs.pair(c.before, c.after);
  }
}

} // namespace

Matching match(const std::vector<Feature>& before, const std::vector<Feature>& after) {
  Pairing pairs(before.size(), after.size());
  const auto by = [&](const auto& key) {
    pairs.by([&](std::size_t i) { return std::optional(key(before[i])); },
             [&](std::size_t i) { return std::optional(key(after[i])); });
  };
  by([](const Feature& f) { return std::tuple(f.kind, f.said, f.name); });
  by([](const Feature& f) { return std::tuple(f.kind, f.said); });
  most_alike(before, after, pairs);
  by([](const Feature& f) { return std::tuple(f.kind, f.name); });
  return pairs.matching();
}

Feature feature_of(const model::Protocol& protocol, const model::View& view) {
  Feature out;
  out.name = view.name;
  out.kind = view.kind == model::ViewKind::face ? 1 : 0;
  if (view.content < 0) return out;
  const auto nameless = [](std::string_view) { return std::string("view"); };
  const auto& content = protocol.contents[static_cast<std::size_t>(view.content)];
  for (const model::Statement& s : model::read_content(content)) {
    std::string head(s.word->name);
    head += ' ';
    head += s.key;
    // Texts are wording: they tell least of what a view is of, and most of it.
    for (const model::ClauseForm& c : model::clause_forms(s, nameless)) {
      std::string part = head + ' ' + std::string(c.clause->slot) + '=' + c.form;
      out.said += part + '\n';
      if (words::effect_of(*s.word, *c.clause, out.kind == 1) != words::Effect::text)
        out.parts.push_back(std::move(part));
    }
  }
  std::sort(out.parts.begin(), out.parts.end());
  return out;
}

} // namespace norma::review
