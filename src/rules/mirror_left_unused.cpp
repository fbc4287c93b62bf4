#include "rules/rules.hpp"
#include "words/vocabulary.hpp"

namespace norma::rules {

// One cause: what is worked out as if no mirror were there is not told (rules.cpp).
void mirror_left_unused(const Context& /*c*/, const plan::ViewPlan& v, Sink& out) {
  const model::View& view = *v.view;
  if (!view.mirror.known() || view.taken_in_mirror) return;
  out.cause(catalogue::mirror_left_unused);
  const words::Word* word = words::find_word("photographed", words::in_view);
  const text::Span place = view.mirror.span();
  auto& d = out.report(diag::make(catalogue::mirror_left_unused, place));
  d.with_fix({place.file, place.end, place.end}, "\n    " + std::string(word->example), false);
  d.with_help(note::mirror_left_unused_write());
}

} // namespace norma::rules
