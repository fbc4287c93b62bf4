#include "emit/card.hpp"

#include <algorithm>

#include "emit/act_words.hpp"
#include "emit/card_settings.hpp"
#include "emit/card_words.hpp"
#include "emit/hands.hpp"
#include "emit/list_settings.hpp"
#include "emit/list_words.hpp"
#include "emit/listed_views.hpp"
#include "emit/refused.hpp"
#include "emit/subject_words.hpp"
#include "emit/view_drawings.hpp"
#include "facts/facts.hpp"
#include "plan/by_hand/by_hand.hpp"
#include "plan/light_set.hpp"
#include "report/unread.hpp"

namespace norma::emit {
namespace {

namespace fact = plan::fact;
using plan::Verb;
using plan::Who;

class OneCard {
 public:
  OneCard(const plan::Plan& plan, const ListedViews& views, const SettingWords& settings,
          const ListedView& entry, const wording::Language& in)
      : plan_(plan), views_(views), settings_(settings), entry_(entry), view_(*entry.is.view),
        model_(*view_.view), in_(in), by_hand_(view_) {}

  Card build() {
    head();
    if (!entry_.can_be_had()) {
      not_had();
      return std::move(out_);
    }
    settings();
    drawings();
    hands();
    acts();
    remarks();
    return std::move(out_);
  }

 private:
  void head() {
    out_.name = model_.name;
    out_.title = model_.title;
    if (model_.code.known()) out_.code = model_.code.get()->code;
    out_.optional = entry_.is.optional;
    std::size_t all = 0;
    for (const ListedView& one : views_.all())
      all += one.is.instead_of == nullptr ? 1 : 0;
    out_.place = entry_.is.instead_of == nullptr
                     ? in_.text(card::place(views_.number_of(entry_), static_cast<int>(all)))
                     : in_.text(card::place_instead(entry_.is.instead_of->view->title));
  }

  /// No settings and nothing to do: only why, and what would do.
  void not_had() {
    out_.had = false;
    out_.not_had = in_.text(entry_.errors.empty() ? card::not_settled() : card::not_had());
    if (entry_.errors.empty()) out_.against.push_back(in_.text(entry_.unsettled));
    for (const diag::Diagnostic* d : entry_.errors) {
      out_.against.push_back(in_.text(d->message));
      for (const diag::Said& help : d->help)
        out_.would_do.push_back(in_.text(help));
    }
    instead();
  }

  // Settings -------------------------------------------------------------------------------------

  [[nodiscard]] bool changes(plan::Part part) const {
    const auto& set = entry_.step.set;
    return std::find(set.begin(), set.end(), part) != set.end();
  }

  void settings() {
    const bool first = views_.set_before(entry_) == nullptr;
    out_.settings = card_settings(plan_, view_, card::unknown(), in_);
    for (CardSetting& one : out_.settings)
      one.stays = !first && !changes(one.part);
    const diag::List besides = settings_.besides(entry_.step);
    if (!besides.items.empty()) out_.also_set = in_.text(card::also_set(besides));
  }

  // Drawings -------------------------------------------------------------------------------------

  void drawings() {
    auto drawn = card_drawings(view_, in_);
    if (!drawn) {
      out_.no_drawing = in_.text(missing_for_scene(view_));
      return;
    }
    out_.finder = std::move(drawn->finder);
    out_.above = std::move(drawn->above);
    out_.finder_words = in_.text(drawn->finder_words);
    const auto turn = view_.facts.get(fact::turn);
    if (!turn) return;
    out_.turn = *turn;
    out_.turn_words = in_.text(view_.facts.value(fact::turn));
  }

  // What is done ---------------------------------------------------------------------------------

  void hands() {
    const auto held = held_by(view_.facts);
    for (const Who who : {Who::patient, Who::assistant, Who::operator_}) {
      // Both hands of the operator are on the camera (common practice, no source).
      std::string holds = who == Who::operator_ ? in_.text(card::holds_camera()) : std::string();
      for (const diag::Value& one : held[static_cast<std::size_t>(who)])
        holds += (holds.empty() ? "" : ", ") + in_.text(one);
      if (!holds.empty()) out_.hands.push_back({who_text(who, in_), std::move(holds)});
    }
  }

  [[nodiscard]] std::string told(const plan::Act& act) const {
    return act_text(by_hand_.told(act).act, in_);
  }

  /// Told in a place of its own, not among the steps.
  static bool has_place(Verb verb) {
    switch (verb) {
    case Verb::centre:
    case Verb::focus:
    case Verb::look_for:
    case Verb::keep_out:
    case Verb::say:
    case Verb::show_at_least:
    case Verb::take_instead:
    case Verb::take_again_if:
    case Verb::hold_camera:
    case Verb::stand_in_front:
    case Verb::stand_behind_head:
    case Verb::stand_at_side:
    case Verb::leave_mirrored:
    case Verb::allow_angle:
    case Verb::allow_distance:
    case Verb::allow_angle_and_distance: return true;
    default: return false;
    }
  }

  void acts() {
    const plan::Act* before = nullptr;
    for (const plan::Act& act : entry_.step.acts) {
      if (has_place(act.verb)) continue;
      if (before != nullptr && before->who == act.who && before->when == act.when) {
        out_.steps.back().what += "; " + told(act);
      } else {
        out_.steps.push_back({who_text(act.who, in_), told(act)});
      }
      before = &act;
    }
    diag::List stays{{}, true};
    for (const plan::Act& act : entry_.step.stays) {
      if (!has_place(act.verb)) stays.items.emplace_back(told(act));
    }
    if (!stays.items.empty()) out_.as_before = in_.text(card::as_before(stays));
    // Where to stand, to aim and to look is told whole on every card.
    for (const plan::Act& act : view_.acts)
      told_whole(act);
    edges();
    instead();
  }

  /// What lies at the frame's edges, which shows how large the picture is to be.
  void edges() {
    diag::List all{{}, true};
    for (const EdgeRow& row : edge_rows()) {
      if (view_.facts.has(row.teeth))
        all.items.emplace_back(card::at_edge(row.called(), view_.facts.value(row.teeth)));
    }
    if (!all.items.empty()) out_.look.push_back(in_.text(card::look_edges(all)));
  }

  void told_whole(const plan::Act& act) {
    const auto object = [&] { return in_.text(act.objects.front()); };
    switch (act.verb) {
    case Verb::stand_in_front:
    case Verb::stand_behind_head:
    case Verb::stand_at_side:
    case Verb::hold_camera: out_.camera += (out_.camera.empty() ? "" : "; ") + told(act); return;
    case Verb::say: return out_.say.push_back(object());
    case Verb::look_for: return look(card::look_none_cut, act);
    case Verb::centre:
    case Verb::focus: return out_.look.push_back(told(act));
    case Verb::keep_out: return look(card::look_none_in, act);
    case Verb::take_again_if: return out_.again.push_back(told(act));
    default: return;
    }
  }
  void look(const diag::Sentence<1>& row, const plan::Act& act) {
    out_.look.push_back(in_.text(row(act.objects.front())));
  }

  void instead() {
    for (const plan::Act& act : view_.acts) {
      if (act.verb == Verb::show_at_least || act.verb == Verb::take_instead)
        out_.instead.push_back(told(act));
    }
    if (model_.or_else_view.known()) {
      for (const ListedView& other : views_.all()) {
        const model::View& m = *other.is.view->view;
        if (m.name != model_.or_else_view.get()) continue;
        const auto& row = other.can_be_had() ? list::instead_view : list::instead_view_not_had;
        out_.instead.push_back(in_.text(row(m.title, views_.number_of(other))));
      }
    }
  }

  void remarks() {
    const auto say = [&](ListedViews::Texts texts, std::vector<std::string>& to) {
      for (const auto& one : model_.*texts) {
        if (one.known()) to.push_back(one.get());
      }
    };
    say(&model::View::cautions, out_.care);
    say(&model::View::stop_if, out_.stop);
  }

  const plan::Plan& plan_;
  const ListedViews& views_;
  const SettingWords& settings_;
  const ListedView& entry_;
  const plan::ViewPlan& view_;
  const model::View& model_;
  const wording::Language& in_;
  plan::ByHand by_hand_;
  Card out_;
};

} // namespace

Cards cards_of(const report::Report& report, const report::Held& held, std::string_view series,
               const wording::Language& in) {
  const plan::Plan& plan = held.plan;
  const model::Series* taken = listed_series(plan, series);
  Cards out;
  out.title = title_of(*plan.protocol);
  out.about = in.text(protocol_said(plan, taken)) + " " + in.text(kit_said(plan));
  out.caution = in.text(list::care_who_decides());
  const report::Unread unread = report::unread_of(report, held);
  if (!unread.whole()) {
    out.unread.push_back(in.text(card::do_not_use()));
    for (const diag::Diagnostic* d : unread.findings)
      out.unread.push_back(in.text(d->message));
    return out;
  }
  const ListedViews views(report, held, taken);
  const SettingWords settings(plan, views.taken(), in);
  for (const ListedView& entry : views.all())
    out.cards.push_back(OneCard(plan, views, settings, entry, in).build());
  return out;
}

} // namespace norma::emit
