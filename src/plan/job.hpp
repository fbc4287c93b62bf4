// What the parts of the planner share while one view is worked out. Each part is a function in a
// file of its own; plan.cpp calls them in order.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "facts/facts.hpp"
#include "facts/phrases.hpp"
#include "facts/recorder.hpp"
#include "physics/anatomy/anatomy.hpp"
#include "physics/defaults.hpp"
#include "physics/orientation.hpp"
#include "placing/setting.hpp"
#include "plan/limits.hpp"
#include "plan/many_mouths.hpp"
#include "plan/plan.hpp"

namespace norma::plan {

namespace missing = diag::missing;
namespace question = diag::question;
using diag::List;
using diag::Said;

using facts::Given;
using facts::Recording;

/// What is worked out for one view. Facts, the kit and what was found before are read through its
/// functions, which record it; the members that end in _ hold what these read.
struct Job {
  const model::Protocol& protocol;
  const kit::Kit* kit_;
  const model::View& view;
  words::Date on;
  Work& out;
  facts::Recorder& facts;

  // Set by plan_camera: the picture as shot; nothing where it is not known which way it lies.
  std::optional<physics::Axes> axes_{};
  // Set by plan_framing: the place the camera is aimed at; nothing where it is not known.
  std::optional<physics::Point> aim_{};
  // What is missing to place the teeth; empty where they can be placed.
  Said no_teeth;
  // Whose teeth are placed; null only where `no_teeth` says why.
  std::shared_ptr<const physics::Anatomy> anatomy_;

  // Patients that the protocol is for, unlike as they are; made when they are first asked for.
  std::function<std::span<const mouths::Drawn>()> many_mouths;

  // The view as it came out before it was stopped down; null where it was not.
  const Facts* too_bright = nullptr;
  // Of a second choice nothing is asked but what it shows: no other mouths, no tolerance.
  bool second_choice = false;

  [[nodiscard]] bool has_kit() const { return kit_ != nullptr; }
  /// What is read of it is measured; null without a kit.
  [[nodiscard]] const kit::Kit* kit() const {
    if (kit_ != nullptr) facts.note(Status::measured);
    return kit_;
  }
  /// The picture as shot; nothing where it is not known which way it lies.
  [[nodiscard]] const std::optional<physics::Axes>& axes() const {
    read({&fact::azimuth, &fact::elevation, &fact::roll});
    return axes_;
  }
  /// The place the camera is aimed at; nothing where it is not known. The middle of what must show
  /// hangs on where it is seen from.
  [[nodiscard]] const std::optional<physics::Point>& aim() const {
    read({&fact::aim, &fact::patient, &fact::azimuth, &fact::elevation, &fact::roll});
    return aim_;
  }
  /// Whose teeth are placed; null only where `no_teeth` says why.
  [[nodiscard]] const std::shared_ptr<const physics::Anatomy>& anatomy() const {
    read({&fact::patient});
    return anatomy_;
  }
  /// Does the camera set ISO and shutter by itself? Then nobody knows them beforehand.
  [[nodiscard]] bool camera_exposes() const {
    if (kit_ == nullptr || !kit_->exposes_by_itself()) return false;
    facts.note(Status::measured);
    return true;
  }
  [[nodiscard]] const kit::Lamp* lamp() const { return piece(out.chosen.lamp, fact::lamp); }
  [[nodiscard]] const kit::Mirror* mirror() const { return piece(out.chosen.mirror, fact::mirror); }
  [[nodiscard]] const kit::Retractor* right_retractor() const {
    return piece(out.chosen.right_retractor, fact::right_retractor);
  }
  [[nodiscard]] const kit::Retractor* left_retractor() const {
    return piece(out.chosen.left_retractor, fact::left_retractor);
  }

  /// norma's limit, or the kit's own.
  [[nodiscard]] Given limit(const physics::Default& row) const { return limit_of(kit_, row); }
  /// The same as a fact, for rules to hold others against.
  template <class T> void give_limit(const FactDef<T>& def, const physics::Default& row) const {
    facts.give(def, limit_of(kit_, row));
  }
  /// The same, read here.
  template <class T> T limit(const FactDef<T>& def, const physics::Default& row) const {
    return facts.take(def, limit_of(kit_, row));
  }
  /// A question that stays open for want of a datum.
  void open(const diag::Term& question, Said missing) {
    out.open.push_back({question(), std::move(missing)});
  }

 private:
  void read(std::initializer_list<const FactRow*> rows) const {
    for (const FactRow* row : rows)
      facts.find(*row);
  }
  template <class T> const T* piece(const T* chosen, const FactRow& row) const {
    read({&row});
    return chosen;
  }
};

// In the order in which they run.
void plan_patient(Job& job);
void plan_camera(Job& job);
void plan_scale(Job& job);
void plan_framing(Job& job);
/// `or else show` against what comes first.
void plan_fallback(Job& job);
/// The view with what `or else show` names in the place of what must show.
model::View second_choice_of(const model::View& view);
/// What became of it, as facts of the view itself. `asked`: what `or else show` names.
void judge_fallback(Job& first, const Work& second, const model::Faces& asked);
void plan_sharpness(Job& job);
void plan_instruments(Job& job);
void plan_mirror_light(Job& job);
void plan_attachments(Job& job);
void plan_lamp_side(Job& job);
/// What the camera writes.
void plan_file_format(Job& job);
/// What the camera takes for white, against the lamp's colour.
void plan_white_balance(Job& job);
/// `why_not`: what is missing to look at the view in three dimensions; empty where it is looked at.
void plan_scene(Job& job, const Said& why_not);
/// The second image of a rear-surface mirror, where it stands.
void plan_second_image(Job& job);
void plan_glare(Job& job);
void plan_hands(Job& job);
void plan_picture(Job& job);
/// The view whose brightness another one is to match.
struct Reference {
  const model::View& view;
  const Facts& facts;  // the other view's
  bool itself = false; // the view is its own reference
};
/// `reference`: null where none is named.
void plan_light(Job& job, const Reference* reference);
/// How well the frame is used.
void plan_frame_use(Job& job);
/// Room's light, the flash's time and movement against the picture.
void plan_exposure_time(Job& job);
/// What wears off or has to be measured again: frosting, the lamp's reference shot.
void plan_upkeep(Job& job);
/// Whether the subject has room in front of lens and lamp.
void plan_lens_room(Job& job);
/// Which check is the tightest, and on what it hangs.
void plan_hangs(Job& job);
/// What is done at the chair, in its order.
void plan_acts(Job& job);

// Over all views ---------------------------------------------------------------------------------

/// How many views share a ratio.
void plan_ratios(Plan& plan);
/// Which view is taken of the other side, and what is not alike there.
void plan_sides(Plan& plan);
void plan_record(Plan& plan);
void plan_series(Plan& plan);

/// The pupil ratio at another ratio than that of the view, whose own is known: behind a close-up
/// lens it is not the same.
PupilRatio pupil_at(const Job& job, Magnification ratio);
/// How bright a lamp of the kit is at the aim at its full power, against another one; nothing (and
/// what is missing) where its reference shot or guide number does not say.
std::optional<double> light_at_aim(const Job& job, const kit::Lamp& lamp, Said& missing);
/// The lamp's plane behind the front of the lens; less than 0 where it stands out beyond it.
Length lamp_behind_front(const kit::Lamp& lamp);
/// A ratio on the kit's sensor as the protocol, with its own sensor, would ask for it.
Magnification as_asked(const Job& job, Magnification ratio);

// Teeth ------------------------------------------------------------------------------------------

/// Does the protocol say that its patients do not have it?
bool is_missing(const Job& job, physics::Tooth tooth);
/// The crown of a tooth of the patient the protocol is for; null where the model has none.
const physics::Crown* crown_of(const Job& job, physics::Tooth tooth);
/// The teeth that stand where these are named, milk teeth where the permanent ones are not there
/// yet, and these where the milk teeth have gone; nothing where a thing is named, or none stands.
std::optional<placing::TeethPair> pair_of(const Job& job, const model::Aim& aim);
/// The tooth, or the run of those that stand, that a picture is centred on; nothing as for
/// `pair_of`.
std::optional<placing::Centred> centred_on(const Job& job, const model::Aim& aim);
physics::Surface surface_of(model::Face face);
physics::Band band_of(std::optional<model::Third> third);
/// `faces`; where a view asks for whichever teeth are there, those that stand in the patient's
/// arch, of milk and permanent teeth whichever is there, each once.
model::Faces standing(const Job& job, const model::Faces& faces);
/// `the whole head`, `that tooth`, `the upper ridge`: a thing in a sentence.
Said the(model::AimedAt thing);
Said the(const model::ThingShown& thing);
/// `on 12`, `between 11 and 21`, `on that tooth`.
Said place_of(const model::Aim& aim);
/// What the clinic calls it; `kind` where it does not say.
Said name_or(const text::Sourced<std::string>& name, Said kind);
/// Surfaces of named faces, as often as they are named, and the teeth of them that cannot be
/// placed, each once: what is not known of one keeps nobody from working out the others.
struct NamedSurfaces {
  std::vector<physics::Wanted> placed;
  diag::Teeth unplaced; // what the protocol says is missing is not among them
  Said missing;         // of all that are left out; empty where none is

  /// What is missing where none is placed; `no_tooth` where none was named that stands.
  [[nodiscard]] Said why_none(const diag::Term& no_tooth) const {
    return missing.empty() ? no_tooth() : missing;
  }
};
NamedSurfaces surfaces_of(const Job& job, const model::Faces& faces);
/// The teeth that `that tooth` of the view may be, those that stand, each as one the view speaks
/// of; one nothing where it speaks of none.
std::vector<std::optional<physics::Tooth>> taken_as(const Job& job);
/// `faces`, and that tooth where `things` name it, taken as this one.
model::Faces with_that_tooth(const Job& job, const text::Sourced<model::Faces>& faces,
                             const text::Sourced<std::vector<model::ThingShown>>& things,
                             std::optional<physics::Tooth> tooth);
/// The same of what is aimed at.
model::Aim with_that_tooth(const model::Aim& aim, std::optional<physics::Tooth> tooth);
/// Opens a question for each of `things`, and of `faces` for each tooth that is left out while
/// others are worked out.
void open_items(Job& job, const diag::Sentence<1>& question,
                const text::Sourced<model::Faces>& faces,
                const text::Sourced<std::vector<model::ThingShown>>& things);
/// The patient's teeth, together, as placing/ takes them; only where they can be placed.
physics::MouthState at_rest(const Job& job);
/// The face that a view is about: facial where any facial face is named, else biting, else lingual.
model::Face main_face(const model::View& view);
/// Which jaw a view of one jaw shows; nothing where it shows both or none.
std::optional<model::Jaw> shown_jaw(const model::View& view);

} // namespace norma::plan
