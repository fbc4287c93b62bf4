#include "emit/act_words.hpp"

namespace norma::emit {

std::string who_text(plan::Who who, const wording::Language& in) {
  return in.text(diag::Said(plan::row_of(who), {}));
}

std::string act_text(const plan::Act& act, const wording::Language& in) {
  return in.text(diag::Said(plan::row_of(act.verb), act.objects), act.how);
}

} // namespace norma::emit
