#include <algorithm>

#include "kit/due.hpp"
#include "physics/grey_card.hpp"
#include "physics/mirror.hpp"
#include "plan/job.hpp"

namespace norma::plan {
namespace {

/// A mirror stands between camera and teeth: the light meets it at the angle by which it is opened
/// from the biting plane, where the camera looks square at the arch.
Angle incidence(const Job& job) {
  const auto opened = job.facts.get(fact::mirror_angle);
  return opened ? *opened : physics::defaults::mirror_angle.value * degree;
}

/// The loss from pairs of grey cards; false where none of them can be used.
bool set_loss_by_grey_card(Job& job, const kit::Mirror& mirror) {
  const physics::GreyCardLoss found = physics::loss_by_grey_card(mirror.grey_card.get());
  job.facts.set(fact::grey_cards_used, static_cast<int>(found.used), Status::measured,
                {&fact::mirror});
  job.facts.set(fact::grey_cards_clipped, static_cast<int>(found.clipped.size()), Status::measured);
  job.facts.set(fact::grey_cards_outliers, static_cast<int>(found.outliers.size()),
                Status::measured);
  const auto numbers = [](const std::vector<std::size_t>& pairs) {
    List out;
    for (const std::size_t p : pairs)
      out.items.emplace_back(static_cast<int>(p + 1));
    return out;
  };
  std::vector<std::size_t> out_of_use = found.clipped;
  out_of_use.insert(out_of_use.end(), found.outliers.begin(), found.outliers.end());
  std::sort(out_of_use.begin(), out_of_use.end());
  if (!out_of_use.empty())
    job.facts.set(fact::grey_cards_left_out, numbers(out_of_use), Status::measured);
  if (found.used == 0) {
    job.facts.set_unknown(fact::mirror_loss,
                          missing::grey_cards(name_or(mirror.name, phrase::the_mirror())));
    return false;
  }
  job.facts.set(fact::mirror_loss, found.mean, Status::measured,
                {&fact::mirror, &fact::grey_cards_used});
  if (found.used > 1)
    job.facts.set(fact::mirror_loss_spread, found.standard_error, Status::measured,
                  {&fact::grey_cards_used});
  return true;
}

void set_loss(Job& job, const kit::Mirror& mirror) {
  if (mirror.loss.known()) {
    job.facts.set(fact::mirror_loss, mirror.loss.get(), Status::measured, {&fact::mirror});
    if (mirror.loss_spread.known()) {
      job.facts.set(fact::mirror_loss_spread, mirror.loss_spread.get(), Status::measured);
    }
  } else if (mirror.grey_card.known()) {
    if (!set_loss_by_grey_card(job, mirror)) return;
  } else if (mirror.reflectance.known()) {
    job.facts.set(fact::mirror_loss, physics::loss_of_picture(mirror.reflectance.get()),
                  Status::measured, {&fact::mirror});
  } else if (mirror.loss.broken() || mirror.reflectance.broken() || mirror.grey_card.broken()) {
    job.facts.set_broken(fact::mirror_loss);
    return;
  } else {
    job.facts.set_unknown(fact::mirror_loss,
                          missing::loss(name_or(mirror.name, phrase::the_mirror())));
    return;
  }
  if (job.facts.get(fact::mirror_loss_spread)) {
    job.facts.set(fact::mirror_loss_spread_limit, (1.0 / 3.0) * stop, Status::assumed);
  }
  if (job.facts.get(fact::grey_cards_used)) {
    job.facts.set(fact::grey_cards_least, static_cast<int>(physics::defaults::outlier_pairs.value),
                  status_of(physics::defaults::outlier_pairs.origin));
  }
  const kit::Age age = kit::age_of(mirror.measured, job.on);
  switch (age.since) {
  case kit::Age::Since::unreadable: return;
  case kit::Age::Since::nobody_said:
    job.open(question::loss_holds, missing::day_measured());
    return;
  case kit::Age::Since::ahead:
    job.open(question::loss_holds, missing::day_measured_ahead());
    return;
  case kit::Age::Since::day: break;
  }
  job.facts.set(fact::mirror_loss_age, age.months, Status::measured);
  const LimitValue limit = job.limit(physics::defaults::loss_good_for);
  job.facts.set(fact::mirror_loss_age_limit, static_cast<int>(limit.value), limit.status);
}

void set_ghost(Job& job, const kit::Mirror& mirror) {
  if (mirror.surface.broken()) {
    job.facts.set_broken(fact::mirror_surface);
    return;
  }
  if (mirror.surface.absent()) {
    job.facts.set_unknown(fact::mirror_surface, missing::silver());
    return;
  }
  job.facts.set(fact::mirror_surface, mirror.surface.get(), Status::measured);
  if (mirror.surface.get() != kit::MirrorSurface::rear) return;
  if (!mirror.glass.known()) {
    if (mirror.glass.broken()) {
      job.facts.set_broken(fact::ghost);
    } else {
      job.facts.set_unknown(fact::ghost, missing::glass());
      job.open(question::second_image_beside, missing::glass());
    }
    return;
  }
  const physics::Default& usual = physics::defaults::glass_index;
  const Status status = mirror.glass_index.known() ? Status::measured : status_of(usual.origin);
  const RefractiveIndex n = mirror.glass_index.value_or(RefractiveIndex{usual.value});
  const Angle angle = incidence(job);
  std::vector<const FactRow*> from{&fact::mirror_surface};
  if (job.facts.get(fact::mirror_angle)) from.push_back(&fact::mirror_angle);
  job.facts.derive(fact::ghost, physics::ghost_offset(mirror.glass.get(), n, angle), from, status);
  job.facts.derive(fact::ghost_strength, physics::front_reflection(n, angle), from, status);
  if (job.facts.needs(fact::ghost_on_sensor, {&fact::ghost, &fact::ratio})) {
    job.facts.derive(fact::ghost_on_sensor,
                     *job.facts.get(fact::ghost) * job.facts.get(fact::ratio)->value(),
                     {&fact::ghost, &fact::ratio});
  }
}

} // namespace

void plan_mirror_light(Job& job) {
  if (!job.view.mirror.known() || !job.view.taken_in_mirror) return;
  if (!job.facts.needs(fact::mirror_loss, {&fact::mirror})) return;
  set_loss(job, *job.out.chosen.mirror);
  set_ghost(job, *job.out.chosen.mirror);
}

} // namespace norma::plan
