// Which apertures may be set, and how much blur is allowed: what the protocol asks for, carried to
// the kit's sensor, and what the lens has.
#pragma once

#include "plan/job.hpp"

namespace norma::plan {

/// An f-number asked for on the protocol's sensor, times this, is as sharp as deep on the kit's; 1
/// where no other one is known.
double f_number_carried(Job& job);
/// Marks of the lens's scale of apertures, a stop.
double marks_per_stop(const kit::Kit* kit);
/// The blur that is allowed on the kit's sensor.
void set_blur(Job& job);
/// Range of the protocol and of the lens; both limits, or neither.
void set_range(Job& job);

} // namespace norma::plan
