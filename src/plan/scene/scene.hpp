// What the files of the scene share: a view as placing/ takes it, and where it stands. Each file
// asks placing/ one thing and writes what comes of it into facts.
#pragma once

#include <algorithm>
#include <optional>
#include <utility>

#include "placing/pose.hpp"
#include "plan/job.hpp"

namespace norma::plan {

using placing::Pose;
using placing::Setting;
using placing::Shown;
using placing::teeth_of;

/// A view, and where it stands; with what was read for mouth, camera and mirror, and besides that
/// for the lamp, and for what must be sharp.
struct Placed {
  Setting setting;
  Pose pose;
  std::optional<physics::Lamp> lamp; // where it stands; nothing where that is not known
  Said no_lamp;                      // what is missing then; empty where the kit has none
  facts::Record read;
  facts::Record lamp_read;
  facts::Record sharp_read;
};

/// The view of a job; nothing (and what is missing) where it cannot be looked at.
std::optional<Placed> placed_view(Job& job, Said& missing);
/// The kit's mirror in its place in the mouth; nothing (and what is missing) where it has none.
std::optional<Pose> placed_mirror(Job& job, Setting& setting, const Pose& bare,
                                  const facts::Record& lamp, Said& missing);
/// The kit's lamp and one that burns with it, both as bright as they are to each other; no lamp,
/// and what is missing, where that or where they stand is not known.
Said set_lamps(const Job& job, placing::Setting& setting);
/// The greatest obliquity at which a surface does not count as turned away, where the view does not
/// say.
Given turned_limit(const Job& job);
/// How much of a surface must be seen, and lie in a mirror, as facts that are read.
void read_least_seen(const Job& job);
/// Where a firm pull holds the corner of the mouth, the same.
void read_firm_pull(const Job& job);
/// A mirror of the kit with known sizes, the end first that the view wants in the mouth.
placing::Sheet sheet_of(const kit::Mirror& mirror, const model::Mirror& use);

/// Adds to a list what it does not hold yet.
inline void add_once(List& list, Said what) {
  diag::Value one(std::move(what));
  if (std::find(list.items.begin(), list.items.end(), one) == list.items.end())
    list.items.push_back(std::move(one));
}

/// How what must show lies in the frame: margins, cant, asymmetry, bow.
void lay_out(Job& job, const Placed& view);
/// What would mend what is hidden: another angle, a firmer pull.
void try_remedies(Job& job, const Placed& view);
/// A wider or a longer mirror.
void try_mirrors(Job& job, const Placed& view);
/// A narrower mirror of the kit that shows all.
void try_smaller_mirror(Job& job, const Placed& view);
/// Whether a side view shows all squarely without its mirror, the retractor pulled firmly.
void try_without_mirror(Job& job, const Placed& view);
/// A mirror of the kit between cheek and teeth, for a side view taken directly.
void try_side_mirror(Job& job, const Placed& view);
/// The same with the corners of the mouth farther in: what hangs on the assumption. `before`: what
/// is hidden; `farther_in`: what is seen so.
void try_corner(Job& job, const std::vector<physics::Tooth>& before,
                const std::vector<Shown>& farther_in);
/// In how many mouths what must show is seen, in the mirror, not turned away and lit, and the
/// mirror has room; where one of these fails in the mean mouth, or comes near to it.
void judge_in_mouths(Job& job, const Placed& view, const std::vector<Shown>& farther_in);
/// What stands before those that are hidden, and before the lamp of those in shadow.
List hiders_of(const std::vector<Shown>& shown);
List shades_of(const std::vector<Shown>& shown);
/// Whether the mirror has room between the jaws and between the corners of the mouth.
void fit_mirror(Job& job, const Placed& view);
/// What must not show and lies in the picture.
void judge_unwanted(Job& job, const Placed& view);
/// What must not show and nobody can judge; `judged`: the view was looked at.
void open_unwanted(Job& job, bool judged);
/// Whether the view holds all it promises as far as its tolerance goes.
void try_tolerance(Job& job, const Placed& view);
/// Light and shadow on what is seen, with the kit's lamp where it is and on the other side.
void light_scene(Job& job, const Placed& view);

} // namespace norma::plan
