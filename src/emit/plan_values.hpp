// Values, facts, acts and words of a protocol as a plan file has them.
#pragma once

#include <set>
#include <string_view>
#include <vector>

#include "diag/sentence.hpp"
#include "facts/fact.hpp"
#include "plan/acts/act.hpp"
#include "planfile/said.hpp"
#include "wording/wording.hpp"

namespace norma::emit {

/// With at most `decimals`: the same digits on every machine.
double rounded(double number, int decimals);

planfile::Amount amount(physics::Kind kind, double base, bool spread = false);
planfile::Value file_value(const diag::Value& value);
planfile::Sentence sentence(const diag::Said& said, const wording::Language& in);
planfile::FactId fact_id(const facts::FactRow& row);
planfile::Act file_act(const plan::Act& act, const wording::Language& in);
planfile::Question question(const diag::Said& what, const diag::Said& missing,
                            const wording::Language& in);

/// The statements that `content` holds (model/content.hpp).
std::vector<planfile::Asked> asked_words(std::string_view content);

/// Facts, and which rows they name: each row is described once in a file.
class FactWriter {
 public:
  explicit FactWriter(const wording::Language& in) : in_(in) {}
  void add(const facts::Facts& facts, std::vector<planfile::Fact>& to);
  [[nodiscard]] std::vector<planfile::FactRow> rows() const;

 private:
  const wording::Language& in_;
  struct ByPlace {
    bool operator()(const facts::FactRow* a, const facts::FactRow* b) const {
      return a->place < b->place;
    }
  };
  std::set<const facts::FactRow*, ByPlace> named_;
};

} // namespace norma::emit
