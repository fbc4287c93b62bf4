#include "model/merge.hpp"

#include <algorithm>

#include "diag/catalogue.hpp"

namespace norma::model {
namespace {

namespace catalogue = diag::catalogue;

bool same_slot(const Statement& a, const Statement& b) {
  return a.word == b.word && a.key == b.key;
}

std::string word_and_key(const Statement& s) {
  return s.key.empty() ? std::string(s.word->name) : fmt::format("{} {}", s.word->name, s.key);
}

/// Lays `also ...` on what is there: a list word gets one more statement, a statement more parts.
void add(std::vector<Statement>& out, const Statement& s, bool is_list) {
  const auto there =
      std::find_if(out.begin(), out.end(), [&](const Statement& o) { return same_slot(o, s); });
  if (there == out.end()) {
    out.push_back(s);
    return;
  }
  if (there->mention == Mention::no) {
    *there = s;
    there->mention = Mention::says;
    return;
  }
  if (is_list) {
    Statement more = s;
    more.mention = there->mention; // beside a plain one it is plain
    out.push_back(std::move(more));
    return;
  }
  Statement both = *there;
  both.broken = both.broken || s.broken;
  both.append(s);
  both.also = s.span;
  *there = std::move(both);
}

} // namespace

std::vector<Statement> settle_block(std::vector<Statement> said, diag::Findings& findings) {
  std::vector<Statement> out;
  out.reserve(said.size());
  for (Statement& s : said) {
    const auto clash = std::find_if(out.begin(), out.end(), [&](const Statement& o) {
      if (o.word != s.word) return false;
      // A list word may be said again; only beside `no` it contradicts itself.
      const bool removes = o.mention == Mention::no || s.mention == Mention::no;
      if (s.word->repeat == words::Repeat::list) return removes;
      return o.key == s.key || o.key == "both" || s.key == "both";
    });
    if (clash != out.end()) {
      if (clash->key == s.key) {
        findings.add(diag::make(catalogue::said_twice, s.head, word_and_key(s)))
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
  std::vector<Statement> out = base;
  // A list word may be said several times: all inherited ones go before the first new one comes.
  std::vector<const Statement*> cleared;
  for (const Statement& s : over) {
    const auto meets = [&](const Statement& o) {
      return o.word == s.word && (o.key == s.key || (s.mention == Mention::no && s.key.empty()));
    };
    const bool is_list = s.word->repeat == words::Repeat::list;
    if (s.mention == Mention::says) {
      const bool done = std::any_of(cleared.begin(), cleared.end(),
                                    [&](const Statement* c) { return same_slot(*c, s); });
      if (!done) out.erase(std::remove_if(out.begin(), out.end(), meets), out.end());
      cleared.push_back(&s);
      out.push_back(s);
    } else if (s.mention == Mention::no) {
      const auto last = std::remove_if(out.begin(), out.end(), meets);
      const bool met = last != out.end();
      out.erase(last, out.end());
      out.push_back(s);
      out.back().met = s.met || met; // in this layer, or in one above that was laid before
    } else {
      add(out, s, is_list);
    }
  }
  return out;
}

std::vector<Statement> finished(std::vector<Statement> statements, diag::Findings& findings) {
  for (Statement& s : statements) {
    if (s.mention == Mention::no && !s.met) {
      findings.add(diag::make(catalogue::nothing_to_remove, s.head, word_and_key(s)))
          .with_help("leave the line out");
    }
    if (s.mention == Mention::also) {
      findings.add(diag::make(catalogue::nothing_inherited, s.head, word_and_key(s)))
          .with_help("leave `also` out");
      s.mention = Mention::says;
    }
  }
  std::erase_if(statements, [](const Statement& s) { return s.mention == Mention::no; });
  return statements;
}

} // namespace norma::model
