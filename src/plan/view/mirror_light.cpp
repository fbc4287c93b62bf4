#include <algorithm>
#include <cmath>

#include "kit/due.hpp"
#include "physics/grey_card.hpp"
#include "physics/mirror.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// At which angle the camera's axis meets the mirror, where it stands; false (said in the facts)
/// where that is not known.
bool set_incidence(Job& job) {
  const Recording one(job.facts);
  std::optional<physics::Vec> normal;
  if (job.out.scene && job.out.scene->eye.mirror) {
    job.facts.use(job.out.read);
    normal = job.out.scene->eye.mirror->normal;
  } else if (job.view.mirror->use == model::MirrorUse::occlusal && job.axes()) {
    normal = physics::arch_mirror_normal(shown_jaw(job.view) == model::Jaw::upper,
                                         *job.facts.get(fact::mirror_angle));
  }
  if (!normal) {
    job.facts.put_unknown(fact::mirror_incidence, missing::mirror_place());
    return false;
  }
  const physics::Vec axis =
      job.out.scene ? job.out.scene->eye.lens.axes.forward : job.axes()->forward;
  const double cosine = std::abs(physics::dot(axis, *normal));
  job.facts.put(fact::mirror_incidence, std::acos(std::min(1.0, cosine)) * radian);
  return true;
}

/// Numbers of pairs, counted from 1.
List numbers(const std::vector<std::size_t>& pairs) {
  List out;
  for (const std::size_t p : pairs)
    out.items.emplace_back(static_cast<int>(p + 1));
  return out;
}

/// The loss from pairs of grey cards.
void set_loss_by_grey_card(Job& job, const kit::Mirror& mirror) {
  const physics::GreyCardLoss found = physics::loss_by_grey_card(mirror.grey_card.get());
  job.facts.put(fact::grey_cards_used, static_cast<int>(found.used));
  job.facts.put(fact::grey_cards_clipped, static_cast<int>(found.clipped.size()));
  job.facts.put(fact::grey_cards_outliers, static_cast<int>(found.outliers.size()));
  std::vector<std::size_t> out_of_use = found.clipped;
  out_of_use.insert(out_of_use.end(), found.outliers.begin(), found.outliers.end());
  std::sort(out_of_use.begin(), out_of_use.end());
  if (!out_of_use.empty()) {
    // What is left out, and with it the mean, hangs on the limits by which it is.
    namespace d = physics::defaults;
    for (const auto* limit : {&d::clipped_dark, &d::clipped_bright, &d::outlier_limit,
                              &d::outlier_spread, &d::outlier_pairs})
      job.facts.take(*limit);
    job.facts.put(fact::grey_cards_left_out, numbers(out_of_use));
  }
  job.facts.find(fact::grey_cards_used);
  if (found.used == 0) {
    const Said which = name_or(mirror.name, phrase::the_mirror());
    return job.facts.put_unknown(fact::mirror_loss, missing::grey_cards(which));
  }
  job.facts.put(fact::mirror_loss, found.mean);
  if (found.used > 1) job.facts.put(fact::mirror_loss_spread, found.standard_error);
}

void set_loss(Job& job) {
  const Recording one(job.facts);
  if (!job.facts.needs(fact::mirror_loss, {&fact::mirror})) return;
  const kit::Mirror& mirror = *job.mirror();
  if (mirror.loss.known()) {
    job.facts.put(fact::mirror_loss, mirror.loss.get());
    if (mirror.loss_spread.known())
      job.facts.put(fact::mirror_loss_spread, mirror.loss_spread.get());
  } else if (mirror.grey_card.known()) {
    set_loss_by_grey_card(job, mirror);
  } else if (mirror.reflectance.known()) {
    job.facts.put(fact::mirror_loss, physics::loss_of_picture(mirror.reflectance.get()));
  } else if (mirror.loss.broken() || mirror.reflectance.broken() || mirror.grey_card.broken()) {
    job.facts.put_broken(fact::mirror_loss);
  } else {
    job.facts.put_unknown(fact::mirror_loss,
                          missing::loss(name_or(mirror.name, phrase::the_mirror())));
  }
}

/// How well the loss is known, and for how long it holds.
void set_loss_limits(Job& job) {
  const Recording one(job.facts);
  if (!job.facts.has(fact::mirror_loss)) return;
  {
    const Recording spread(job.facts);
    job.facts.note(Status::assumed);
    if (job.facts.has(fact::mirror_loss_spread))
      job.facts.put(fact::mirror_loss_spread_limit, (1.0 / 3.0) * stop);
    if (job.facts.has(fact::grey_cards_used))
      job.facts.give(fact::grey_cards_least, physics::defaults::outlier_pairs);
  }
  const kit::Age age = kit::age_of(job.mirror()->measured, job.on);
  switch (age.since) {
  case kit::Age::Since::unreadable: return;
  case kit::Age::Since::nobody_said: return job.open(question::loss_holds, missing::day_measured());
  case kit::Age::Since::ahead: return job.open(question::loss_holds, missing::day_measured_ahead());
  case kit::Age::Since::day: break;
  }
  job.facts.put(fact::mirror_loss_age, age.months);
  job.give_limit(fact::mirror_loss_age_limit, physics::defaults::loss_good_for);
}

void set_ghost(Job& job) {
  const Recording one(job.facts);
  const kit::Mirror& mirror = *job.mirror();
  if (mirror.surface.broken()) return job.facts.put_broken(fact::mirror_surface);
  if (mirror.surface.absent())
    return job.facts.put_unknown(fact::mirror_surface, missing::silver());
  job.facts.put(fact::mirror_surface, mirror.surface.get());
  if (job.facts.get(fact::mirror_surface) != kit::MirrorSurface::rear) return;
  if (mirror.glass.broken()) return job.facts.put_broken(fact::ghost);
  if (mirror.glass.absent()) {
    job.facts.put_unknown(fact::ghost, missing::glass());
    return job.open(question::second_image_beside, missing::glass());
  }
  const RefractiveIndex n = mirror.glass_index.known()
                                ? mirror.glass_index.get()
                                : RefractiveIndex{job.facts.take(physics::defaults::glass_index)};
  if (!set_incidence(job)) {
    job.facts.needs(fact::ghost, {&fact::mirror_incidence});
    return job.open(question::second_image_beside, missing::mirror_place());
  }
  const Angle angle = *job.facts.get(fact::mirror_incidence);
  job.facts.put(fact::ghost, physics::ghost_offset(mirror.glass.get(), n, angle));
  job.facts.put(fact::ghost_strength, physics::front_reflection(n, angle));
  job.facts.work_out(
      fact::ghost_on_sensor, [](Length d, Magnification m) { return d * m.value(); }, fact::ghost,
      fact::ratio);
}

} // namespace

void plan_mirror_light(Job& job) {
  if (!job.view.mirror.known() || !job.view.taken_in_mirror) return;
  set_loss(job);
  if (job.mirror() == nullptr) return;
  set_loss_limits(job);
}

void plan_second_image(Job& job) {
  if (!job.view.mirror.known() || !job.view.taken_in_mirror || job.mirror() == nullptr) return;
  set_ghost(job);
}

} // namespace norma::plan
