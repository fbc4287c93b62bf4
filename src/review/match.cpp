#include <algorithm>
#include <map>
#include <set>
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

class Matcher {
 public:
  Matcher(const std::vector<Feature>& before, const std::vector<Feature>& after)
      : before_(before), after_(after), of_before_(before.size(), -1), of_after_(after.size(), -1) {}

  Matching run() {
    by_key([](const Feature& f) { return std::tuple(f.kind, f.said, f.name); });
    by_key([](const Feature& f) { return std::tuple(f.kind, f.said, std::string()); });
    most_alike();
    by_key([](const Feature& f) { return std::tuple(f.kind, std::string(), f.name); });
    Matching out;
    for (std::size_t i = 0; i < after_.size(); ++i)
      out.emplace_back(of_after_[i], static_cast<int>(i));
    for (std::size_t i = 0; i < before_.size(); ++i) {
      if (of_before_[i] < 0) out.emplace_back(static_cast<int>(i), -1);
    }
    return out;
  }

 private:
  void pair(std::size_t b, std::size_t a) {
    of_before_[b] = static_cast<int>(a);
    of_after_[a] = static_cast<int>(b);
  }
  template <class Key> void by_key(Key key) {
    std::map<decltype(key(Feature())), std::vector<std::size_t>> free;
    for (std::size_t b = before_.size(); b-- > 0;) {
      if (of_before_[b] < 0) free[key(before_[b])].push_back(b);
    }
    for (std::size_t a = 0; a < after_.size(); ++a) {
      if (of_after_[a] >= 0) continue;
      const auto found = free.find(key(after_[a]));
      if (found == free.end() || found->second.empty()) continue;
      pair(found->second.back(), a);
      found->second.pop_back();
    }
  }
  void most_alike() {
    std::vector<std::size_t> left_before;
    std::vector<std::size_t> left_after;
    for (std::size_t b = 0; b < before_.size(); ++b) {
      if (of_before_[b] < 0) left_before.push_back(b);
    }
    for (std::size_t a = 0; a < after_.size(); ++a) {
      if (of_after_[a] < 0) left_after.push_back(a);
    }
    if (std::max(left_before.size(), left_after.size()) > most_held_against_each) return;
    struct Candidate {
      double score;
      std::size_t before;
      std::size_t after;
    };
    std::vector<Candidate> all;
    for (const std::size_t b : left_before) {
      for (const std::size_t a : left_after) {
        if (before_[b].kind != after_[a].kind) continue;
        const double score = likeness(before_[b].parts, after_[a].parts) +
                             (before_[b].name == after_[a].name ? same_name : 0);
        if (score >= alike) all.push_back({score, b, a});
      }
    }
    std::sort(all.begin(), all.end(), [](const Candidate& x, const Candidate& y) {
      return std::tie(y.score, x.after, x.before) < std::tie(x.score, y.after, y.before);
    });
    for (const Candidate& c : all) {
      if (of_before_[c.before] < 0 && of_after_[c.after] < 0) pair(c.before, c.after);
    }
  }

  const std::vector<Feature>& before_;
  const std::vector<Feature>& after_;
  std::vector<int> of_before_;
  std::vector<int> of_after_;
};

} // namespace

Matching match(const std::vector<Feature>& before, const std::vector<Feature>& after) {
  return Matcher(before, after).run();
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
