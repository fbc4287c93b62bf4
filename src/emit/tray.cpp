#include "emit/tray.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>

#include "facts/facts.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
namespace phrase = plan::phrase;

/// By its text, so that pieces of one name count together.
using Things = std::map<std::string, TrayThing>;

void add_thing(Things& things, TrayThing thing, const wording::Language& in) {
  std::string text = in.text(thing.thing);
  const auto [at, is_new] = things.try_emplace(std::move(text), std::move(thing));
  if (!is_new) ++at->second.count;
}

Things things_of(const plan::ViewPlan& view, const wording::Language& in) {
  Things out;
  const auto add = [&](diag::Said thing) { add_thing(out, {std::move(thing)}, in); };
  const auto add_inside = [&](TrayThing thing) {
    thing.goes_in = true;
    add_thing(out, std::move(thing), in);
  };
  const bool one_piece = view.chosen.one_piece() != nullptr;
  for (const auto* row : {&fact::right_retractor, &fact::left_retractor, &fact::mirror}) {
    if (row == &fact::left_retractor && one_piece) continue;
    const auto piece = view.facts.get(*row);
    if (piece && !piece->empty() && piece->row != &phrase::none &&
        piece->row != &phrase::mirror_takes_its_place && piece->row != &phrase::fingers_hold_it) {
      const bool mirror = row == &fact::mirror;
      add_inside({*piece, 1, false, true, mirror ? view.chosen.mirror : nullptr,
                  mirror                          ? nullptr
                  : row == &fact::right_retractor ? view.chosen.right_retractor
                                                  : view.chosen.left_retractor});
    }
  }
  const model::View& m = *view.view;
  if (m.mirror.known() && m.mirror->warmed) add(phrase::tray_warm_water());
  if (m.air.known()) add(phrase::tray_air());
  if (m.suction.known()) add_inside({phrase::suction()});
  if (m.paddle.known()) add_inside({phrase::contrast_paddle()});
  if (m.shade_tab.known()) add(phrase::tray_shade_tabs());
  if (m.ruler.known()) add(phrase::ruler());
  if (m.frame.known()) add(phrase::tray_frame(m.frame.get()));
  if (m.guide.known() && m.guide.get() != model::Guide::off)
    add(phrase::tray_guide(model::term_of(m.guide.get())));
  return out;
}

/// How many of each at once.
Things things_for(const std::vector<SeriesView>& views, bool second_choice,
                  const wording::Language& in) {
  Things out;
  for (const SeriesView& v : views) {
    if ((v.instead_of != nullptr) != second_choice) continue;
    for (auto& [text, thing] : things_of(*v.view, in)) {
      const auto [at, is_new] = out.try_emplace(text, thing);
      if (!is_new) at->second.count = std::max(at->second.count, thing.count);
    }
  }
  return out;
}

} // namespace

std::vector<SeriesView> views_of(const plan::Plan& plan, const model::Series* series) {
  std::vector<SeriesView> out;
  if (series == nullptr) {
    for (const plan::ViewPlan& v : plan.views)
      out.push_back({&v});
  } else {
    for (const model::SeriesEntry& e : series->entries) {
      if (const plan::ViewPlan* v = plan.view(e.view)) out.push_back({v, e.optional});
    }
  }
  std::set<std::string_view> there;
  for (const SeriesView& v : out)
    there.insert(v.view->view->name);
  // Each way to its end: what stands in for a view stands next to what stands in for that.
  const std::size_t listed = out.size();
  for (std::size_t i = 0; i < listed; ++i) {
    const plan::ViewPlan* at = out[i].view;
    while (at->view->or_else_view.known()) {
      const plan::ViewPlan* next = plan.view(at->view->or_else_view.get());
      if (next == nullptr || !there.insert(next->view->name).second) break;
      out.push_back({next, false, at});
      at = next;
    }
  }
  return out;
}

std::vector<const plan::ViewPlan*> first_choices(const std::vector<SeriesView>& views) {
  std::vector<const plan::ViewPlan*> out;
  for (const SeriesView& v : views) {
    if (v.instead_of == nullptr) out.push_back(v.view);
  }
  return out;
}

std::vector<TrayThing> tray_of(const plan::Plan& plan, const std::vector<SeriesView>& views,
                               const wording::Language& in) {
  Things first = things_for(views, false, in);
  if (plan.protocol->grey_card.known() && !views.empty())
    add_thing(first, {phrase::tray_grey_card()}, in);
  std::vector<TrayThing> out;
  for (const auto& [text, thing] : first)
    out.push_back(thing);
  for (const auto& [text, thing] : things_for(views, true, in)) {
    const auto there = first.find(text);
    if (there != first.end() && there->second.count >= thing.count) continue;
    out.push_back(thing);
    out.back().second_choice = true;
  }
  return out;
}

} // namespace norma::emit
