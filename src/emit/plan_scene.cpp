#include "emit/plan_scene.hpp"

#include <algorithm>

#include "emit/plan_values.hpp"
#include "physics/scene/viewfinder.hpp"

namespace norma::emit {
namespace {

namespace file = planfile;

constexpr int of_lengths = 3;
constexpr int on_sensor = 2; // a hundredth of a millimetre there is no line's width
constexpr int of_directions = 6;

double in_mm(Length l) { return rounded(l.in(mm), of_lengths); }
file::Part part(double share) { return {std::clamp(rounded(share, of_lengths), 0.0, 1.0)}; }
file::Solid solid(physics::Point p) { return {in_mm(p.x), in_mm(p.y), in_mm(p.z)}; }
file::Solid solid(physics::Vec v) {
  return {rounded(v.x, of_directions), rounded(v.y, of_directions), rounded(v.z, of_directions)};
}

file::Outline outline(const physics::PictureOutline& points) {
  file::Outline out;
  for (const physics::SensorPoint& p : points)
    out.push_back({rounded(p.right.in(mm), on_sensor), rounded(p.up.in(mm), on_sensor)});
  return out;
}

file::Camera camera(const physics::Pinhole& lens) {
  return {solid(lens.pupil),          solid(lens.axes.forward),
          solid(lens.axes.right),     solid(lens.axes.up),
          in_mm(lens.focus_distance), rounded(lens.ratio.value(), of_directions)};
}

file::MirrorPose mirror_pose(const physics::PlaneMirror& m) {
  file::MirrorPose out{solid(m.middle), solid(m.normal), solid(m.across),
                       solid(m.along),  in_mm(m.width),  in_mm(m.narrow_end),
                       in_mm(m.length), in_mm(m.corner), {}};
  for (const physics::Point& p : physics::mirror_edge(m))
    out.outline.push_back(solid(p));
  return out;
}

file::Maybe<file::CornerPose> corner(const std::optional<physics::MouthCorner>& c) {
  if (!c) return std::nullopt;
  return file::CornerPose{in_mm(c->side), in_mm(c->back)};
}

file::SurfaceId surface(physics::Surface s) { return static_cast<file::SurfaceId>(s); }

} // namespace

std::vector<file::Shown> file_shown(const std::vector<physics::Shown>& shown) {
  std::vector<file::Shown> out;
  for (const physics::Shown& s : shown) {
    out.push_back({s.tooth, surface(s.surface), part(s.framed), part(s.facing), part(s.seen),
                   part(s.beside), rounded(s.obliquity.in(degree), 1),
                   static_cast<file::HiderId>(s.hider), s.hider_tooth, s.enough_seen, s.in_mirror});
  }
  return out;
}

file::Scene file_scene(const plan::Scene& scene, const physics::Mouth& mouth) {
  const physics::Eye& eye = scene.eye;
  file::Scene out;
  out.camera = camera(physics::camera_of(eye));
  if (eye.mirror) {
    out.seen_from = camera(eye.lens);
    out.mirror = mirror_pose(*eye.mirror);
  }
  for (const physics::Point& p : scene.lamp)
    out.lamp.push_back(solid(p));
  out.jaw = scene.mouth.of_upper ? file::JawId::upper : file::JawId::lower;
  out.teeth_apart = scene.mouth.opened.has_value();
  out.right_corner = corner(scene.mouth.right);
  out.left_corner = corner(scene.mouth.left);
  for (const physics::Crown& c : mouth.crowns) {
    out.crowns.push_back({c.tooth, solid(c.edge), solid(c.along), solid(c.facial), solid(c.root),
                          in_mm(c.size.width), in_mm(c.size.height), in_mm(c.size.depth)});
  }
  for (const physics::Box& b : mouth.boxes) {
    if (b.body == physics::Body::crown) continue;
    file::BoxPose& box = out.bodies.emplace_back();
    box.body = static_cast<file::BodyId>(b.body);
    if (b.body == physics::Body::gum) box.tooth = b.tooth;
    box.middle = solid(b.middle);
    box.along = solid(b.axes[0]);
    box.out = solid(b.axes[1]);
    box.up = solid(b.axes[2]);
    box.half = {in_mm(b.half[0]), in_mm(b.half[1]), in_mm(b.half[2])};
  }
  return out;
}

file::Viewfinder file_viewfinder(const plan::Scene& scene, const physics::Mouth& mouth) {
  file::Viewfinder out;
  out.frame = {in_mm(scene.eye.sensor.width), in_mm(scene.eye.sensor.height)};
  for (const physics::PicturedBody& b : physics::pictured(mouth, scene.eye)) {
    // A crown stays, so that it is said that it is hidden.
    const bool hidden = b.visible <= 0;
    if (hidden && b.what != physics::Pictured::crown) continue;
    file::PicturedBody& body = out.bodies.emplace_back();
    body.body = static_cast<file::BodyId>(b.what);
    const bool of_tooth = b.what == physics::Pictured::crown || b.what == physics::Pictured::gum;
    if (of_tooth) body.tooth = b.tooth;
    body.in_mirror = b.in_mirror;
    body.outline = outline(b.outline);
    for (const physics::PicturedSurface& s : b.surfaces) {
      if (!hidden) body.surfaces.push_back({surface(s.surface), outline(s.outline)});
    }
    body.nearest = in_mm(b.nearest);
    body.farthest = in_mm(b.farthest);
    body.framed = part(b.framed);
    body.visible = part(b.visible);
  }
  return out;
}

} // namespace norma::emit
