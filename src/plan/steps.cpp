#include "plan/job.hpp"

namespace norma::plan {
namespace {

constexpr std::string_view patient = "Patient";
constexpr std::string_view assistant = "Assistant";
constexpr std::string_view operator_ = "Operator";

/// `anybody` does what is said of nobody.
std::string_view who(const std::optional<model::Person>& person, std::string_view anybody) {
  if (!person) return anybody;
  switch (*person) {
  case model::Person::patient: return patient;
  case model::Person::assistant: return assistant;
  case model::Person::operator_: return operator_;
  case model::Person::itself: return anybody;
  }
  return anybody;
}

class Steps {
 public:
  explicit Steps(Job& job) : job_(job), view_(job.view) {
    const bool none =
        job.protocol.no_assistant || (job.kit != nullptr && job.kit->assistant_hands.known() &&
                                      job.kit->assistant_hands.get() == 0);
    if (none) helper_ = operator_;
  }

  void write() {
    thing_at_the_chair();
    patient_pose();
    if (view_.drying.known()) {
      add(helper_, view_.drying.get() == "before drying"
                       ? "do not dry the teeth yet: the picture comes first"
                       : "dry the teeth before the picture");
    }
    if (view_.insert_with.known()) add(patient, "while things go in: " + view_.insert_with.get());
    retractor(view_.right_retractor, fact::right_retractor, "right");
    retractor(view_.left_retractor, fact::left_retractor, "left");
    mirror();
    held_thing(view_.paddle, "contrast paddle");
    held_thing(view_.shade_tab, "shade tab");
    held_thing(view_.ruler, "ruler");
    held_thing(view_.suction, "suction");
    if (!view_.insert_with.absent()) teeth();
    if (view_.tongue.known()) add(patient, "tongue " + view_.tongue.get());
    camera();
    aim();
    lamp();
    for (const auto& prompt : view_.prompts) {
      if (prompt.known()) add(operator_, "say: \"" + prompt.get() + "\"");
    }
    shown();
    for (const auto& step : view_.steps) {
      if (step.known()) add(who(step->who, helper_), step->what);
    }
    if (view_.air.known()) {
      add(who(view_.air->held_by, helper_),
          "blow air " + view_.air->what + ", just before the shot");
    }
    after();
  }

 private:
  void add(std::string_view person, std::string what) {
    job_.out.steps.push_back({std::string(person), std::move(what), taken_});
  }

  static std::string holder(model::Person person) {
    if (person == model::Person::itself) return "; it holds itself";
    return "; " + std::string(model::to_text(person)) + " holds it";
  }

  void thing_at_the_chair() {
    if (view_.tooth_filled_in) add(operator_, "write down the tooth: ____");
    if (view_.site_filled_in) add(operator_, "write down the place: ________________");
  }

  void held_thing(const text::Sourced<model::HeldThing>& thing, const std::string& name) {
    if (!thing.known()) return;
    std::string what = name + " " + thing->what;
    if (thing->held_by) what += holder(*thing->held_by);
    add(who(thing->held_by == model::Person::patient ? std::nullopt : thing->held_by, helper_),
        what);
  }

  void after() {
    taken_ = true;
    if (view_.picture.known() && view_.picture->stays_mirrored) {
      const std::string& mark = view_.picture->mark;
      add(operator_, "the picture stays mirrored" +
                         (mark.empty() ? std::string() : ": mark it \"" + mark + "\""));
    }
    for (const auto& reason : view_.take_again_if) {
      if (reason.known()) add(operator_, "take it again if " + reason.get() + times());
    }
    if (view_.take_out_first.known()) {
      add(helper_, "take out first: " + view_.take_out_first.get());
    }
    if (view_.wait_after.known()) {
      add(operator_, "after the picture wait " + physics::to_text(view_.wait_after.get()) +
                         (view_.patient_rests ? "; the patient rests" : ""));
    }
  }

  void teeth() {
    if (view_.teeth.known()) add(patient, "teeth " + view_.teeth.get());
  }

  [[nodiscard]] std::string times() const {
    if (!view_.take_again_at_most.known()) return {};
    return ", at most " + std::to_string(view_.take_again_at_most.get()) + " times";
  }

  void patient_pose() {
    if (view_.head.known()) add(patient, "head " + view_.head.get());
    if (view_.mouth.known() && !view_.mouth->empty()) add(patient, "mouth " + view_.mouth.get());
    if (view_.least_opening.known()) {
      add(patient, "mouth open at least " + physics::to_text(view_.least_opening.get()));
    }
    if (view_.dentures.known()) add(patient, "dentures " + view_.dentures.get());
    // What goes in goes in with the teeth apart: they meet afterwards.
    if (view_.insert_with.absent()) teeth();
    if (view_.lips.known()) add(patient, "lips " + view_.lips.get());
  }

  void retractor(const text::Sourced<model::Retractor>& asked, const FactDef<Said>& def,
                 const std::string& side) {
    if (!asked.known()) return;
    const model::Retractor& r = asked.get();
    if (r.mirror_takes_place) {
      add(helper_, side + " side: no retractor, the mirror takes its place");
      return;
    }
    if (r.none) {
      add(helper_, side + " side: no retractor");
      return;
    }
    std::string what = side + " side: ";
    const auto chosen = job_.facts.get(def);
    what += chosen ? chosen->own : "retractor";
    if (!r.end.empty()) what += ", " + r.end;
    what += ", wetted and turned in";
    if (!r.tension.empty()) what += ", tension " + r.tension;
    if (!r.pull.empty()) what += ", pulled " + r.pull;
    if (r.held_by) what += holder(*r.held_by);
    add(helper_, what);
  }

  /// `, 40 deg from the patient's right`; nothing from the front.
  static std::string towards_side(std::optional<Angle> azimuth) {
    if (!azimuth || abs(*azimuth) < 1.0 * degree) return {};
    return ", " + physics::to_text(abs(*azimuth)) + " from the patient's " +
           (*azimuth > Angle{} ? "right" : "left");
  }

  void mirror() {
    if (!view_.mirror.known()) return;
    const auto name = job_.facts.get(fact::mirror);
    if (view_.mirror->warmed)
      add(who(view_.mirror->held_by == model::Person::patient ? std::nullopt
                                                              : view_.mirror->held_by,
              helper_),
          "warm the mirror in water first, so that it does not fog");
    std::string what = view_.mirror->turned_over ? "turn over " : "put in ";
    what += name ? name->own : std::string("the mirror");
    const std::string on = job_.facts.text(fact::mirror_side);
    if (!on.empty()) what += ", on the patient's " + on;
    if (!view_.mirror->end.empty()) what += ", " + view_.mirror->end;
    const std::string angle = job_.facts.text(fact::mirror_angle);
    if (!angle.empty()) what += ", opened " + angle + " from the biting plane";
    const std::string moved = job_.facts.text(fact::mirror_moved);
    if (!moved.empty())
      what += ", its middle " + moved + " to the patient's " +
              std::string(model::to_text(*job_.facts.get(fact::mirror_moved_to)));
    const std::string from_midline = job_.facts.text(fact::mirror_from_midline);
    if (!from_midline.empty())
      what += ", between cheek and teeth, opened about " + from_midline + " from the midline";
    const std::string behind = job_.facts.text(fact::mirror_behind_teeth);
    const bool lower = shown_jaw(view_) == model::Jaw::lower;
    const std::string rise = job_.facts.text(fact::mirror_rise);
    if (!rise.empty()) {
      what += ", between tongue and teeth, leant so that the camera looks in from " +
              job_.facts.text(fact::camera_below) + (lower ? " above" : " below") +
              towards_side(job_.facts.get(fact::camera_azimuth)) + ", its length rising by " + rise;
    }
    const model::MirrorUse use = view_.mirror->use;
    const bool teeth = view_.must_show.known() && !view_.must_show->empty();
    if (teeth && (use == model::MirrorUse::occlusal || use == model::MirrorUse::buccal)) {
      what += ", behind the last tooth without touching it";
    } else if (!behind.empty()) {
      what += ", its middle about " + behind +
              " behind the teeth, so that the camera looks in from " +
              job_.facts.text(fact::camera_below) + (lower ? " above" : " below");
    }
    add(who(view_.mirror->held_by, helper_), what);
  }

  void camera() {
    if (view_.operator_place.known()) {
      switch (view_.operator_place.get()) {
      case model::OperatorPlace::in_front: add(operator_, "stand in front of the patient"); break;
      case model::OperatorPlace::behind_head:
        add(operator_, "stand behind the patient's head");
        break;
      case model::OperatorPlace::at_right: add(operator_, "stand at the patient's right"); break;
      case model::OperatorPlace::at_left: add(operator_, "stand at the patient's left"); break;
      }
    }
    if (view_.guide.known()) add(operator_, "distance guide " + view_.guide.get());
    if (view_.frame.known()) {
      add(operator_, "frame of " + physics::to_text(view_.frame.get()) +
                         ": what is inside is in the picture, and in focus");
    }
    if (view_.background.known() || view_.behind_head.known()) {
      std::string behind = "background " + view_.background.value_or("");
      if (view_.behind_head.known()) {
        behind += (behind.back() == ' ' ? "" : ", ") + std::string("at least ") +
                  physics::to_text(view_.behind_head.get()) + " behind the head";
      }
      add(operator_, behind);
    }
    std::string what = "hold the camera " + job_.facts.text(fact::camera_held);
    if (view_.camera.known()) {
      const model::CameraPlace& c = view_.camera.get();
      if (c.from) {
        what += ", " + physics::to_text(c.azimuth) + " from the midline towards the patient's " +
                std::string(model::to_text(*c.from));
      } else {
        what += ", straight ahead";
      }
      if (c.elevation != Angle{}) {
        what += ", " + physics::to_text(abs(c.elevation)) +
                (c.elevation > Angle{} ? " from above" : " from below");
      }
      if (c.upside_down) what += ", upside down";
    } else if (view_.taken_in_mirror && view_.mirror.known()) {
      what += ", square to the teeth in the mirror";
    }
    const auto turn = job_.facts.get(fact::camera_turn);
    if (turn && abs(*turn) >= 1.0 * degree) {
      what += ", then turn it " + physics::to_text(abs(*turn)) +
              (*turn > Angle{} ? " anticlockwise" : " clockwise") +
              " so that the teeth lie level in the picture";
    }
    const std::string distance = job_.facts.text(fact::working_distance);
    if (!distance.empty()) {
      what += ", front of the lens " + distance + " from " + std::string(subject());
      if (view_.taken_in_mirror) what += " by way of the mirror";
    }
    add(operator_, what);
  }

  void aim() {
    std::string what;
    const std::string aim = job_.facts.text(fact::aim);
    if (!aim.empty()) what = "centre " + aim;
    std::string focus = job_.facts.text(fact::focus);
    if (focus.empty() && view_.focus.known()) focus = aim_text(view_.focus.get());
    if (focus.empty() && !aim.empty() && view_.kind == model::ViewKind::mouth) focus = "there";
    if (!focus.empty()) what += std::string(what.empty() ? "" : ", ") + "focus " + focus;
    if (!what.empty()) add(operator_, what);
  }

  void lamp() {
    const std::string side = job_.facts.text(fact::lamp_side);
    if (side.empty() || side == "neither") return;
    const kit::Lamp* lamp = job_.out.chosen.lamp;
    const bool moves =
        lamp != nullptr && lamp->moves.known() && lamp->moves.get() == kit::LampMoves::by_hand;
    add(operator_,
        moves ? "move the lamp to the side of " + side : "the lamp is on the side of " + side);
  }

  void shown() {
    std::string all;
    if (view_.must_show.known()) all = model::to_text(view_.must_show.get());
    if (view_.things_shown.known()) {
      for (const std::string& thing : view_.things_shown.get())
        all += (all.empty() ? "" : ", ") + (thing == "whole head" ? the(thing) : thing);
    }
    if (view_.every_tooth_present) all += ", every tooth that is there";
    if (!all.empty()) add(operator_, "look for: all of " + all);
    if (view_.must_not_show.known()) {
      std::string what;
      for (const std::string& thing : view_.must_not_show.get()) {
        what += (what.empty() ? "" : ", ") + thing;
      }
      add(operator_, "keep out of the picture: " + what);
    }
    if (view_.or_else_show.known()) {
      add(operator_, "where the mouth does not allow it, at least " +
                         model::to_text(view_.or_else_show.get()));
    }
    if (view_.or_else_view.known()) {
      const model::View* other = job_.protocol.view(view_.or_else_view.get());
      add(operator_, "where it cannot be had, take instead: " +
                         (other == nullptr ? view_.or_else_view.get() : other->title));
    }
    if (view_.tolerance_angle.known() || view_.tolerance_distance.known()) {
      std::string off = "the camera may be off by ";
      if (view_.tolerance_angle.known()) off += physics::to_text(view_.tolerance_angle.get());
      if (view_.tolerance_distance.known()) {
        off += (view_.tolerance_angle.known() ? " and " : "") +
               physics::to_text(view_.tolerance_distance.get()) + " of distance";
      }
      add(operator_, off);
    }
  }

  /// What the distance is measured to.
  [[nodiscard]] std::string_view subject() const {
    return view_.kind == model::ViewKind::face ? "the face" : "the teeth";
  }

  Job& job_;
  const model::View& view_;
  std::string_view helper_ = assistant; // who does what is said of nobody
  bool taken_ = false;                  // what is added comes after the picture
};

} // namespace

void plan_steps(Job& job) { Steps(job).write(); }

} // namespace norma::plan
