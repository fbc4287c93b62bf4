#include "emit/view_picture.hpp"

#include "drawing/svg.hpp"
#include "emit/card_words.hpp"
#include "emit/frame_words.hpp"
#include "emit/list_words.hpp"
#include "emit/view_drawings.hpp"
#include "facts/facts.hpp"

namespace norma::emit {

std::string view_picture(const plan::ViewPlan& view, const wording::Language& in) {
  const auto drawings = view_drawings(view, Numbers::of_asked, in);
  if (!drawings) return {};
  using drawing::Anchor;
  using drawing::Role;
  constexpr double margin = 6;
  constexpr double of_title = 5;
  constexpr double of_notes = 3;
  constexpr double line = 4.2;
  const double right = 2 * margin + drawings->finder.width;
  const double top = 2 * margin + of_title;
  const double tall = std::max(drawings->finder.height, drawings->above.height);
  drawing::Drawing out{right + drawings->above.width + margin, top + tall + 6 * line, {}};
  const auto label = [&](drawing::Spot at, std::string text, double size, Role role) {
    out.items.push_back(
        drawing::word(role, {at, std::move(text), size, Anchor::start, size == of_title}));
  };
  out.items.push_back(drawing::shape(Role::page, drawing::box({0, 0}, out.width, out.height)));
  label({margin, margin + of_title}, view.view->title, of_title, Role::word);
  out.items.push_back(drawing::placed(drawings->finder, {margin, top}, 1));
  out.items.push_back(drawing::placed(drawings->above, {right, top}, 1));
  label({margin, top + drawings->finder.height + line}, in.text(drawings->finder_words), of_notes,
        Role::faint_word);
  label({right, top + drawings->above.height + line}, in.text(card::above()), of_notes,
        Role::faint_word);
  double y = top + tall + 2.4 * line;
  for (const diag::Said& said : {frame::drawn_model(view.facts.value(plan::fact::patient)),
                                 frame::drawn_numbers(), list::care_who_decides()}) {
    label({margin, y}, in.text(said), of_notes, Role::word);
    y += line;
  }
  return drawing::svg_file(out, in.text(frame::drawn(view.view->title)));
}

} // namespace norma::emit
