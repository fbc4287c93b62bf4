// Statements in the one form that says the same for all ways to write them: docs/language.md,
// "Fingerprints", tells it.
#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <tuple>
#include <vector>

#include "model/statement.hpp"

namespace norma::model {

/// What stands for a name that the protocol gives; none: the name itself.
using NameForm = std::function<std::string(std::string_view)>;

/// One part of a statement; of parts that name teeth one for each tooth.
struct ClauseForm {
  const words::Clause* clause = nullptr;
  std::string form;
  friend bool operator==(const ClauseForm& a, const ClauseForm& b) {
    return std::tie(a.clause->slot, a.form) == std::tie(b.clause->slot, b.form);
  }
  friend bool operator<(const ClauseForm& a, const ClauseForm& b) {
    return std::tie(a.clause->slot, a.form) < std::tie(b.clause->slot, b.form);
  }
};

/// All parts of a statement, sorted, each once.
std::vector<ClauseForm> clause_forms(const Statement& s, const NameForm& name = {});

/// A text in normal form C, its ends marked so that it cannot run into what stands beside it.
std::string text_form(std::string_view text);
std::string value_form(const words::Value& v, const NameForm& name = {});

} // namespace norma::model
