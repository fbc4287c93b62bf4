#include "physics/scene/mouth.hpp"

#include <algorithm>

#include "physics/defaults.hpp"

namespace norma::physics {
namespace {

constexpr Length gum_height = 12.0 * mm;
constexpr Length cheek_back = 80.0 * mm;  // how far a cheek runs back; longer than any arch
constexpr Length cheek_thick = 40.0 * mm; // outwards: beyond it there is no way past
constexpr Length half_face = 80.0 * mm;
constexpr Length lip_thick = 10.0 * mm;
constexpr int lip_pieces = 8; // on each side: within 0.2 mm of the curve

/// Part of a crown between two shares of its height, `width_share` of its width, from `behind` to
/// `ahead` of its middle (ahead is towards lip or cheek).
Box slice(const Crown& c, double from, double to, double width_share, Length behind, Length ahead) {
  Box b;
  b.middle =
      c.edge + c.root * (0.5 * (from + to) * c.size.height) + c.facial * (0.5 * (ahead - behind));
  b.axes = {c.along, c.facial, c.root};
  b.half = {0.5 * width_share * c.size.width, 0.5 * (ahead + behind),
            0.5 * (to - from) * c.size.height};
  b.body = Body::crown;
  b.tooth = c.tooth;
  return b;
}

void add_gum(std::vector<Box>& out, const Crown& c) {
  const Length gum_half = 0.5 * c.size.depth_at_neck;
  Box gum = slice(c, 0.0, 1.0, 1.0, gum_half, gum_half);
  gum.middle = c.edge + c.root * (c.size.height + 0.5 * gum_height);
  gum.half[2] = 0.5 * gum_height;
  gum.body = Body::gum;
  out.push_back(gum);
}

void add_crown(std::vector<Box>& out, const Crown& c) {
  const Length sag = c.shape.face_sag * c.size.width;
  constexpr double cuts[] = {0.0, 0.2, 0.5, 1.0};
  constexpr double core =
      0.6; // of the width: what reaches to the tongue side and to the face's middle
  for (int i = 0; i < 3; ++i) {
    const Length half = 0.5 * depth_at(c, 0.5 * (cuts[i] + cuts[i + 1]));
    // The face's ends lie in by the sag. Teeth taper to the tongue side, where full widths of
    // neighbours on a curve would run into each other.
    out.push_back(slice(c, cuts[i], cuts[i + 1], 1.0, Length{}, std::max(half - sag, 0.3 * half)));
    out.push_back(slice(c, cuts[i], cuts[i + 1], core, half, half));
  }
}

Box wall(Point low, Point high, Body body) {
  Box b;
  b.middle = {(low.x + high.x) / 2.0, (low.y + high.y) / 2.0, (low.z + high.z) / 2.0};
  b.axes = {Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}};
  b.half = {(high.x - low.x) / 2.0, (high.y - low.y) / 2.0, (high.z - low.z) / 2.0};
  b.body = body;
  return b;
}

void add_cheek(std::vector<Box>& out, const MouthCorner& corner, bool right) {
  const Length outer = corner.side + cheek_thick;
  out.push_back(wall({right ? -outer : corner.side, corner.back, -half_face},
                     {right ? -corner.side : outer, corner.back + cheek_back, half_face},
                     Body::cheek));
}

/// Beyond the necks of the front teeth, from in front of their faces to the corners of the mouth:
/// its inner side is, in plan, a parabola on each side. `right`, `left`: where it ends.
void add_lip(std::vector<Box>& out, const std::vector<Crown>& arch, MouthCorner right,
             MouthCorner left, Length beyond_necks) {
  const auto front = std::min_element(
      arch.begin(), arch.end(), [](const Crown& a, const Crown& b) { return a.edge.y < b.edge.y; });
  const Crown& c = *front;
  const Length clear = c.size.height + beyond_necks;
  // Along the root of the front tooth, whichever way its jaw is turned.
  const Vec forward = unit(cross(Vec{1, 0, 0}, c.root));
  const Vec ahead = forward.y < 0 ? forward : -forward;
  const Length inner = 0.5 * (c.size.depth + lip_thick); // before the front tooth's middle
  const Point begin =
      Point{Length{}, c.edge.y, c.edge.z} + ahead * inner + c.root * (clear + 0.5 * half_face);
  for (const bool on_right : {true, false}) {
    const MouthCorner& corner = on_right ? right : left;
    const double outwards = on_right ? -1.0 : 1.0;
    const Length deep = std::max(Length{}, corner.back - (c.edge.y - inner));
    const auto at = [&](int step) {
      const double share = static_cast<double>(step) / lip_pieces;
      return begin + Vec{1, 0, 0} * (outwards * share * corner.side) -
             ahead * (share * share * deep);
    };
    for (int i = 0; i < lip_pieces; ++i) {
      const Vec along = unit(direction(at(i), at(i + 1)));
      const Vec out_of =
          unit(cross(along, c.root)) * (dot(cross(along, c.root), ahead) < 0 ? -1.0 : 1.0);
      Box b;
      const Length half = 0.5 * norm(direction(at(i), at(i + 1))) * mm;
      b.middle = at(i) + along * half + out_of * (0.5 * lip_thick);
      b.axes = {along, out_of, c.root};
      // Outside they would part.
      constexpr Length overlap = 0.5 * mm;
      b.half = {half + overlap, 0.5 * lip_thick, 0.5 * half_face};
      b.body = Body::lip;
      out.push_back(b);
    }
  }
}

/// The teeth of one jaw where they stand.
std::vector<Crown> jaw_in_place(const Anatomy& anatomy, const MouthState& state, bool upper) {
  std::vector<Crown> arch = anatomy.arch(upper);
  if (!state.opened || upper == state.of_upper) return arch;
  for (Crown& c : arch)
    c = state.of_upper ? in_pose(c, *state.opened) : out_of_pose(c, *state.opened);
  return arch;
}

bool stands(const MouthState& state, Tooth tooth) {
  return std::find(state.missing.begin(), state.missing.end(), tooth) == state.missing.end();
}

} // namespace

std::array<Box, 2> palate_and_floor(const MouthState& state) {
  const Anatomy& anatomy = state.anatomy ? *state.anatomy : *mean_anatomy(Dentition::adult);
  // From behind the incisors' necks to the last teeth, between the molars' tongue sides.
  const auto slab = [](const Crown& last, Length near, double up) {
    constexpr Length front = 10.0 * mm;
    constexpr Length thick = 60.0 * mm;
    const Length side = abs(last.edge.x) - 0.5 * last.size.depth;
    const Length far = near + thick;
    Box b = wall({-side, front, up > 0 ? near : -far}, {side, last.edge.y, up > 0 ? far : -near},
                 Body::gum);
    b.tooth = last.tooth;
    return b;
  };
  std::array<Box, 2> out{slab(anatomy.upper.front(), anatomy.palate, 1.0),
                         slab(anatomy.lower.front(), anatomy.floor, -1.0)};
  if (!state.opened) return out;
  // Of the jaw that is not shown middle and axes turn as a tooth's do.
  Box& other = out[state.of_upper ? 1 : 0];
  Crown c;
  c.edge = other.middle;
  c.along = other.axes[0];
  c.facial = other.axes[1];
  c.root = other.axes[2];
  c = state.of_upper ? in_pose(c, *state.opened) : out_of_pose(c, *state.opened);
  other.middle = c.edge;
  other.axes = {c.along, c.facial, c.root};
  return out;
}

std::span<const SurfacePoint> Mouth::grid_at_rest(const Crown& crown, Surface surface,
                                                  int n) const {
  if (anatomy == nullptr || n != Anatomy::grid_side) return {};
  const Crown* own = find_crown(anatomy->arch(crown.tooth.is_upper()), crown.tooth);
  if (own == nullptr || *own != crown) return {};
  return anatomy->surface(*own, surface);
}

std::vector<Box> make_jaw(const MouthState& state, bool upper) {
  const Anatomy& anatomy = state.anatomy ? *state.anatomy : *mean_anatomy(Dentition::adult);
  std::vector<Box> out;
  for (const Crown& c : jaw_in_place(anatomy, state, upper)) {
    add_gum(out, c);
    if (stands(state, c.tooth)) add_crown(out, c);
  }
  return out;
}

Mouth make_mouth(const MouthState& state) {
  Mouth mouth;
  mouth.anatomy = state.anatomy ? state.anatomy : mean_anatomy(Dentition::adult);
  const std::vector<Crown> above = jaw_in_place(*mouth.anatomy, state, true);
  const std::vector<Crown> below = jaw_in_place(*mouth.anatomy, state, false);
  constexpr std::size_t a_tooth = 7;                 // boxes of a crown and its gum
  constexpr std::size_t around = 2 + 4 * lip_pieces; // cheeks and lips
  mouth.crowns.reserve(above.size() + below.size());
  mouth.boxes.reserve((above.size() + below.size()) * a_tooth + around);
  for (const std::vector<Crown>* arch : {&above, &below}) {
    for (const Crown& c : *arch) {
      add_gum(mouth.boxes, c);
      if (!stands(state, c.tooth)) continue;
      mouth.crowns.push_back(c);
      add_crown(mouth.boxes, c);
    }
  }
  if (state.right) add_cheek(mouth.boxes, *state.right, true);
  if (state.left) add_cheek(mouth.boxes, *state.left, false);
  if (state.right || state.left) {
    const Length clear = state.lips_clear.value_or(defaults::lip_clear.value * mm);
    // A corner that nobody holds: like the other one.
    const MouthCorner right = state.right ? *state.right : *state.left;
    const MouthCorner left = state.left ? *state.left : *state.right;
    add_lip(mouth.boxes, above, right, left, clear);
    add_lip(mouth.boxes, below, right, left, clear);
  }
  return mouth;
}

} // namespace norma::physics
