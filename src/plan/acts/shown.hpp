// What a view must show and what must be sharp, as the acts and the sheets say it.
#pragma once

#include "diag/sentence.hpp"
#include "model/protocol.hpp"

namespace norma::plan {

/// `facial 12 to 17, 42 to 47`, typed.
diag::List faces_said(const model::Faces& faces);
/// What a view asks for, so; empty where nothing is asked for, or it could not be read.
diag::List must_show_said(const model::View& view);
diag::List must_be_sharp_said(const model::View& view);

} // namespace norma::plan
