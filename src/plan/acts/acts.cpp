#include "plan/acts/shown.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

using diag::List;
using diag::Value;

/// `anybody` does what is said of nobody.
Who doer(const std::optional<model::Person>& person, Who anybody) {
  if (!person) return anybody;
  switch (*person) {
  case model::Person::patient: return Who::patient;
  case model::Person::assistant: return Who::assistant;
  case model::Person::operator_: return Who::operator_;
  case model::Person::itself: return anybody;
  }
  return anybody;
}

/// Who brings a thing in: the patient only holds it.
Who bringer(std::optional<model::Person> held_by, Who anybody) {
  return held_by == model::Person::patient ? anybody : doer(held_by, anybody);
}

Said holder(model::Person person) {
  switch (person) {
  case model::Person::patient: return how::patient_holds();
  case model::Person::assistant: return how::assistant_holds();
  case model::Person::operator_: return how::operator_holds();
  case model::Person::itself: return how::holds_itself();
  }
  return how::holds_itself();
}

Said side_object(bool right) { return right ? object::right() : object::left(); }

Said looked_for(const model::ThingShown& thing) {
  if (thing.surface) return object::surface_of_that_tooth(term_of(*thing.surface));
  return thing.thing && thing.thing != model::Thing::whole_head ? term_of(*thing.thing)
                                                                : the(thing);
}

List all_said(const text::Sourced<model::Faces>& faces,
              const text::Sourced<std::vector<model::ThingShown>>& things) {
  List all;
  if (faces.known()) all = faces_said(faces.get());
  if (things.known()) {
    for (const model::ThingShown& thing : things.get())
      all.items.emplace_back(looked_for(thing));
  }
  return all;
}

class Acts {
 public:
  explicit Acts(Job& job)
      : job_(job), view_(job.view), helper_(helper_of(job.protocol, job.kit_)) {}

  void write() {
    record();
    patient_pose();
    if (view_.drying.known()) {
      if (view_.drying.get() == model::Drying::before_drying) {
        add<Verb::do_not_dry>(helper_);
      } else {
        add<Verb::dry>(helper_);
      }
    }
    if (view_.insert_with.known())
      add<Verb::while_things_go_in>(Who::patient, term_of(view_.insert_with.get()));
    if (job_.out.chosen.one_piece() != nullptr) {
      retractor(view_.right_retractor, fact::right_retractor, object::both);
    } else {
      retractor(view_.right_retractor, fact::right_retractor, object::right);
      retractor(view_.left_retractor, fact::left_retractor, object::left);
    }
    mirror();
    held_thing(view_.paddle, object::contrast_paddle);
    held_thing(view_.shade_tab, object::shade_tab);
    held_thing(view_.ruler, object::ruler);
    held_thing(view_.suction, object::suction);
    if (!view_.insert_with.absent()) pose_teeth();
    pose(object::tongue, view_.tongue);
    surroundings();
    camera();
    aim();
    lamp();
    for (const auto& prompt : view_.prompts) {
      if (prompt.known()) add<Verb::say>(Who::operator_, prompt.get());
    }
    shown();
    for (const auto& step : view_.steps) {
      if (step.known()) add<Verb::as_protocol_says>(doer(step->who, helper_), step->what);
    }
    if (view_.air.known()) {
      when_ = When::at;
      add<Verb::blow_air>(doer(view_.air->held_by, helper_), model::terms_of(view_.air->at));
    }
    when_ = When::after;
    after();
  }

 private:
  template <Verb verb, class... Objects> Act& add(Who who, Objects&&... objects) {
    static_assert(sizeof...(Objects) == row_of(verb).arguments);
    Act act{who, verb, {}, {}, when_};
    act.objects.reserve(sizeof...(Objects));
    (act.objects.emplace_back(std::forward<Objects>(objects)), ...);
    job_.out.acts.push_back(std::move(act));
    return job_.out.acts.back();
  }

  /// The value of a fact; `otherwise` where it has none.
  [[nodiscard]] Value value(const FactRow& row, Value otherwise = {}) const {
    return job_.facts.has(row) ? job_.facts.value(row) : std::move(otherwise);
  }

  void record() {
    if (view_.tooth_filled_in) {
      if (view_.tooth_may_be.empty()) {
        add<Verb::write_down_tooth>(Who::operator_);
      } else {
        add<Verb::write_down_tooth_of>(Who::operator_, view_.tooth_may_be);
      }
    }
    if (view_.site_filled_in) add<Verb::write_down_place>(Who::operator_);
    List same;
    for (const auto& what : view_.as_last_visit) {
      if (what.known()) same.items.emplace_back(term_of(what.get()));
    }
    if (same.items.empty()) return;
    job_.out.open.push_back({question::as_last_visit(same), missing::last_visit()});
    add<Verb::as_last_visit>(Who::operator_, std::move(same));
  }

  template <model::IsChoice E> void pose(const diag::Term& part, const text::Sourced<E>& said) {
    if (said.known()) add<Verb::pose>(Who::patient, part(), term_of(said.get()));
  }
  template <class E> void pose(const diag::Term& part, const text::Sourced<std::vector<E>>& said) {
    if (said.known()) add<Verb::pose>(Who::patient, part(), model::terms_of(said.get()));
  }
  void pose_teeth() {
    if (!view_.teeth.known()) return;
    List how;
    if (view_.teeth->relation) how.items.emplace_back(term_of(*view_.teeth->relation));
    if (view_.teeth->bite) how.items.emplace_back(term_of(*view_.teeth->bite));
    add<Verb::pose>(Who::patient, object::teeth(), std::move(how));
  }

  void patient_pose() {
    pose(object::head, view_.head);
    pose(object::mouth, view_.mouth);
    if (view_.least_opening.known())
      add<Verb::open_at_least>(Who::patient, view_.least_opening.get());
    pose(object::dentures, view_.dentures);
    // What goes in goes in with the teeth apart: they meet afterwards.
    if (view_.insert_with.absent()) pose_teeth();
    pose(object::lips, view_.lips);
  }

  void retractor(const text::Sourced<model::Retractor>& asked, const FactRow& chosen,
                 const diag::Term& side) {
    if (!asked.known()) return;
    const model::Retractor& r = asked.get();
    if (r.mirror_takes_place) {
      add<Verb::leave_place_to_mirror>(helper_, side());
      return;
    }
    if (r.none) {
      add<Verb::leave_out_retractor>(helper_, side());
      return;
    }
    if (r.by_fingers) {
      Act& act = add<Verb::hold_with_fingers>(doer(r.held_by, helper_), side());
      if (r.tension) act.how.push_back(how::tension(term_of(*r.tension)));
      if (r.pull) act.how.push_back(how::pulled(term_of(*r.pull)));
      return;
    }
    Act& act = add<Verb::put_in_retractor>(helper_, side(), value(chosen, object::retractor()));
    if (r.end) act.how.push_back(how::with_end(term_of(*r.end)));
    act.how.push_back(r.dry ? how::turned_in_dry() : how::wetted());
    if (r.tension) act.how.push_back(how::tension(term_of(*r.tension)));
    if (r.pull) act.how.push_back(how::pulled(term_of(*r.pull)));
    if (r.held_by) act.how.push_back(holder(*r.held_by));
  }

  void held_thing(const text::Sourced<model::HeldThing>& thing, const diag::Term& name) {
    if (!thing.known()) return;
    Act& act =
        add<Verb::place>(bringer(thing->held_by, helper_), name(), model::terms_of(thing->at));
    if (thing->held_by) act.how.push_back(holder(*thing->held_by));
  }

  void mirror() {
    if (!view_.mirror.known()) return;
    const model::Mirror& m = view_.mirror.get();
    if (m.warmed) add<Verb::warm_mirror>(bringer(m.held_by, helper_));
    const Value name = value(fact::mirror, object::mirror());
    const Who who = doer(m.held_by, helper_);
    Act& act = m.turned_over ? add<Verb::turn_over_mirror>(who, name)
                             : add<Verb::put_in_mirror>(who, name);
    if (job_.facts.has(fact::mirror_side))
      act.how.push_back(how::on_side(value(fact::mirror_side)));
    if (m.end) act.how.push_back(how::with_end(term_of(*m.end)));
    if (m.use == model::MirrorUse::occlusal && job_.facts.has(fact::mirror_angle))
      act.how.push_back(how::opened_from_biting_plane(value(fact::mirror_angle)));
    if (job_.facts.has(fact::mirror_moved)) {
      act.how.push_back(how::middle_moved(value(fact::mirror_moved), value(fact::mirror_moved_to)));
    }
    if (job_.facts.has(fact::mirror_from_midline))
      act.how.push_back(how::beside_cheek(value(fact::mirror_from_midline)));
    const bool above = shown_jaw(view_) == model::Jaw::lower;
    if (job_.facts.has(fact::mirror_rise)) {
      act.how.push_back((above ? how::beside_tongue_seen_from_above
                               : how::beside_tongue_seen_from_below)(value(fact::camera_below)));
      seen_from_side(act);
      act.how.push_back(how::rising(value(fact::mirror_rise)));
    }
    const bool teeth = view_.must_show.known() && !view_.must_show->empty();
    if (teeth && (m.use == model::MirrorUse::occlusal || m.use == model::MirrorUse::buccal)) {
      act.how.push_back(how::behind_last_tooth());
    } else if (job_.facts.has(fact::mirror_behind_teeth)) {
      act.how.push_back(
          (above ? how::behind_teeth_seen_from_above : how::behind_teeth_seen_from_below)(
              value(fact::mirror_behind_teeth), value(fact::camera_below)));
    }
  }

  /// From the front nothing is said.
  void seen_from_side(Act& act) const {
    const auto azimuth = job_.facts.get(fact::camera_azimuth);
    if (azimuth && abs(*azimuth) >= 1.0 * degree)
      act.how.push_back(how::seen_from_side(abs(*azimuth), side_object(*azimuth > Angle{})));
  }

  void surroundings() {
    if (view_.operator_place.known()) {
      switch (view_.operator_place.get()) {
      case model::OperatorPlace::in_front: add<Verb::stand_in_front>(Who::operator_); break;
      case model::OperatorPlace::behind_head: add<Verb::stand_behind_head>(Who::operator_); break;
      case model::OperatorPlace::at_right:
        add<Verb::stand_at_side>(Who::operator_, object::right());
        break;
      case model::OperatorPlace::at_left:
        add<Verb::stand_at_side>(Who::operator_, object::left());
        break;
      }
    }
    if (view_.guide.known()) add<Verb::set_guide>(Who::operator_, term_of(view_.guide.get()));
    if (view_.frame.known()) add<Verb::set_frame>(Who::operator_, view_.frame.get());
    if (view_.background.known()) {
      Act& act = add<Verb::set_background>(Who::operator_, term_of(view_.background.get()));
      if (view_.behind_head.known()) act.how.push_back(how::behind_head(view_.behind_head.get()));
    } else if (view_.behind_head.known()) {
      add<Verb::keep_background_behind>(Who::operator_, view_.behind_head.get());
    }
  }

  void camera() {
    Act& act = add<Verb::hold_camera>(Who::operator_, value(fact::camera_held));
    if (view_.camera.known()) {
      const model::CameraPlace& c = view_.camera.get();
      act.how.push_back(
          c.from ? how::from_midline(c.azimuth, side_object(*c.from == model::Side::right))
                 : how::straight_ahead());
      if (c.elevation != Angle{}) {
        act.how.push_back(
            (c.elevation > Angle{} ? how::from_above : how::from_below)(abs(c.elevation)));
      }
    } else if (view_.taken_in_mirror && view_.mirror.known()) {
      act.how.push_back(how::square_to_mirror());
    }
    // As the operator holds it: from behind the head the picture's top is the patient's chin.
    if (view_.camera.known() && view_.camera->upside_down) act.how.push_back(how::upside_down());
    const auto turn = job_.facts.get(fact::camera_turn);
    if (turn && abs(*turn) >= 1.0 * degree) {
      act.how.push_back(
          (*turn > Angle{} ? how::turned_anticlockwise : how::turned_clockwise)(abs(*turn)));
    }
    if (job_.facts.has(fact::working_distance)) {
      const Said subject =
          view_.kind == model::ViewKind::face ? object::the_face() : object::the_teeth();
      act.how.push_back((view_.taken_in_mirror ? how::lens_from_by_mirror : how::lens_from)(
          value(fact::working_distance), subject));
    }
  }

  void aim() {
    const Value centre = value(fact::aim);
    Value focus = value(fact::focus);
    if (focus.empty() && view_.focus.known()) focus = place_of(view_.focus.get());
    if (focus.empty() && !centre.empty() && view_.kind == model::ViewKind::mouth)
      focus = object::there();
    if (!centre.empty()) {
      Act& act = add<Verb::centre>(Who::operator_, centre);
      if (!focus.empty()) act.how.push_back(how::focused(std::move(focus)));
    } else if (!focus.empty()) {
      add<Verb::focus>(Who::operator_, std::move(focus));
    }
  }

  void lamp() {
    const auto side = job_.facts.get(fact::lamp_side);
    if (!side || *side == LampAt::neither) return;
    const kit::Lamp* lamp = job_.out.chosen.lamp;
    const bool moves =
        lamp != nullptr && lamp->moves.known() && lamp->moves.get() == kit::LampMoves::by_hand;
    if (moves) {
      add<Verb::move_lamp>(Who::operator_, value(fact::lamp_side));
    } else if (lamp_lies_wrong(view_, *side)) {
      add<Verb::know_lamp_lies_wrong>(Who::operator_, value(fact::lamp_side));
    } else {
      add<Verb::know_lamp_side>(Who::operator_, value(fact::lamp_side));
    }
  }

  void shown() {
    List all = must_show_said(view_);
    if (!all.items.empty()) add<Verb::look_for>(Who::operator_, std::move(all));
    if (view_.must_not_show.known()) {
      add<Verb::keep_out>(Who::operator_, model::terms_of(view_.must_not_show.get()));
    }
    if (view_.or_else_show.known())
      add<Verb::show_at_least>(Who::operator_, faces_said(view_.or_else_show.get()));
    if (view_.or_else_view.known()) {
      const model::View* other = job_.protocol.view(view_.or_else_view.get());
      add<Verb::take_instead>(Who::operator_,
                              other == nullptr ? view_.or_else_view.get() : other->title);
    }
    tolerance();
  }

  void tolerance() {
    const auto& angle = view_.tolerance_angle;
    const auto& distance = view_.tolerance_distance;
    if (angle.known() && distance.known()) {
      add<Verb::allow_angle_and_distance>(Who::operator_, angle.get(), distance.get());
    } else if (angle.known()) {
      add<Verb::allow_angle>(Who::operator_, angle.get());
    } else if (distance.known()) {
      add<Verb::allow_distance>(Who::operator_, distance.get());
    }
  }

  void after() {
    if (view_.picture.known() && view_.picture->stays_mirrored) {
      Act& act = add<Verb::leave_mirrored>(Who::operator_);
      if (!view_.picture->mark.empty()) act.how.push_back(how::marked(view_.picture->mark));
    }
    for (const auto& reason : view_.take_again_if) {
      if (!reason.known()) continue;
      Act& act = add<Verb::take_again_if>(Who::operator_, reason.get());
      if (view_.take_again_at_most.known())
        act.how.push_back(how::at_most(view_.take_again_at_most.get()));
    }
    if (view_.take_out_first.known())
      add<Verb::take_out_first>(helper_, term_of(view_.take_out_first.get()));
    if (view_.wait_after.known()) {
      Act& act = add<Verb::wait>(Who::operator_, view_.wait_after.get());
      if (view_.patient_rests) act.how.push_back(how::patient_rests());
    }
  }

  Job& job_;
  const model::View& view_;
  Who helper_;               // who does what is said of nobody
  When when_ = When::before; // of what is added
};

} // namespace

List faces_said(const model::Faces& faces) {
  List out;
  for (const auto& [face, row] : {std::pair{model::Face::facial, &object::facial},
                                  std::pair{model::Face::biting, &object::occlusal},
                                  std::pair{model::Face::lingual, &object::lingual}}) {
    diag::Teeth teeth;
    for (const model::NamedFace& f : faces) {
      if (f.face == face) teeth.push_back(f.tooth);
    }
    if (!teeth.empty()) out.items.emplace_back((*row)(std::move(teeth)));
  }
  return out;
}

List must_show_said(const model::View& view) {
  List all = all_said(view.must_show, view.things_shown);
  if (view.every_tooth_present) all.items.emplace_back(object::every_tooth_there());
  return all;
}
List must_be_sharp_said(const model::View& view) {
  return all_said(view.must_be_sharp, view.things_sharp);
}

Who helper_of(const model::Protocol& protocol, const kit::Kit* kit) {
  const bool nobody = protocol.no_assistant || (kit != nullptr && kit->assistant_hands.known() &&
                                                kit->assistant_hands.get() == 0);
  return nobody ? Who::operator_ : Who::assistant;
}

void plan_acts(Job& job) { Acts(job).write(); }

} // namespace norma::plan
