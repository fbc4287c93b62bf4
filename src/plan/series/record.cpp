// The protocol as a document that is kept up.
#include "plan/job.hpp"

namespace norma::plan {

void plan_record(Plan& plan) {
  const auto& due = plan.protocol->review_by;
  if (!due.known()) return;
  const auto days = words::day_number(plan.on) - words::day_number(due.get());
  if (days > 0) facts::Recorder(plan.facts).put(fact::days_since_review, static_cast<int>(days));
}

} // namespace norma::plan
