// The protocol as a document that is kept up.
#include "plan/job.hpp"

namespace norma::plan {

void plan_record(Plan& plan) {
  const auto& due = plan.protocol->review_by;
  if (!due.known()) return;
  const int days = words::days_between(due.get(), plan.on);
  if (days > 0) plan.facts.set(fact::days_since_review, days, Status::asked);
}

} // namespace norma::plan
