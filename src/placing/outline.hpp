// The outline of the part of a mirror that goes into the mouth.
#pragma once

#include "placing/setting.hpp"

namespace norma::placing {

/// Sizes alone, the end first that goes in; where it stands is left at the origin.
physics::PlaneMirror outline_of(const Sheet& sheet);
/// A mirror of the same shape, wider or narrower by `scale`; its length stays.
Sheet scaled(Sheet sheet, double scale);
/// One whose part in the mouth is longer by `by`.
Sheet lengthened(Sheet sheet, Length by);

} // namespace norma::placing
