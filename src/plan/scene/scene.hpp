// What the files of the scene share: everything that a look at one view takes, and how what comes
// out is judged.
#pragma once

#include <algorithm>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "physics/scene/look.hpp"
#include "plan/job.hpp"

namespace norma::plan {

using physics::enough_of;
using physics::Hider;
using physics::Shown;

/// A view that looks from less far aside is taken straight ahead.
inline constexpr Angle aside = 20.0 * degree;
/// Is this azimuth from one side? From behind the front teeth (in a round mirror) it is not.
inline bool from_side(Angle azimuth) {
  return abs(azimuth) >= aside && abs(azimuth) <= 180.0 * degree - aside;
}
inline constexpr Angle angle_step = 5.0 * degree;

/// Everything a look at one view takes.
struct Setting {
  physics::MouthState mouth;
  Angle azimuth;
  Angle elevation;
  Angle roll;
  physics::Axes axes; // of the picture as shot; left-handed in a mirror
  physics::Point aim;
  Magnification ratio;
  Length pupil_distance;
  Size sensor; // as it is held
  std::vector<physics::Wanted> wanted;
  std::optional<physics::PlaneMirror> mirror;
  double seen_share = 0;   // of a surface, that is enough
  double mirror_share = 0; // the same, within the mirror's outline
  double lit_share = 0;    // of what is seen of it
};

/// Surfaces to look at, each once.
std::vector<physics::Wanted> wanted_of(const Job& job, const model::Faces& faces);
/// The setting of a view; nothing (and what is missing) where it cannot be looked at.
std::optional<Setting> setting_of(Job& job, Said& missing);
physics::Eye eye_of(const Setting& s);
std::vector<Shown> look_at(const Setting& s, const physics::Lamp* lamp = nullptr);

/// Where a retractor with this pull holds the corner of the mouth: as the kit has measured it, else
/// assumed.
struct HeldCorner {
  physics::MouthCorner corner;
  Status status = Status::assumed;
};
HeldCorner corner_of(const Job& job, const model::Retractor& retractor);

/// A mirror of this outline over an arch: its back end behind the last tooth that must show, opened
/// from the biting plane, moved aside where teeth of one side must show.
physics::PlaneMirror arch_mirror(const Job& job, bool upper, Angle opened,
                                 const physics::PlaneMirror& outline);
/// The arch mirror of a setting opened otherwise; the camera stays where the protocol has it, or
/// goes with the mirror so that its image stays square to the arch.
Setting opened_otherwise(const Job& job, const Setting& setting, Angle opened);
/// The angle of an arch mirror, nearest to the one it has and with room in the mouth, at which the
/// setting is good; nothing where none is.
std::optional<Angle> nearest_good_angle(const Job& job, const Setting& setting,
                                        const std::function<bool(const Setting&)>& good);
/// Puts the kit's mirror in its place, one for a side view where it shows most; what is missing,
/// empty where it stands.
Said place_mirror(Job& job, Setting& setting);
/// Its size, the end first that goes into the mouth: the wide one, unless the view says otherwise.
void set_outline(physics::PlaneMirror& m, const model::Mirror& use, const kit::Mirror& mirror);
/// Crowns and gum: what a mirror cannot go through.
std::vector<physics::Box> hard_bodies(const Setting& setting);
/// A mirror between tongue and back teeth.
Said place_lingual_mirror(Job& job, Setting& setting, const kit::Mirror& mirror);
/// Where the back edge of an arch mirror lies: a little behind the last tooth that must show.
Length mirror_behind(const Job& job);

/// The mirror ends before it shows the surface whole.
bool cut_off(const Shown& s);
/// Enough of every surface is seen.
inline bool shows_all(const std::vector<Shown>& shown) {
  return std::all_of(shown.begin(), shown.end(), enough_of);
}
/// Hidden by something that stands in front; a surface turned from the lens is another matter.
bool stands_behind(const Shown& s);

std::vector<physics::Tooth> teeth_of(const std::vector<Shown>& shown, auto which) {
  std::vector<physics::Tooth> out;
  for (const Shown& s : shown) {
    if (which(s)) out.push_back(s.tooth);
  }
  return out;
}

/// Adds to a list what it does not hold yet.
inline void add_once(List& list, Said what) {
  diag::Value one(std::move(what));
  if (std::find(list.items.begin(), list.items.end(), one) == list.items.end())
    list.items.push_back(std::move(one));
}

/// How what must show lies in the frame: margins, cant, asymmetry, bow.
void lay_out(Job& job, const Setting& setting);
/// What would mend it, tried in the model: another angle, a firmer pull, a wider mirror.
void try_remedies(Job& job, const Setting& setting);
void try_mirrors(Job& job, const Setting& setting);
/// A narrower mirror of the kit that shows all.
void try_smaller_mirror(Job& job, const Setting& setting);
/// Whether a side view shows all squarely without its mirror, the retractor pulled firmly.
void try_without_mirror(Job& job, const Setting& setting);
/// A mirror of the kit between cheek and teeth, for a side view taken directly.
void try_side_mirror(Job& job, const Setting& setting);
/// The same with the corners of the mouth farther in: what hangs on the assumption.
void try_corner(Job& job, Setting setting, const std::vector<physics::Tooth>& before);
/// Does the mirror pass the teeth and gum of the other jaw with the mouth so far open?
bool clears(const Setting& setting, Length opening);
/// An arch mirror where it passes between the corners of the mouth, and how far they are apart;
/// nothing where no retractors hold them.
struct RoomAtCorners {
  Length mirror;
  Length between;
};
/// One that is moved aside takes as much as one that is so much wider on both sides.
std::optional<RoomAtCorners> room_at_corners(const Setting& setting);
/// The setting with another mirror in a place of its own; nothing where it has none, and beside the
/// tongue, where that is searched with the view's own.
std::optional<Setting> with_mirror(const Job& job, const Setting& setting,
                                   const kit::Mirror& mirror);
/// A mirror of the same shape, wider or narrower by `scale`; its length stays.
kit::Mirror scaled(const kit::Mirror& mirror, double scale);
/// Whether the mirror has room between the jaws and between the corners of the mouth.
void fit_mirror(Job& job, const Setting& setting);
/// Does the mirror show the lamp itself? No, where lamp or distance are not known.
bool shows_lamp(const Job& job, const Setting& setting);
/// Light and shadow on what is seen, with the kit's lamp where it is and on the other side.
void light_scene(Job& job, const Setting& setting);

} // namespace norma::plan
