// Views of the right and the left side, held against each other.
#include <algorithm>
#include <cmath>
#include <tuple>

#include "plan/job.hpp"

namespace norma::plan {
namespace {

model::Faces mirrored(model::Faces faces) {
  for (model::NamedFace& f : faces)
    f.tooth = f.tooth.other_side();
  std::sort(faces.begin(), faces.end());
  return faces;
}

bool from(const ViewPlan& v, bool right) {
  const auto azimuth = v.facts.get(fact::azimuth);
  if (!azimuth || abs(*azimuth) < 20.0 * degree || abs(*azimuth) > 160.0 * degree) return false;
  return (*azimuth > Angle{}) == right;
}

template <class T> bool alike(const text::Sourced<T>& a, const text::Sourced<T>& b) {
  if (a.broken() || b.broken()) return true; // reported where it stands
  if (a.known() != b.known()) return false;
  if constexpr (std::is_same_v<T, model::Faces>) {
    return !a.known() || a.get() == mirrored(b.get());
  } else {
    return !a.known() || a.get() == b.get();
  }
}

bool same_apertures(const text::Sourced<model::ApertureRange>& a,
                    const text::Sourced<model::ApertureRange>& b) {
  if (!a.known() || !b.known()) return a.known() == b.known() || a.broken() || b.broken();
  return a->widest == b->widest && a->narrowest == b->narrowest;
}

/// What is not the same on both sides.
List differences(const ViewPlan& a, const ViewPlan& b) {
  List out;
  const auto add = [&](bool same, const diag::Term& what) {
    if (!same) out.items.emplace_back(what());
  };
  const model::View& x = *a.view;
  const model::View& y = *b.view;
  add(alike(x.ratio, y.ratio) && alike(x.field, y.field), phrase::differs_ratio);
  constexpr Angle same_angle = 0.5 * degree;
  add(abs(abs(*a.facts.get(fact::azimuth)) - abs(*b.facts.get(fact::azimuth))) < same_angle,
      phrase::differs_angle);
  const auto up_a = a.facts.get(fact::elevation);
  const auto up_b = b.facts.get(fact::elevation);
  if (up_a && up_b) add(abs(*up_a - *up_b) < same_angle, phrase::differs_height);
  add(same_apertures(x.aperture, y.aperture), phrase::differs_aperture);
  add(alike(x.iso, y.iso), phrase::differs_iso);
  add(alike(x.must_show, y.must_show), phrase::differs_shown);
  add(alike(x.must_be_sharp, y.must_be_sharp), phrase::differs_sharp);
  const auto held = [](const model::View& v) {
    return v.camera_held.known() ? std::optional(v.camera_held.get()) : std::nullopt;
  };
  add(held(x) == held(y), phrase::differs_hold);
  return out;
}

/// Teeth that both name, one of them mirrored: how much they are pictures of the same thing.
std::size_t in_common(const ViewPlan& a, const ViewPlan& b) {
  if (!a.view->must_show.known() || !b.view->must_show.known()) return 0;
  const model::Faces other = mirrored(b.view->must_show.get());
  const model::Faces& own = a.view->must_show.get();
  return static_cast<std::size_t>(std::count_if(own.begin(), own.end(), [&](const auto& f) {
    return std::binary_search(other.begin(), other.end(), f);
  }));
}

/// Could they be meant as a pair?
bool comparable(const ViewPlan& a, const ViewPlan& b) {
  if (a.view->kind != b.view->kind || a.view->taken_in_mirror != b.view->taken_in_mirror)
    return false;
  if (a.view->kind == model::ViewKind::face) return true;
  return in_common(a, b) > 0;
}

/// Is the one made from the other?
bool made_from(const ViewPlan& a, const ViewPlan& b) {
  return a.view->made_from == b.view->name || b.view->made_from == a.view->name;
}

/// The view of the other side that is most like this one, and what still differs: one that is
/// alike, else one that it is made from or that is made from it, else the one with most teeth in
/// common.
void set_other_side(ViewPlan& v, const std::vector<ViewPlan*>& others) {
  const ViewPlan* best = nullptr;
  List least;
  const auto rank = [&](const ViewPlan& other, const List& apart) {
    return std::tuple(apart.items.empty(), made_from(v, other), in_common(v, other),
                      -static_cast<int>(apart.items.size()));
  };
  for (const ViewPlan* other : others) {
    if (!comparable(v, *other)) continue;
    List apart = differences(v, *other);
    if (best != nullptr && rank(*other, apart) <= rank(*best, least)) continue;
    best = other;
    least = std::move(apart);
  }
  if (best == nullptr) return;
  facts::Recorder facts(v.company, &v.facts);
  facts.find(fact::azimuth);
  facts.put(fact::other_side_view, best->view->name);
  facts.find(fact::elevation);
  if (!least.items.empty()) facts.put(fact::other_side_differs, least);
}

} // namespace

void plan_sides(Plan& plan) {
  std::vector<ViewPlan*> right;
  std::vector<ViewPlan*> left;
  constexpr std::size_t most = 50; // views of a side that are compared; a record has two or three
  for (ViewPlan& v : plan.views) {
    if (from(v, true) && right.size() < most) right.push_back(&v);
    if (from(v, false) && left.size() < most) left.push_back(&v);
  }
  for (ViewPlan* v : left)
    set_other_side(*v, right);
  for (ViewPlan* v : right)
    set_other_side(*v, left);
}

} // namespace norma::plan
