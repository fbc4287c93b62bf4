#include "plan/job.hpp"
#include "words/codes.hpp"

namespace norma::plan {
namespace {

using physics::Axes;
using physics::Turn;
using words::MirrorState;

physics::PictureEdge edge_of(model::Edge e) {
  switch (e) {
  case model::Edge::top: return physics::PictureEdge::top;
  case model::Edge::bottom: return physics::PictureEdge::bottom;
  case model::Edge::left: return physics::PictureEdge::left;
  case model::Edge::right: return physics::PictureEdge::right;
  }
  return physics::PictureEdge::top;
}

/// Where a landmark lies in the patient, seen from the middle of the arch.
physics::Vec landmark_direction(const Job& job, model::Landmark landmark) {
  if (landmark == model::Landmark::front_teeth) return {0, -1, 0};
  if (landmark == model::Landmark::back_teeth) return {0, 1, 0};
  // Biting edges lie away from the roots.
  return {0, 0, shown_jaw(job.view) == model::Jaw::lower ? 1.0 : -1.0};
}

std::optional<physics::Orientation> code_orientation(const words::ViewCode& code) {
  if (code.row.empty() || code.column.empty()) return std::nullopt;
  return physics::Orientation{code.row.front(), code.column.front()};
}

/// The picture as it will be kept, and what must be done for it; nothing where it cannot be had.
std::optional<Axes> set_turn(Job& job) {
  if (job.view.picture.broken()) {
    job.facts.put_broken(fact::turn);
    return std::nullopt;
  }
  const model::Picture picture = job.view.picture.value_or({});
  if (picture.stays_mirrored && picture.as_seen) {
    job.facts.put_impossible(fact::turn, phrase::cannot_stay_mirrored());
    return std::nullopt;
  }
  if (picture.stays_mirrored || (job.view.picture.absent() && !job.view.taken_in_mirror)) {
    job.facts.put(fact::turn, Turn::none);
    return job.axes();
  }
  if (job.view.picture.absent()) {
    job.facts.put_unknown(fact::turn, missing::wanted_picture());
    return std::nullopt;
  }
  std::optional<physics::Wish> wish;
  if (picture.edge) {
    wish = physics::Wish{landmark_direction(job, *picture.landmark), edge_of(*picture.edge)};
  }
  const Axes& shot = *job.axes();
  const auto turn = physics::turn_for(shot, wish);
  if (!turn) {
    const auto upright = physics::turn_for(shot, std::nullopt);
    job.facts.put_impossible(
        fact::turn, upright && picture.edge
                        ? phrase::do_not_come_to(term_of(*picture.landmark), term_of(*picture.edge),
                                                 physics::to_text(physics::orientation(
                                                     physics::turned(shot, *upright))))
                        : phrase::no_turn_leads_there());
    return std::nullopt;
  }
  const Axes kept = physics::turned(shot, *turn);
  job.facts.put(fact::orientation_wanted, physics::to_text(physics::orientation(kept)));
  job.facts.put(fact::turn, *turn);
  return kept;
}

// The view's code ---------------------------------------------------------------------------------

/// What about the code does not fit, empty where all does; `better` is set where the table has the
/// one that would.
Said code_fault(const Job& job, const words::ViewCode& code, const words::ViewCode*& better) {
  const model::View& view = job.view;
  const MirrorState state = !view.taken_in_mirror ? MirrorState::none
                            : view.picture.known() && view.picture->stays_mirrored
                                ? MirrorState::uncorrected
                                : MirrorState::corrected;
  const bool states_known = !view.taken_in_mirror || view.picture.known();
  if (states_known && code.mirror != state) {
    better = words::in_state(code, state);
    switch (state) {
    case MirrorState::none: return phrase::code_in_mirror();
    case MirrorState::uncorrected: return phrase::code_not_uncorrected();
    case MirrorState::corrected:
      return code.mirror == MirrorState::none ? phrase::code_without_mirror()
                                              : phrase::code_uncorrected();
    }
  }
  const auto azimuth = job.facts.get(fact::azimuth);
  const bool of_right = code.has_part("RB") || code.has_part("RL") || code.has_part("RP");
  const bool of_left = code.has_part("LB") || code.has_part("LL") || code.has_part("LP");
  // What is told as 0 degrees is straight ahead, and no code of the other side is better then.
  constexpr Angle hair = 0.05 * degree;
  const bool from_right = azimuth && *azimuth > hair;
  const bool from_left = azimuth && *azimuth < -hair;
  if (azimuth && of_right && !from_right) {
    if (!from_left) return phrase::code_from_right_view_ahead();
    better = words::other_side(code);
    return phrase::code_from_right_view_from_left();
  }
  if (azimuth && of_left && !from_left) {
    if (!from_right) return phrase::code_from_left_view_ahead();
    better = words::other_side(code);
    return phrase::code_from_left_view_from_right();
  }
  const auto jaw = shown_jaw(view);
  if (code.has_part("MX") && jaw != model::Jaw::upper) return phrase::code_of_upper_arch();
  if (code.has_part("MD") && code.has_part("OV") && jaw != model::Jaw::lower) {
    return phrase::code_of_lower_arch();
  }
  return {};
}

void set_code_fit(Job& job, const std::optional<Axes>& kept) {
  const auto& said = job.view.code;
  if (said.absent()) return;
  if (said.broken()) return job.facts.put_broken(fact::code_fits);
  const words::ViewCode& code = *said.get();
  const auto wanted = code_orientation(code);
  {
    const Recording one(job.facts);
    job.facts.note(Status::published);
    if (wanted) job.facts.put(fact::orientation_of_code, physics::to_text(*wanted));
  }
  const words::ViewCode* better = nullptr;
  job.facts.note(Status::published);
  Said fault = code_fault(job, code, better);
  // The standard's row for the uncorrected upper arch (IV24) contradicts its own mirror state; a
  // picture that stays mirrored is held against its state, side and jaw only.
  const bool stays = job.view.picture.known() && job.view.picture->stays_mirrored;
  if (fault.empty() && kept && wanted && !stays) {
    job.facts.find(fact::orientation_of_code);
    job.facts.find(fact::turn);
    if (!physics::agrees(*kept, *wanted))
      fault = phrase::code_lies(physics::to_text(*wanted),
                                physics::to_text(physics::orientation(*kept)));
  }
  if (fault.empty()) return job.facts.put(fact::code_fits, CodeFit::fits);
  if (better != nullptr && better != &code)
    job.facts.put(fact::code_that_fits, std::string(better->code));
  job.facts.put_impossible(fact::code_fits, std::move(fault));
}

/// The picture as it will be kept; nothing where it cannot be had.
std::optional<Axes> set_orientation(Job& job) {
  const Recording one(job.facts);
  const auto& axes = job.axes();
  if (axes) {
    job.facts.put(fact::orientation_shot, physics::to_text(physics::orientation(*axes)));
    job.facts.put(fact::mirrored, axes->mirrored() ? Mirroring::mirrored : Mirroring::none);
    return set_turn(job);
  }
  const Fact* open = job.facts.find(fact::azimuth);
  if (open == nullptr) open = job.facts.find(fact::elevation);
  job.facts.put_unknown(fact::orientation_wanted, open != nullptr && !open->why.empty()
                                                      ? open->why
                                                      : missing::camera_looks_from());
  return std::nullopt;
}

} // namespace

void plan_picture(Job& job) {
  {
    const Recording one(job.facts);
    const Fact* azimuth = job.facts.find(fact::azimuth);
    if (azimuth != nullptr && azimuth->state == State::broken)
      return job.facts.put_broken(fact::orientation_wanted);
  }
  const auto kept = set_orientation(job);
  const Recording one(job.facts);
  set_code_fit(job, kept);
}

} // namespace norma::plan
