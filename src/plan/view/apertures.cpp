#include "plan/view/apertures.hpp"

#include <algorithm>
#include <optional>

#include "physics/attached.hpp"
#include "physics/optics.hpp"

namespace norma::plan {
namespace {

/// What sharpness is judged on: a digital zoom takes nothing of it.
std::optional<Size> sensor_for_blur(Job& job) {
  const auto whole = job.facts.get(fact::whole_sensor);
  return whole ? whole : job.facts.get(fact::sensor);
}

/// A blur asked for on the protocol's sensor, times this, is the same on the kit's; 1 where no
/// other one is known.
double blur_carried(Job& job) {
  const auto asked = job.facts.get(fact::reference_sensor);
  const auto here = sensor_for_blur(job);
  return asked && here && *asked != *here ? physics::blur_scale(*asked, *here) : 1.0;
}

} // namespace

double f_number_carried(Job& job) {
  const auto asked = job.facts.get(fact::reference_sensor);
  const auto here = sensor_for_blur(job);
  if (!asked || !here || *asked == *here) return 1.0;
  const auto ratio_asked = job.facts.get(fact::ratio_asked);
  const auto ratio = job.facts.get(fact::ratio);
  if (!ratio_asked || !ratio) return physics::blur_scale(*asked, *here);
  return physics::f_number_scale(*asked, *ratio_asked, *here, *ratio,
                                 *job.facts.get(fact::pupil_ratio));
}

double marks_per_stop(const kit::Kit* kit) {
  const bool halves = kit != nullptr && kit->lens && kit->lens->marks_per_stop.known() &&
                      kit->lens->marks_per_stop.get() == 2;
  return halves ? 2.0 : 3.0;
}

namespace {

/// The mark of the lens nearest to an f-number.
FNumber nearest_mark(const Job& job, double number) {
  const double per_stop = 2.0 * marks_per_stop(job.kit());
  return FNumber{std::exp2(std::round(per_stop * std::log2(number)) / per_stop)};
}

} // namespace

void set_blur(Job& job) {
  const auto& asked = job.view.allowed_blur;
  if (asked.known()) {
    const Recording one(job.facts);
    return job.facts.put(fact::allowed_blur, asked.get() * blur_carried(job));
  }
  if (asked.broken()) return job.facts.put_broken(fact::allowed_blur);
  const Recording one(job.facts);
  job.facts.take(physics::defaults::blur);
  const FactDef<Size>& sensor =
      job.facts.has(fact::whole_sensor) ? fact::whole_sensor : fact::sensor;
  job.facts.work_out(fact::allowed_blur, physics::usual_blur, sensor);
}

namespace {

/// The lens's apertures, a converter taken into account.
struct LensApertures {
  std::optional<FNumber> widest;
  std::optional<FNumber> smallest;
  [[nodiscard]] bool one() const { return widest && smallest && *widest == *smallest; }
};
LensApertures apertures_of(const Job& job) {
  const kit::Kit* kit = job.kit();
  if (kit == nullptr || !kit->lens) return {};
  const double converter = kit->lens->converter.value_or(1.0);
  const auto behind = [&](const text::Sourced<FNumber>& own) {
    return own.known() ? std::optional(physics::f_number_with(own.get(), converter)) : std::nullopt;
  };
  return {behind(kit->lens->widest), behind(kit->lens->smallest)};
}
/// Has the lens one aperture and no other?
bool has_one_aperture(const Job& job) { return apertures_of(job).one(); }

/// A range of apertures as it is said: what is asked for, and what that is on the kit's camera.
Said range_said(const model::ApertureRange& range) {
  return range.widest == range.narrowest ? phrase::aperture(range.widest)
                                         : phrase::apertures(range.widest, range.narrowest);
}

/// Asked for and had, where they do not meet. `here`: what is asked for, on the kit's camera.
void set_reach(Job& job, const model::ApertureRange& here) {
  const model::ApertureRange& asked = job.view.aperture.get();
  const Said said = range_said(asked);
  job.facts.put(fact::aperture_asked, here.widest == asked.widest
                                          ? said
                                          : phrase::on_this_camera(said, range_said(here)));
  const LensApertures lens = apertures_of(job);
  const bool too_narrow = lens.smallest && here.widest > *lens.smallest;
  job.facts.put(fact::aperture_reach, lens.one()   ? phrase::has_only(*lens.smallest)
                                      : too_narrow ? phrase::it_ends_at(*lens.smallest)
                                                   : phrase::it_ends_at(*lens.widest));
}

} // namespace

void set_range(Job& job) {
  const Recording one(job.facts);
  const text::Sourced<model::ApertureRange>& asked = job.view.aperture;
  if (asked.broken()) {
    job.facts.put_broken(fact::widest_allowed);
    job.facts.put_broken(fact::narrowest_allowed);
    return;
  }
  std::optional<FNumber> widest;
  std::optional<FNumber> narrowest;
  std::optional<model::ApertureRange> here;
  if (asked.known()) {
    here = asked.get();
    if (const double scale = f_number_carried(job); scale != 1.0) {
      here->widest = nearest_mark(job, here->widest.value() * scale);
      here->narrowest = nearest_mark(job, here->narrowest.value() * scale);
    }
    widest = here->widest;
    narrowest = here->narrowest;
  }
  if (job.has_kit() && job.kit()->lens) {
    const LensApertures lens = apertures_of(job);
    if (lens.widest) widest = widest ? std::max(*widest, *lens.widest) : *lens.widest;
    if (lens.smallest) {
      job.facts.put(fact::lens_narrowest, *lens.smallest);
      narrowest = narrowest ? std::min(*narrowest, *lens.smallest) : *lens.smallest;
    }
  }
  if (!widest || !narrowest) {
    job.facts.put_unknown(fact::widest_allowed, missing::aperture_of_view_or_lens());
    job.facts.put_unknown(fact::narrowest_allowed, missing::aperture_of_view_or_lens());
    return;
  }
  if (here && *widest > *narrowest) {
    set_reach(job, *here);
    // What it cannot but be set to is set, and its depth is held against what must be sharp.
    if (has_one_aperture(job)) widest = narrowest = apertures_of(job).smallest;
  }
  job.facts.put(fact::widest_allowed, *widest);
  job.facts.put(fact::narrowest_allowed, *narrowest);
}

} // namespace norma::plan
