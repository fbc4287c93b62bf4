#include "emit/act_words.hpp"

#include "wording/wording.hpp"

namespace norma::emit {

std::string who_text(plan::Who who) { return wording::text(diag::Said(plan::row_of(who), {})); }

std::string act_text(const plan::Act& act) {
  return wording::text(diag::Said(plan::row_of(act.verb), act.objects), act.how);
}

} // namespace norma::emit
