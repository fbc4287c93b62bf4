#include "rules/rules.hpp"

#include <algorithm>

namespace norma::rules {

void retractor_end_unsuited(const Context& c, const plan::ViewPlan& v, Sink& out) {
  if (!c.protocol.group.known() || !c.protocol.group->children) return;
  const auto look = [&](const text::Sourced<model::Retractor>& said, const kit::Retractor* chosen,
                        Sink& found) {
    if (!said.known() || said->none || said->mirror_takes_place || said->by_fingers) return false;
    const bool asks_large = said->end == model::End::large_end;
    const bool only_large = chosen != nullptr && !chosen->ends.empty() && !said->end &&
                            std::find(chosen->ends.begin(), chosen->ends.end(),
                                      kit::RetractorEnd::small) == chosen->ends.end();
    if (!asks_large && !only_large) return false;
    auto& d = found.report(
        diag::make(catalogue::retractor_end_unsuited, place_of(said, v),
                   asks_large ? note::retractor_end_unsuited_asked_for()
                              : note::retractor_end_unsuited_large_only(name_of(
                                    chosen->name, note::retractor_end_unsuited_the_retractor))));
    d.with_help(note::retractor_end_unsuited_small());
    return true;
  };
  if (!look(v.view->right_retractor, v.chosen.right_retractor, out))
    look(v.view->left_retractor, v.chosen.left_retractor, out);
}

} // namespace norma::rules
