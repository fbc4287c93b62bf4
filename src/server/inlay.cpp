#include "server/inlay.hpp"

#include <algorithm>
#include <map>

#include "emit/frame_words.hpp"
#include "facts/facts.hpp"

namespace norma::server {
namespace {

namespace fact = facts::fact;

/// Teeth of which something is not as `must show` asks.
diag::Teeth failing(const facts::Facts& facts) {
  diag::Teeth out;
  for (const auto* row :
       {&fact::teeth_hidden, &fact::teeth_turned, &fact::teeth_cut, &fact::teeth_in_shadow}) {
    if (const auto teeth = facts.get(*row)) out.insert(out.end(), teeth->begin(), teeth->end());
  }
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

} // namespace

std::vector<Hint> hints_of(const workspace::Checked& checked, text::FileId file,
                           const wording::Language& language) {
  // What each view says of each line; "" where it says nothing. A line in the block of a view
  // speaks of that view, not of those that are made from it.
  std::map<text::Span, std::vector<std::string>> all;
  std::map<text::Span, std::vector<std::string>> own_of;
  for (const report::Held& held : checked.held) {
    if (held.kit == nullptr) continue;
    for (const plan::ViewPlan& plan : held.plan.views) {
      const model::View& view = *plan.view;
      const auto put = [&](text::Span span, const diag::Said& said) {
        if (span.file != file) return;
        const bool own = view.whole.begin <= span.begin && span.end <= view.whole.end;
        (own ? own_of : all)[span].push_back(said.empty() ? "" : language.text(said));
      };
      const auto width = plan.facts.get(fact::field_width);
      const auto distance = plan.facts.get(fact::working_distance);
      put(view.ratio.known() ? view.ratio.span() : view.field.span(),
          width && distance ? emit::frame::hint_ratio(*width, *distance) : diag::Said());
      const auto mark = plan.facts.get(fact::aperture);
      const auto near = plan.facts.get(fact::near_depth);
      const auto far = plan.facts.get(fact::far_depth);
      put(view.aperture.span(),
          mark && near && far ? emit::frame::hint_aperture(*mark, *near, *far) : diag::Said());
      const diag::Teeth teeth = failing(plan.facts);
      put(view.must_show.span(), teeth.empty() ? diag::Said() : emit::frame::hint_teeth(teeth));
    }
  }
  for (auto& [span, texts] : own_of)
    all[span] = std::move(texts);
  std::vector<Hint> out;
  for (const auto& [span, texts] : all) {
    const std::string& text = texts.front();
    const bool alike =
        std::count(texts.begin(), texts.end(), text) == static_cast<std::ptrdiff_t>(texts.size());
    if (alike && !text.empty()) out.push_back({span, text});
  }
  return out;
}

} // namespace norma::server
